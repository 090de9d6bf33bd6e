"""`slantwise plan`: how to precrease the slanted stretches of a crease pattern."""

from __future__ import annotations

import json
from argparse import Namespace

from drills.flatfold import Limit, check_angles, faults
from drills.pattern import CreasePattern, number_of, place_of
from drills.plan import open_labels, plan, plan_sheet
from trainer.cli.parser import Console, Parser, data_folder, millimetres
from trainer.given import InputError, pattern_named
from trainer.strokes import known
from trainer.text.folding import shape_at_end
from trainer.text.plan import plan_in_text
from trainer.text.plan_json import plan_to_json

SECONDS = 5.0
"""What a longer search for the layers of the folded shape would take is left undecided."""
_EXAMPLES = """examples:
  slantwise plan mine.fold
  slantwise plan sinks-3-7 --size 35cm
  slantwise plan mine.fold --json
"""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `plan`."""
    parser.description = "Tells what to fold, to mark and to crease, from blank paper on, in order."
    parser.epilog = _EXAMPLES
    parser.add_argument(
        "sheet", metavar="FILE|CODE", help="a crease pattern as FOLD or SVG, or a drill's code"
    )
    parser.add_argument("--json", action="store_true", help="the plan as JSON")
    parser.add_argument(
        "--size", metavar="LENGTH", help="the sheet's longer side, as in 35cm: gives the width of a square"
    )


def _doubt(pattern: CreasePattern) -> str:
    """Return what cannot fold, the angles before the labels; empty where all can or labels are open."""
    if wrong := check_angles(pattern):
        more = f" and {number_of(len(wrong) - 1, 'other point')}" if len(wrong) > 1 else ""
        return (
            f"At {place_of(pattern, wrong[0])}{more} the angles do not fold flat, whatever the labels; "
            "slantwise check says more before you crease."
        )
    if "U" in pattern.labels() or not faults(pattern):
        return ""
    return "The labels of this pattern cannot fold; slantwise check says which to switch before you crease."


def run(options: Namespace, console: Console) -> int:
    """Print the plan of the sheet that is named; InputError where it cannot be made."""
    size = None if options.size is None else millimetres("--size", options.size)
    given = pattern_named(options.sheet, known(data_folder(options, console)))
    if not given.exact:
        raise InputError(
            "No square grid fits these points, so steps cannot be counted; draw the pattern on a square grid."
        )
    pattern = given.pattern
    if notice := _doubt(pattern):
        given = given._replace(notices=(*given.notices, notice))
    found = open_labels(pattern, plan(pattern))
    if found:
        pattern = pattern.with_labels(found.get(e, edge.label) for e, edge in enumerate(pattern.edges))
        given = given._replace(pattern=pattern)
    sheet = plan_sheet(pattern)
    if options.json:
        console.say(json.dumps(plan_to_json(sheet, given, found)))
        return 0
    limit = Limit(SECONDS, console.clock.ticks)
    for line in (*plan_in_text(sheet, given, found, size), *shape_at_end(pattern, limit)):
        console.say(line)
    return 0
