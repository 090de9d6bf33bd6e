"""`slantwise make`: a chosen stretch with pleats around as a file, or a part cut out of a file."""

from __future__ import annotations

import json
from argparse import Namespace
from functools import partial
from pathlib import Path

from drills.fold_file import to_fold
from drills.geometry import as_int
from drills.pattern import CreasePattern, Line, Paper, build, number_of, place, to_origin
from drills.structures import TRIANGLE_345, TRIANGLES, Stretch, draw
from trainer.cli.parser import Console, Parser, data_folder, whole_number
from trainer.given import InputError, pattern_named
from trainer.strokes import known

MOST_UNITS, MOST_PLEATS, LARGEST_GRID = 12, 40, 200
_EXAMPLES = """examples:
  slantwise make --triangle 3-4-5 --units 2 1 --pleats 2 --facing 3 -o x.fold
  slantwise make --triangle 5-12-13 --grid 32 -o x.fold
  slantwise make mine.fold --crop 4 6 20 18 -o part.fold
"""


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `make`."""
    parser.description = "Writes a slanted stretch of your choice, or a part of a pattern, as a FOLD file."
    parser.epilog = _EXAMPLES
    parser.add_argument("sheet", nargs="?", metavar="FILE|CODE", help="with --crop: the pattern to cut from")
    parser.add_argument("--triangle", metavar="NAME", help=f"one of {', '.join(t.name for t in TRIANGLES)}")
    number = {option: partial(whole_number, f"--{option}") for option in _NUMBERS}
    parser.add_argument(
        "--units", nargs=2, metavar="N", type=number["units"], help="how many unit sides both sides are long"
    )
    parser.add_argument("--pleats", metavar="N", type=number["pleats"], help="pleats around; 1 if not said")
    parser.add_argument("--facing", metavar="N", type=number["facing"], help="1 to 4")
    parser.add_argument(
        "--grid",
        metavar="N",
        type=number["grid"],
        help="the largest of equal sides that fits so many squares",
    )
    parser.add_argument(
        "--crop",
        nargs=4,
        metavar="N",
        type=number["crop"],
        help="the part from so far across and down to so far across and down",
    )
    parser.add_argument("-o", dest="out", metavar="OUT", required=True, help="the new file, ending in .fold")


_NUMBERS = ("units", "pleats", "facing", "grid", "crop")
_OF_A_STRETCH = ("triangle", "units", "pleats", "facing", "grid")


def run(options: Namespace, console: Console) -> int:
    """Write the pattern; InputError where there is none such, or a file of that name is there."""
    path = Path(options.out)
    if path.suffix.lower() != ".fold":
        raise InputError("The pattern is written as FOLD; give -o a name that ends in .fold.")
    if options.sheet is not None:
        pattern = _part(options, console)
    elif options.crop is not None:
        raise InputError("--crop cuts from a pattern; name its file before it.")
    else:
        pattern = draw(_stretch(options))
    try:
        with path.open("x", encoding="utf-8") as file:
            json.dump(to_fold(pattern), file)
    except FileExistsError:
        raise InputError("There is a file at -o already, and it is kept; give another name.") from None
    left, bottom, right, top = pattern.box
    creases = number_of(len(pattern.creases), "crease")
    console.say(f"Written: {path}, {right - left} across and {top - bottom} down, {creases}.")
    return 0


def _stretch(options: Namespace) -> Stretch:
    """Return the stretch that the options describe."""
    triangle = next((t for t in TRIANGLES if t.name == (options.triangle or TRIANGLE_345.name)), None)
    if triangle is None:
        raise InputError(
            f"There is no such triangle here; choose from {', '.join(t.name for t in TRIANGLES)}."
        )
    pleats = _within("--pleats", options.pleats, 1, 0, MOST_PLEATS)
    facing = _within("--facing", options.facing, 1, 1, 4) - 1
    if options.grid is None:
        first, second = options.units or (1, 1)
        for units in (first, second):
            _within("--units", units, 1, 1, MOST_UNITS)
        return Stretch((first, second), pleats=pleats, facing=facing, triangle=triangle)
    if options.units is not None:
        raise InputError("--grid finds the units; leave out --units or --grid.")
    grid = _within("--grid", options.grid, 1, 1, LARGEST_GRID)
    stretches = (
        Stretch((units, units), pleats=pleats, facing=facing, triangle=triangle)
        for units in range(MOST_UNITS, 0, -1)
    )
    largest = next((each for each in stretches if max(each.size) <= grid), None)
    if largest is None:
        least = max(Stretch((1, 1), pleats=pleats, triangle=triangle).size)
        raise InputError(f"The smallest such stretch takes {least} squares; give a larger --grid.")
    return largest


def _within(option: str, value: int | None, usual: int, least: int, most: int) -> int:
    """Return a number, the usual one where none is given; InputError where it is too small or too large."""
    number = usual if value is None else value
    if not least <= number <= most:
        raise InputError(f"{option} goes from {least} to {most}.")
    return number


def _part(options: Namespace, console: Console) -> CreasePattern:
    """Return the part of a pattern that --crop names, counted from the top left corner."""
    if options.crop is None or any(getattr(options, option) is not None for option in _OF_A_STRETCH):
        raise InputError("To cut a part out of a pattern give --crop and -o alone, as in --crop 4 6 20 18.")
    given = pattern_named(options.sheet, known(data_folder(options, console)))
    if not given.exact:
        raise InputError("No square grid fits these points, so there are no squares to crop by.")
    pattern = given.pattern
    left, bottom, right, top = pattern.box
    borders = (pattern.ends(e) for e, edge in enumerate(pattern.edges) if edge.label == "B")
    if not all(x in (left, right) or y in (bottom, top) for ends in borders for x, y in ends):
        raise InputError("Only a rectangular sheet can be cut; this paper has another outline.")
    first_x, first_y, last_x, last_y = options.crop
    if not (first_x < last_x <= right - left and first_y < last_y <= top - bottom):
        corner = place(pattern, pattern.vertices[0]._replace(x=right, y=bottom))
        raise InputError(f"--crop goes from the top left to the bottom right, at most to {corner}.")
    paper = Paper(*map(as_int, (left + first_x, top - last_y, left + last_x, top - first_y)))
    lines = (Line(*pattern.ends(e), pattern.edges[e].role, pattern.edges[e].label) for e in pattern.creases)
    return to_origin(build(lines, paper))
