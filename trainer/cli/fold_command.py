"""`slantwise fold`: what a crease pattern becomes, as an SVG drawing or in lines of text."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drills.flatfold import FoldedShape, Limit, TearingError
from drills.pattern import CreasePattern
from trainer.board import Folding
from trainer.cli.parser import Console, Parser, data_folder
from trainer.given import InputError, PatternSource, pattern_named, spare
from trainer.strokes import known
from trainer.text.folding import shape_in_text

SECONDS = 20.0
"""What longer searches for layers would take is left undecided, and said to be so."""
_EXAMPLES = """examples:
  slantwise fold sinks-3-7
  slantwise fold mine.fold -o folded.svg
"""
TORN = "This sheet does not fold flat, so it has no folded shape; slantwise check says where it is wrong."


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `fold`."""
    parser.description = "Shows the folded shape from either side, its layers told by shading."
    parser.epilog = _EXAMPLES
    parser.add_argument(
        "sheet", metavar="FILE|CODE", help="a crease pattern as a FOLD file, or a drill's code"
    )
    parser.add_argument("-o", "--output", metavar="OUT", help="write an SVG file instead of lines of text")


def run(options: Namespace, console: Console) -> int:
    """Show or write the folded shape of the sheet that is named; InputError where it has none."""
    given = pattern_named(options.sheet, known(data_folder(options, console)))
    pattern = exact_pattern(given)
    limit = Limit(SECONDS, console.clock.ticks)
    try:
        folding = Folding.of(pattern, limit)
    except TearingError:
        raise InputError(TORN) from None
    if options.output is not None:
        _write(Path(options.output), options.sheet, folding.shape, console)
        return 0
    for line in (*given.notices, *shape_in_text(folding)):
        console.say(line)
    return 0


def exact_pattern(given: PatternSource) -> CreasePattern:
    """Return the pattern of what is given; InputError where its points are only nearly right."""
    if not given.exact:
        raise InputError("No square grid fits these points; draw the pattern on a square grid.")
    return given.pattern


def _write(path: Path, sheet: str, shape: FoldedShape, console: Console) -> None:
    from trainer.paper.shape import shape_page
    from trainer.paper.svg import page_to_svg

    if path.suffix.lower() != ".svg":
        raise InputError("The folded shape is written as SVG; give a name that ends in .svg after -o.")
    spare(path, sheet)
    path.write_text(page_to_svg(shape_page(shape, Path(sheet).name)), encoding="utf-8")
    console.say(f"Written: {path}")
