"""Labels for a sheet with several structures: by rank where that folds, else by the layer search."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

from drills.flatfold import conditions_of, find_order, fold, label_pairs, solve_layers
from drills.geometry import SYMMETRIES, Point, as_int, cross, move_between, on_segment
from drills.pattern import CreasePattern, Paper, Role, build, to_origin, turned
from drills.structures import stretch
from drills.structures.block import Block, Outline, exchanged, sheet_of, turned_block, with_pleats_around
from drills.structures.designs import BlockDesign, block_of
from drills.structures.diamond import Diamond, diamond_field
from drills.structures.stretch import Stretch, draw

LABEL_TRIES = 60

_SLANTED: tuple[Role, ...] = ("outline", "inside")


@lru_cache(maxsize=256)
def labelled(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern with labels for which it has a layer order; its own labels are a proposal.

    Kept are first all of them, then those of the slanted structures, then none. ValueError where no
    order is found within LABEL_TRIES each.
    """
    folded = fold(pattern)
    conditions = conditions_of(folded)
    for proposal in _proposals(pattern):
        if find_order(conditions, label_pairs(folded, proposal.labels()), LABEL_TRIES).folds:
            return _completed(proposal)
    raise ValueError("No labels were found with which this sheet folds flat; choose other hinges.")


def _completed(proposal: CreasePattern) -> CreasePattern:
    """Return a pattern known to fold with labels chosen for the creases that have none."""
    if "U" not in proposal.labels():
        return proposal
    return proposal.with_labels(solve_layers(proposal, LABEL_TRIES).labels)


def _proposals(pattern: CreasePattern) -> Iterator[CreasePattern]:
    slanted_only = pattern.with_labels(
        edge.label if edge.label == "B" or edge.role in _SLANTED else "U" for edge in pattern.edges
    )
    yield from dict.fromkeys((pattern, slanted_only, pattern.unlabelled()))


@dataclass(frozen=True)
class Sheet:
    """A part with pleats around, in one of SYMMETRIES by index, labels exchanged or not, and cropped.

    ``crop`` cuts so many squares off at the left, bottom, right and top of the sheet as it faces.
    """

    part: BlockDesign
    pleats: int = 1
    facing: int = 0
    exchanged: bool = False
    crop: tuple[int, int, int, int] = (0, 0, 0, 0)

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""
        block, (left, bottom, right, top) = whole_block(self), self.crop
        return int(block.width) - left - right, int(block.height) - bottom - top


@lru_cache(maxsize=256)
def whole_block(sheet: Sheet) -> Block:
    """Return the sheet as one block before the crop, labelled by rank."""
    block = turned_block(with_pleats_around(block_of(sheet.part), sheet.pleats), SYMMETRIES[sheet.facing])
    return exchanged(block) if sheet.exchanged else block


def creases_of(sheet: Sheet) -> CreasePattern:
    """Return the sheet's creases, lower left paper corner at (0, 0), with the labels that ranks give.

    These need not fold; no layer order is sought.
    """
    return to_origin(sheet_of(whole_block(sheet), sheet.crop))


@lru_cache(maxsize=256)
def draw_sheet(sheet: Sheet) -> CreasePattern:
    """Return the labelled pattern of a sheet, for which a layer order was found.

    ValueError where parts do not go together or no order was found.
    """
    return labelled(creases_of(sheet))


def landmarks(sheet: Sheet) -> tuple[Outline, ...]:
    """Return for each slanted stretch its corners S, A, T, B on the sheet; a crop may leave some outside."""
    left, bottom, _, _ = sheet.crop

    def on_paper(point: Point) -> Point:
        return Point(point.x - left, point.y - bottom)

    return tuple(
        (on_paper(s), on_paper(a), on_paper(t), on_paper(b)) for s, a, t, b in whole_block(sheet).outlines
    )


@dataclass(frozen=True)
class FieldSheet:
    """One 45-degree stretch in an open field of pleats, so many squares high; no block, so a sheet alone."""

    diamond: Diamond
    height: int
    facing: int = 0
    exchanged: bool = False

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""
        size = self.diamond.field, self.height
        return size if SYMMETRIES[self.facing].b == 0 else (size[1], size[0])


def draw_field_sheet(sheet: FieldSheet) -> CreasePattern:
    """Return the labelled pattern of such a sheet, for which a layer order was found."""
    paper = Paper(0, 0, sheet.diamond.field, sheet.height)
    pattern = turned(build(diamond_field(sheet.diamond, 0, sheet.height), paper), SYMMETRIES[sheet.facing])
    return labelled(pattern.switched(pattern.creases) if sheet.exchanged else pattern)


SheetDesign: TypeAlias = Stretch | Sheet | FieldSheet


def draw_figure(figure: SheetDesign) -> CreasePattern:
    """Return the labelled pattern of a sheet, its lower left paper corner at (0, 0)."""
    match figure:
        case Stretch():
            return draw(figure)
        case Sheet():
            return draw_sheet(figure)
        case FieldSheet():
            return draw_field_sheet(figure)


def is_proven(figure: SheetDesign) -> bool:
    """Whether a sheet has a layer order with its labels; ValueError for several structures without one.

    Only a lone stretch is drawn before an order is sought.
    """
    return (
        stretch.stretch_is_proven(figure)
        if isinstance(figure, Stretch)
        else bool(draw_figure(figure).vertices)
    )


def outlines(figure: SheetDesign) -> tuple[Outline, ...]:
    """Return S, A, T, B of each slanted stretch on the sheet; a crop may leave some of them outside."""
    match figure:
        case Stretch():
            s, a, t, b = stretch.outline(figure)
            return ((s, a, t, b),)
        case Sheet():
            return landmarks(figure)
        case FieldSheet():
            return ()


def parts_that_go_in(figure: SheetDesign) -> tuple[stretch.Corners, ...]:
    """Return the triangles that go in when the slanted stretches collapse, two each."""
    if isinstance(figure, Stretch):
        return stretch.parts_of_stretch(figure)
    return tuple(part for s, a, t, b in outlines(figure) for part in ((a, s, t), (b, t, s)))


def drawn_outlines(figure: SheetDesign) -> tuple[frozenset[int], ...]:
    """Return for each slanted stretch the edges of the drawn sheet that its outline has there."""
    pattern = draw_figure(figure)
    sides = [edge for edge in pattern.creases if pattern.edges[edge].role == "outline"]
    found = (
        frozenset(edge for edge in sides if _is_side_of(corners, *pattern.ends(edge)))
        for corners in outlines(figure)
    )
    return tuple(outline for outline in found if outline)


def _is_side_of(corners: Outline, start: Point, end: Point) -> bool:
    """Whether both ends lie on one side of a parallelogram."""
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    return any(on_segment(start, *side) and on_segment(end, *side) for side in sides)


def lies_within(pattern: CreasePattern, outline: Iterable[int], place: Point) -> bool:
    """Whether a place of the paper lies within an outline, its sides included.

    ``outline`` are the edges that the paper shows of it; as it is convex, its middle lies on the
    inner hand of each, and so does whatever is inside.
    """
    edges = frozenset(outline)
    middle = middle_of(pattern, edges)
    return all(
        cross(way, move_between(start, place)) * cross(way, move_between(start, middle)) >= 0
        for start, way in ((start, move_between(start, end)) for start, end in map(pattern.ends, edges))
    )


def middle_of(pattern: CreasePattern, outline: Iterable[int]) -> Point:
    """Return the mean of the ends of an outline's edges, which lies inside it."""
    ends = [end for edge in outline for end in pattern.ends(edge)]
    x, y = (sum((Fraction(value) for value in values), Fraction()) for values in zip(*ends, strict=True))
    return Point(as_int(x / len(ends)), as_int(y / len(ends)))
