"""`slantwise print`: sheets to scale as SVG or PDF, the pattern, bare sheets to fold from, the plan."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator, Sequence
from pathlib import Path

from drills.flatfold import FoldedShape, Limit, TearingError
from drills.pattern import CreasePattern, number_of
from drills.plan import open_labels, plan
from drills.questions import make
from trainer.board import Folding
from trainer.class_set import read_set
from trainer.cli.parser import Console, Parser, data_folder, millimetres
from trainer.given import InputError, pattern_named, spare
from trainer.paper.drills import drill_pages
from trainer.paper.page import Page
from trainer.paper.pdf import NoPdfError, pages_to_pdf
from trainer.paper.sheet import RIM, SHOWN, Show, legend, sheet_drawing
from trainer.paper.steps import plan_pages
from trainer.paper.svg import page_to_svg
from trainer.paper.tiles import PAPERS, Caption, Paper, pages_of, room_on
from trainer.strokes import known
from trainer.text.plan import CAUTION, NOTHING

SECONDS = 10.0
_EXAMPLES = """examples:
  slantwise print mine.fold -o sheet.svg
  slantwise print sinks-3-7 labels-2-1 --size 150mm --paper letter -o sheets.pdf
  slantwise print mine.fold --show outline -o to-fold-from.svg
  slantwise print mine.fold --show plan -o steps.pdf
  slantwise print --set monday.json -o sheets.pdf --answers answers.pdf
"""
ON_PAPER = (
    "What is called lit is drawn thick, a lit point as a dot. Write places as (3; 1), or mark the drawing."
)
NO_PDF = 'To write PDF, install one more package with pip install "slantwise[pdf]"; or write .svg files.'


def add_arguments(parser: Parser) -> None:
    """Add the arguments of `print`."""
    parser.description = "Draws sheets to scale, tiled where they are larger than the paper."
    parser.epilog = _EXAMPLES
    parser.add_argument("sheets", metavar="FILE|CODE", nargs="*", help="FOLD files or codes of drills")
    parser.add_argument("--set", metavar="SET", help="the drills of a class set, two to a page")
    parser.add_argument("--answers", metavar="OUT", help="with --set: the answers, in the same order")
    parser.add_argument("-o", "--output", metavar="OUT", required=True, help="a name ending in .svg or .pdf")
    parser.add_argument("--size", metavar="LENGTH", help="the sheet's longer side, as in 150mm")
    parser.add_argument("--paper", choices=PAPERS, default="a4", help="A4 if nothing is said")
    parser.add_argument(
        "--show",
        choices=(*SHOWN, "plan"),
        default="all",
        help="what is drawn; plan: the steps",
    )


def run(options: Namespace, console: Console) -> int:
    """Write the sheets that are named; InputError where one cannot be drawn."""
    path = _checked(options.output)
    if (options.set is None) == (not options.sheets) or (options.answers and options.set is None):
        raise InputError("Name files or codes, or else a class set by --set; --answers goes with a set.")
    if options.set is not None:
        return _print_set(path, options, console)
    size = float(millimetres("--size", options.size)) if options.size is not None else None
    meaning = known(data_folder(options, console))
    limit = Limit(SECONDS, console.clock.ticks)
    paper, pages = PAPERS[options.paper], list[Page]()
    for named in options.sheets:
        given = pattern_named(named, meaning)
        if not given.exact:
            raise InputError("No square grid fits these points; draw the pattern on a square grid.")
        title = Path(named).name
        if options.show == "plan":
            pages += _planned(given.pattern, title, paper, limit)
        else:
            pages += _drawn(given.pattern, title, paper, options.show, size)
    for written in _write(path, pages, options.sheets):
        console.say(f"Written: {written}")
    return 0


def _checked(name: str) -> Path:
    path = Path(name)
    if path.suffix.lower() not in (".svg", ".pdf"):
        raise InputError("Sheets are written as SVG or PDF; give a name that ends in .svg or .pdf.")
    return path


def _print_set(path: Path, options: Namespace, console: Console) -> int:
    """Write the drills of a set, and their answers where they are asked for."""
    drills = [make(code) for code in read_set(Path(options.set))]
    answers = _checked(options.answers) if options.answers else None
    paper, name = PAPERS[options.paper], Path(options.set).stem
    strokes = tuple(legend(("M", "V", "B")))
    for out, answered in ((path, False), (answers, True)):
        if out is not None:
            caption = Caption(
                f"{name}{', answers' * answered}", f"{number_of(len(drills), 'drill')}", strokes, (ON_PAPER,)
            )
            for written in _write(out, list(drill_pages(drills, caption, paper, answered)), [options.set]):
                console.say(f"Written: {written}")
    return 0


def _drawn(
    pattern: CreasePattern, title: str, paper: Paper, show: Show, size: float | None
) -> Iterator[Page]:
    """Yield the pages of one sheet."""
    left, bottom, right, top = pattern.box
    paper = paper.turned_for(is_wide=right - left > top - bottom)
    longer = size or _largest(pattern, paper)
    drawing = sheet_drawing(pattern, longer, show, title)
    square = longer / float(max(right - left, top - bottom))
    strokes = tuple(legend(pattern.labels() if show == "all" else ("B",)))
    lines = [f"One square is {square:.2f} mm. Places count squares across and down from the top left corner."]
    yield from pages_of(drawing, Caption(title, SHOWN[show], strokes, [*lines, CAUTION[1]]), paper)


def _largest(pattern: CreasePattern, paper: Paper) -> float:
    """Return the longer side of the sheet at which it just fits a page."""
    left, bottom, right, top = pattern.box
    wide, high = (length - 2 * RIM for length in room_on(paper))
    across, up = float(right - left), float(top - bottom)
    return min(wide / across, high / up) * max(across, up)


def _planned(pattern: CreasePattern, title: str, paper: Paper, limit: Limit) -> Iterator[Page]:
    """Yield a sheet of steps for each stretch, labels found where they are open."""
    found = open_labels(pattern, plan(pattern))
    pattern = pattern.with_labels(found.get(e, edge.label) for e, edge in enumerate(pattern.edges))
    plans = plan(pattern)
    if not plans:
        raise InputError(NOTHING)
    shape = _shape(pattern, limit)
    strokes = tuple(legend(("M", "V", "B")))
    for number, planned in enumerate(plans, 1):
        count = f" {number} of {len(plans)}" if len(plans) > 1 else ""
        says = f"slanted stretch{count}, triangle {planned.triangle.name}"
        yield from plan_pages(pattern, planned, shape, Caption(title, says, strokes, CAUTION), paper)


def _shape(pattern: CreasePattern, limit: Limit) -> FoldedShape | None:
    try:
        shape = Folding.of(pattern, limit).shape
    except TearingError:
        return None
    return shape if shape.is_ordered else None


def _write(path: Path, pages: Sequence[Page], read: Sequence[str]) -> list[Path]:
    """Write all pages into one PDF, or one SVG each, numbered where there are several."""
    if path.suffix.lower() == ".pdf":
        spare(path, *read)
        try:
            path.write_bytes(pages_to_pdf(pages))
        except NoPdfError:
            raise InputError(NO_PDF) from None
        return [path]
    several = len(pages) > 1
    paths = [path.with_stem(f"{path.stem}-{n}") if several else path for n in range(1, len(pages) + 1)]
    for each in paths:
        spare(each, *read)
    for each, page in zip(paths, pages, strict=True):
        each.write_text(page_to_svg(page), encoding="utf-8")
    return paths
