"""`slantwise check`: the faults of a crease pattern and the fewest labels to switch."""

from __future__ import annotations

import json
from argparse import Namespace
from functools import partial

from drills.flatfold import Limit, Report, check_pattern
from drills.fold_file import ImportedPattern
from trainer.cli.parser import Console, Parser, whole_number
from trainer.given import sheet_in_file
from trainer.text.check import check_in_text

FINE, FAULTY, OPEN = 0, 1, 2
SECONDS = 1.5
"""With starting, reading and telling, an answer is then there in two."""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `check`."""
    parser.description = "Tells where a crease pattern cannot fold flat, and the fewest labels to switch."
    parser.epilog = "examples:\n  slantwise check mine.fold\n  slantwise check mine.fold --json\n"
    parser.add_argument("file", metavar="FILE", help="a crease pattern as a FOLD file")
    parser.add_argument("--json", action="store_true", help="the report as JSON")
    parser.add_argument(
        "--seconds",
        metavar="N",
        type=partial(whole_number, "--seconds"),
        help="how long to search before the rest is left open; usually about two in all",
    )


def run(options: Namespace, console: Console) -> int:
    """Print the report on a file; return 0 where it folds flat, 1 where it does not, 2 where that is open."""
    limit = Limit(SECONDS if options.seconds is None else options.seconds, console.clock.ticks)
    sheet = sheet_in_file(options.file)
    report = check_pattern(sheet.pattern, sheet.exact, limit, sheet.off)
    if options.json:
        console.say(json.dumps(report_to_json(report, sheet)))
    else:
        for line in check_in_text(report, sheet):
            console.say(line)
    if report.ok:
        return FINE
    if report.is_decided:
        return FAULTY
    console.stdout.flush()
    console.complain(_why_open(report))
    return OPEN


def report_to_json(report: Report, sheet: ImportedPattern) -> dict[str, object]:
    """Return a report as JSON values, vertices and edges by their numbers in the file."""
    edges = sheet.edges
    return {
        "ok": report.ok,
        "exact": report.exact,
        "angles": sorted(sheet.vertices[vertex] for vertex in report.angles),
        "labels": sorted(sheet.vertices[vertex] for vertex in report.labels),
        "layers": report.layers,
        "repairs": [sorted(edges[edge] for edge in repair) for repair in report.repairs],
        "repairs_layers": list(report.repairs_layers),
        "more": report.more,
        "solved": {str(edges[edge]): label for edge, label in (report.solved or {}).items()},
        "clash": sorted(edges[edge] for edge in report.clash),
        "pieces": {str(piece): whole for piece, whole in sheet.pieces.items()},
        "notices": list(sheet.notices),
        "crowded": sorted(sheet.vertices[vertex] for vertex in report.crowded),
        "doubtful": sorted(sheet.vertices[vertex] for vertex in report.doubtful),
        "open": list(report.left_open),
    }


def _why_open(report: Report) -> str:
    if report.left_open:
        return "The time was not enough to decide whether it folds; --seconds 60 gives it a minute."
    if report.crowded:
        return "Points where too many creases meet are not judged, so whether it folds is left open."
    if report.doubtful:
        return "The file is rounded too coarsely to tell whether it folds; save it with more decimals."
    if not report.exact:
        return "No square grid fits these points, so whether the layers cross is left open."
    return "Whether the layers cross is left open: the sheet is too large to be searched; check it in parts."
