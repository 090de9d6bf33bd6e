"""`slantwise check`: the faults of a crease pattern and the fewest labels to switch."""

from __future__ import annotations

import json
import re
from argparse import Namespace
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from drills.flatfold import Limit, Missing, Report, check_pattern
from drills.fold_file import ImportedPattern, to_fold
from drills.geometry import Point
from drills.pattern import across_down
from trainer.cli.parser import Console, Parser, data_folder, whole_number
from trainer.given import InputError, sheet_in_file
from trainer.strokes import HOW, Remembered, letters_of, strokes_in_words
from trainer.text.check import check_in_text, place_in_text

if TYPE_CHECKING:
    from drills.pattern import Label
    from drills.svg_file import SvgDrawing

FINE, FAULTY, OPEN = 0, 1, 2
MOST_STROKES_TOLD = 3
SECONDS = 1.5
"""With starting, reading and telling, an answer is then there in two."""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `check`."""
    parser.description = "Tells where a crease pattern cannot fold flat, and the fewest labels to switch."
    parser.epilog = "examples:\n  slantwise check mine.fold\n  slantwise check mine.fold --json\n"
    parser.add_argument("file", metavar="FILE", help="a crease pattern as FOLD or SVG")
    parser.add_argument("--json", action="store_true", help="the report as JSON")
    parser.add_argument(
        "--strokes", metavar="LETTERS", help=f"what the strokes of an SVG stand for, in order: {HOW}"
    )
    parser.add_argument(
        "--at", metavar="X,Y", type=_place, help="only what is wrong at this place: so far across and down"
    )
    parser.add_argument(
        "--fill", action="store_true", help="write the sheet with labels found for its open creases"
    )
    parser.add_argument("-o", dest="out", metavar="OUT", help="the new FOLD file that --fill writes")
    parser.add_argument(
        "--seconds",
        metavar="N",
        type=partial(whole_number, "--seconds"),
        help="how long to search before the rest is left open; usually about two in all",
    )


def run(options: Namespace, console: Console) -> int:
    """Print the report on a file; return 0 where it folds flat, 1 where it does not, 2 where that is open."""
    if options.fill != bool(options.out):
        raise InputError("--fill and -o go together; write check FILE --fill -o filled.fold.")
    limit = Limit(SECONDS if options.seconds is None else options.seconds, console.clock.ticks)
    meaning = partial(_meaning, options=options, console=console)
    sheet = sheet_in_file(options.file, meaning=meaning)
    report = check_pattern(sheet.pattern, sheet.exact, limit, sheet.off)
    if options.json:
        console.say(json.dumps(report_to_json(report, sheet)))
    else:
        for line in _told(report, sheet, options.at):
            console.say(line)
    if options.fill:
        _fill(sheet, report, Path(options.out))
    if report.ok:
        return FINE
    if report.is_decided:
        return FAULTY
    console.stdout.flush()
    console.complain(_why_open(report))
    return OPEN


_PLACE = re.compile(r"\s*([0-9]{1,6}(?:[./][0-9]{1,6})?)\s*[,;]\s*([0-9]{1,6}(?:[./][0-9]{1,6})?)\s*")


def _place(text: str) -> tuple[Fraction, Fraction]:
    """Return how far across and down a place is said to be."""
    found = _PLACE.fullmatch(text)
    try:
        if found:
            return Fraction(found[1]), Fraction(found[2])
    except ZeroDivisionError:
        pass
    raise InputError("--at takes how far across and down a point is, as in --at 7,4.")


def _told(report: Report, sheet: ImportedPattern, at: tuple[Fraction, Fraction] | None) -> Iterator[str]:
    """Return the lines of the report, or those of one place."""
    if at is None:
        return check_in_text(report, sheet)
    try:
        return iter(list(place_in_text(report, sheet.pattern, *at)))
    except ValueError:
        raise InputError("No point is there; count squares across and down from the top left.") from None


def _fill(sheet: ImportedPattern, report: Report, path: Path) -> None:
    """Write the sheet with the labels found for its open creases to a file that is not there yet."""
    solved = report.solved
    if not solved:
        raise InputError("No label was found for an open crease, so nothing is written; see the report.")
    labels = [solved.get(edge, label) for edge, label in enumerate(sheet.pattern.labels())]
    try:
        with path.open("x", encoding="utf-8") as file:
            json.dump(to_fold(sheet.pattern.with_labels(labels)), file)
    except FileExistsError:
        raise InputError("There is a file at -o already, and it is kept; give another name.") from None


def _meaning(svg: SvgDrawing, options: Namespace, console: Console) -> Sequence[Label]:
    """Return what the strokes of an SVG stand for: as given, as remembered, or as a person says now."""
    from drills.svg_file import likely_labels

    remembered = Remembered(data_folder(options, console))
    if options.strokes is None and (labels := remembered.labels(svg.strokes)):
        return labels
    likely = likely_labels(svg.strokes)
    letters = "".join(likely)
    if options.strokes is not None:
        chosen = letters_of(options.strokes, len(likely))
    elif options.json or not console.is_typed:
        told = "; ".join(line.strip() for line in strokes_in_words(svg, likely)[:MOST_STROKES_TOLD])
        raise InputError(f"Confirm once what its strokes stand for, with --strokes {letters} ({told}).")
    else:
        console.say("The lines of this SVG are told apart by their strokes:")
        for line in strokes_in_words(svg, likely):
            console.say(line)
        console.say(f"Enter if this is right, or a letter for each in order, now {letters}: {HOW}.")
        chosen = letters_of(console.line() or letters, len(likely))
    remembered.keep(svg.strokes, chosen)
    return chosen


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
        "in_turn": report.in_turn,
        "clash": sorted(edges[edge] for edge in report.clash),
        "pieces": {str(piece): whole for piece, whole in sheet.pieces.items()},
        "notices": list(sheet.notices),
        "crowded": sorted(sheet.vertices[vertex] for vertex in report.crowded),
        "doubtful": sorted(sheet.vertices[vertex] for vertex in report.doubtful),
        "missing": [_missing(gap, sheet) for gap in report.missing],
        "open": list(report.left_open),
    }


def _missing(gap: Missing, sheet: ImportedPattern) -> dict[str, object]:
    """Return a missing crease: its ways as places across and down, the vertices that the first mends."""
    number = {point: sheet.vertices[vertex] for vertex, point in enumerate(sheet.pattern.vertices)}
    return {
        "ways": [[_across_down(sheet, point) for point in way.points] for way in gap.ways],
        "mends": sorted(number[point] for point in gap.ways[0].mends),
    }


def _across_down(sheet: ImportedPattern, point: Point) -> list[int | str]:
    return [int(n) if n.denominator == 1 else str(n) for n in across_down(sheet.pattern, point)]


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
