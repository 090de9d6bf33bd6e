"""Sheets: what every design of one offers, and the composed one, labelled by rank or by a search."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple, TypeAlias

from drills.flatfold import solve_layers
from drills.geometry import SYMMETRIES, HalfPlane, Point, as_int, half_planes, on_segment
from drills.geometry import lies_within as within
from drills.pattern import CreasePattern, Role, faces, to_origin
from drills.structures.block import (
    Block,
    LookAlike,
    Outline,
    exchanged,
    sheet_of,
    shifted,
    turned_block,
    with_pleats_around,
)
from drills.structures.designs import BlockDesign, block_of

Corners: TypeAlias = tuple[Point, Point, Point]
"""The corners of a triangle that goes in."""

LABEL_TRIES = 60

_SLANTED: tuple[Role, ...] = ("outline", "inside")


@lru_cache(maxsize=256)
def labelled(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern with labels for which it has a layer order; its own labels are a proposal.

    Kept are first all of them, then those of the slanted structures, then none. ValueError where no
    order is found within LABEL_TRIES each.
    """
    for proposal in _proposals(pattern):
        found = solve_layers(proposal, LABEL_TRIES)
        if found.folds:
            return proposal.with_labels(found.labels)
    raise ValueError("No labels were found with which this sheet folds flat; choose other hinges.")


def _proposals(pattern: CreasePattern) -> Iterator[CreasePattern]:
    slanted_only = pattern.with_labels(
        edge.label if edge.label == "B" or edge.role in _SLANTED else "U" for edge in pattern.edges
    )
    yield from dict.fromkeys((pattern, slanted_only, pattern.unlabelled()))


class Join(NamedTuple):
    """The two flap tips that a slanted stretch joins, its corners, and how far apart the tips are folded.

    Lengths are in squares.
    """

    tips: tuple[Point, Point]
    outline: Outline
    folded: int

    @property
    def apart(self) -> tuple[int, int]:
        """How far apart the tips are on the paper, across and down."""
        first, second = self.tips
        return abs(int(second.x - first.x)), abs(int(second.y - first.y))

    @property
    def saved(self) -> int:
        """How much further apart they would have to be if every crease ran by the grid or at 45 degrees.

        Then the longer of the two ways along the grid is as long as they are apart when folded.
        """
        return self.folded - max(self.apart)


class SheetDesign(ABC):
    """What a sheet is drawn after; a frozen value, so that equal designs are one and drawn once."""

    exchanged: bool

    @property
    @abstractmethod
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""

    @abstractmethod
    def drawn(self) -> CreasePattern:
        """Return the labelled pattern, lower left paper corner at (0, 0); ValueError where none folds."""

    @abstractmethod
    def outlines(self) -> tuple[Outline, ...]:
        """Return S, A, T, B of each slanted stretch on the sheet; a crop may leave some of them outside."""

    def look_alikes(self) -> tuple[LookAlike, ...]:
        """Return what is no slanted stretch, one inside another first; a crop may leave some outside."""
        return ()

    def joins(self) -> tuple[Join, ...]:
        """Return what each slanted stretch joins, where tips are known; a crop may leave some outside."""
        return ()

    def left_open(self) -> frozenset[int]:
        """Return the creases of the drawn sheet whose labels, or those beside them, no rank decides."""
        return frozenset()

    def parts_that_go_in(self) -> tuple[Corners, ...]:
        """Return the triangles that go in when the slanted stretches collapse, two each."""
        return tuple(part for s, a, t, b in self.outlines() for part in ((a, s, t), (b, t, s)))


@lru_cache(maxsize=512)
def draw(design: SheetDesign) -> CreasePattern:
    """Return the labelled pattern of a sheet, remembered; lower left paper corner at (0, 0)."""
    return design.drawn()


@dataclass(frozen=True)
class Sheet(SheetDesign):
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

    def drawn(self) -> CreasePattern:
        """Return the labelled pattern, for which a layer order was found.

        ValueError where parts do not go together or no order was found.
        """
        return labelled(creases_of(self))

    def outlines(self) -> tuple[Outline, ...]:
        """Return S, A, T, B of each slanted stretch; a crop may leave some outside."""
        return self._on_paper.outlines

    def look_alikes(self) -> tuple[LookAlike, ...]:
        """Return its roofs and 45-degree stretches; a crop may leave some outside."""
        return self._on_paper.look_alikes

    @property
    def _on_paper(self) -> Block:
        """The whole block with the lower left corner of the paper at (0, 0), its creases left out."""
        left, bottom, _, _ = self.crop
        bare = replace(whole_block(self), lines=(), leaving_hinges=())
        return shifted(bare, -left, -bottom)


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


def outlines(design: SheetDesign) -> tuple[Outline, ...]:
    """Return S, A, T, B of each slanted stretch on the sheet; a crop may leave some of them outside."""
    return design.outlines()


def look_alike_at(design: SheetDesign, point: Point) -> str | None:
    """Return the kind of look-alike that a point of the sheet lies in, off its edge; None where in none."""
    for kind, corners in design.look_alikes():
        if all(bound.height(point) > 0 for bound in half_planes(corners)):
            return kind
    return None


def parts_that_go_in(design: SheetDesign) -> tuple[Corners, ...]:
    """Return the triangles that go in when the slanted stretches collapse, two each."""
    return design.parts_that_go_in()


def drawn_outlines(design: SheetDesign) -> tuple[frozenset[int], ...]:
    """Return for each slanted stretch the edges of the drawn sheet that its outline has there."""
    pattern = draw(design)
    sides = [edge for edge in pattern.creases if pattern.edges[edge].role == "outline"]
    found = (
        frozenset(edge for edge in sides if _is_side_of(corners, *pattern.ends(edge)))
        for corners in design.outlines()
    )
    return tuple(outline for outline in found if outline)


def _is_side_of(corners: Outline, start: Point, end: Point) -> bool:
    """Whether both ends lie on one side of a parallelogram."""
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    return any(on_segment(start, *side) and on_segment(end, *side) for side in sides)


def lies_within(pattern: CreasePattern, outline: Iterable[int], point: Point) -> bool:
    """Whether a point of the paper lies within an outline, its sides included.

    ``outline`` are the edges that the paper shows of it; as it is convex, its middle lies on the
    inner hand of each, and so does whatever is inside.
    """
    edges = frozenset(outline)
    middle = middle_of(pattern, edges)
    return within(point, (HalfPlane.at_left(*pattern.ends(edge)).facing(middle) for edge in edges))


def middle_of(pattern: CreasePattern, outline: Iterable[int]) -> Point:
    """Return the mean of the ends of an outline's edges, which lies inside it."""
    ends = [end for edge in outline for end in pattern.ends(edge)]
    x, y = (sum((Fraction(value) for value in values), Fraction()) for values in zip(*ends, strict=True))
    return Point(as_int(x / len(ends)), as_int(y / len(ends)))


def faces_inside(pattern: CreasePattern, triangle: Sequence[Point]) -> tuple[tuple[int, ...], ...]:
    """Return the faces of the pattern, as vertex cycles, that lie within a triangle."""
    bounds = half_planes(triangle)
    return tuple(
        cycle for cycle in faces(pattern) if all(within(pattern.vertices[vertex], bounds) for vertex in cycle)
    )
