"""`slantwise plan`: how to precrease the slanted stretches of a crease pattern."""

from __future__ import annotations

import json
from argparse import Namespace

from drills.flatfold import Limit, faults
from drills.pattern import CreasePattern
from drills.plan import open_labels, plan
from trainer.cli.parser import Console, Parser, data_folder
from trainer.given import InputError, pattern_named
from trainer.strokes import known
from trainer.text.folding import shape_at_end
from trainer.text.plan import plan_in_text, plan_to_json

SECONDS = 5.0
"""What a longer search for the layers of the folded shape would take is left undecided."""
_EXAMPLES = """examples:
  slantwise plan mine.fold
  slantwise plan sinks-3-7
  slantwise plan mine.fold --json
"""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `plan`."""
    parser.description = "Tells what to mark and to crease for each slanted stretch, in order."
    parser.epilog = _EXAMPLES
    parser.add_argument(
        "sheet", metavar="FILE|CODE", help="a crease pattern as FOLD or SVG, or a drill's code"
    )
    parser.add_argument("--json", action="store_true", help="the plan as JSON")


def _doubt(pattern: CreasePattern) -> str:
    """Return that labels cannot fold as they are, empty where they can or are not all given."""
    if "U" in pattern.labels() or not faults(pattern):
        return ""
    return "The labels of this pattern cannot fold; slantwise check says which to switch before you crease."


def run(options: Namespace, console: Console) -> int:
    """Print the plan of the sheet that is named; InputError where it cannot be made."""
    given = pattern_named(options.sheet, known(data_folder(options, console)))
    if not given.exact:
        raise InputError(
            "No square grid fits these points, so steps cannot be counted; draw the pattern on a square grid."
        )
    pattern = given.pattern
    plans = plan(pattern)
    if notice := _doubt(pattern):
        given = given._replace(notices=(*given.notices, notice))
    found = open_labels(pattern, plans)
    if found:
        pattern = pattern.with_labels(found.get(e, edge.label) for e, edge in enumerate(pattern.edges))
        given, plans = given._replace(pattern=pattern), plan(pattern)
    if options.json:
        console.say(json.dumps(plan_to_json(plans, given, found)))
    else:
        limit = Limit(SECONDS, console.clock.ticks)
        for line in (*plan_in_text(plans, given, found), *shape_at_end(pattern, limit)):
            console.say(line)
    return 0
