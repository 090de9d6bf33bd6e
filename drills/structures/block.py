"""Blocks: rectangles whose edge is itself a pleat line, with creases inside and hinges that leave.

Pleats run round a block in rings, with 45-degree ridges from its corners, and blocks can be put
together (see ``joining``). The lower left corner is (0, 0).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple, TypeAlias

from drills.exact.plane import Direction, Exact, Point, moved
from drills.exact.symmetry import MIRROR, QUARTER_TURN, Symmetry
from drills.pattern.building import Line, Paper, build
from drills.pattern.crease_pattern import OTHER_LABEL, CreasePattern, Label

Outline: TypeAlias = tuple[Point, Point, Point, Point]

RIGHT, UP, LEFT, DOWN = Direction(1, 0), Direction(0, 1), Direction(-1, 0), Direction(0, -1)


class Exit(NamedTuple):
    """A hinge that leaves a block: a point of its edge, the way out, the label of the piece that follows."""

    place: Point
    way: Direction
    label: Label


@dataclass(frozen=True)
class Block:
    """A rectangle whose edge is a pleat line labelled ``edge``; sizes in squares, pleats ``pleat`` wide.

    ``lines`` lie inside, the edge not among them; ``outlines`` are the corners S, A, T, B of each
    slanted stretch.
    """

    width: Exact
    height: Exact
    lines: tuple[Line, ...]
    exits: tuple[Exit, ...]
    edge: Label = "M"
    outlines: tuple[Outline, ...] = ()
    pleat: int = 1

    @property
    def corners(self) -> Outline:
        """The corners counterclockwise from the lower left."""
        return Paper(0, 0, self.width, self.height).corners

    def exits_to(self, way: Direction) -> tuple[Exit, ...]:
        """Return the hinges that leave this way."""
        return tuple(exit_ for exit_ in self.exits if exit_.way == way)


def sheet_of(block: Block, crop: tuple[int, int, int, int] = (0, 0, 0, 0)) -> CreasePattern:
    """Return the pattern on paper that ends at the block's edge, or so much further in.

    The crop counts squares at the left, bottom, right and top.
    """
    left, bottom, right, top = crop
    return build(block.lines, Paper(left, bottom, block.width - right, block.height - top))


def with_pleats_around(block: Block, pleats: int) -> Block:
    """Return the block with so many more pleat lines around it and its hinges prolonged."""
    for _ in range(pleats):
        block = _with_one_around(block)
    return block


def _with_one_around(block: Block) -> Block:
    new = [*block.lines, *_edge_lines(block), *_corner_pieces(block), *_hinge_pieces(block)]
    exits = tuple(
        Exit(moved(exit_.place, exit_.way, block.pleat), exit_.way, OTHER_LABEL[exit_.label])
        for exit_ in block.exits
    )
    wider = replace(
        block,
        width=block.width + 2 * block.pleat,
        height=block.height + 2 * block.pleat,
        lines=tuple(new),
        exits=exits,
        edge=OTHER_LABEL[block.edge],
    )
    return shifted(wider, block.pleat, block.pleat)


def _edge_lines(block: Block) -> Iterator[Line]:
    corners = block.corners
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Line(start, end, "pleat", block.edge)


def _corner_pieces(block: Block) -> Iterator[Line]:
    """Yield the ridges from the corners to those one pleat further out, of the kind of the inner end."""
    ways = (Direction(-1, -1), Direction(1, -1), Direction(1, 1), Direction(-1, 1))
    for corner, way in zip(block.corners, ways, strict=True):
        yield Line(corner, moved(corner, way, block.pleat), "ridge", block.edge)


def _hinge_pieces(block: Block) -> Iterator[Line]:
    for place, way, label in block.exits:
        yield Line(place, moved(place, way, block.pleat), "hinge", label)


def shifted(block: Block, right: Exact, up: Exact) -> Block:
    """Return the block's lines, hinges and outlines moved so far; its corner counts as (0, 0) as before."""
    return _mapped(block, lambda point: Point(point.x + right, point.y + up), lambda way: way)


def turned_block(block: Block, symmetry: Symmetry) -> Block:
    """Return the block's image under a symmetry of the square, its lower left corner again (0, 0)."""
    images = [symmetry.of(corner) for corner in block.corners]
    left, bottom = min(p.x for p in images), min(p.y for p in images)

    def image(point: Point) -> Point:
        x, y = symmetry.of(point)
        return Point(x - left, y - bottom)

    turned = _mapped(block, image, lambda way: Direction(*map(int, symmetry.of(Point(*way)))))
    if symmetry.b == 0:
        return turned
    return replace(turned, width=block.height, height=block.width)


def mirrored(block: Block) -> Block:
    """Return the block with left and right exchanged."""
    return turned_block(block, MIRROR)


def quarter_turned(block: Block) -> Block:
    """Return the block turned a quarter counterclockwise."""
    return turned_block(block, QUARTER_TURN)


def exchanged(block: Block) -> Block:
    """Return the block with mountains and valleys exchanged."""
    return replace(
        block,
        lines=tuple(line._replace(label=OTHER_LABEL[line.label]) for line in block.lines),
        exits=tuple(exit_._replace(label=OTHER_LABEL[exit_.label]) for exit_ in block.exits),
        edge=OTHER_LABEL[block.edge],
    )


def _mapped(block: Block, image: Callable[[Point], Point], turn: Callable[[Direction], Direction]) -> Block:
    return replace(
        block,
        lines=tuple(line._replace(start=image(line.start), end=image(line.end)) for line in block.lines),
        exits=tuple(Exit(image(e.place), turn(e.way), e.label) for e in block.exits),
        outlines=tuple((image(s), image(a), image(t), image(b)) for s, a, t, b in block.outlines),
    )
