"""What fills a cell of a base: a rectangle whose sides are pleat lines of rank 0, with creases inside.

In each of its corners the creases between the two sides leave an alternating sum of angles of 0, so
that any blocks go together wherever their corners meet in a flap tip. All that is left to see to is
that every point is even: points that may be odd are nodes, and hinges run from node to node.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache
from math import isqrt
from typing import NamedTuple, TypeAlias

from drills.geometry import (
    QUARTER_TURN,
    Direction,
    Point,
    Symmetry,
    as_int,
    cross,
    half_planes,
    lies_within,
    move_between,
    moved,
)
from drills.pattern import Label, Line, Paper
from drills.structures.block import (
    DOWN,
    LEFT,
    RIGHT,
    UP,
    LookAlike,
    Outline,
    exchanged,
    turned_direction,
    with_pleats_around,
)
from drills.structures.diamond import Diamond, Framed
from drills.structures.roof import Roof
from drills.structures.stretch import Stretch
from drills.structures.triangle import TRIANGLE_345, Triangle, label_of_rank

GridPoint: TypeAlias = tuple[int, int]

RANK_ZERO: Label = "F"
"""Marks the pleat lines of rank 0 until labels are given: ranks leave open which of them take turns."""


class Node(NamedTuple):
    """A crossing where hinges may end: whether their number must be odd, and the ways they may leave."""

    is_odd: bool
    ways: tuple[Direction, ...]


@dataclass(frozen=True)
class CellBlock:
    """A block of so many squares, lower left corner (0, 0); labels by rank, U on what turns pleats.

    The sides are not among the ``lines``; ``shut`` are the crossings that no hinge may run over, since
    it would leave the grid there.
    """

    kind: str
    width: int
    height: int
    lines: tuple[Line, ...]
    nodes: Mapping[GridPoint, Node]
    shut: frozenset[GridPoint] = frozenset()
    outlines: tuple[Outline, ...] = ()
    look_alikes: tuple[LookAlike, ...] = ()

    def at(self, x: int, y: int) -> CellBlock:
        """Return the block with its lower left corner at a crossing."""
        return self._mapped(lambda point: Point(point.x + x, point.y + y), lambda direction: direction)

    def turned(self, symmetry: Symmetry) -> CellBlock:
        """Return its image under a symmetry of the square, the lower left corner again (0, 0)."""
        if symmetry not in self._images:
            self._images[symmetry] = self._image(symmetry)
        return self._images[symmetry]

    @cached_property
    def _images(self) -> dict[Symmetry, CellBlock]:
        """The images that were asked for: a layout is drawn again and again until its blocks fit."""
        return {}

    def _image(self, symmetry: Symmetry) -> CellBlock:
        corners = [symmetry.of(corner) for corner in Paper(0, 0, self.width, self.height).corners]
        left, bottom = min(p.x for p in corners), min(p.y for p in corners)

        def image(point: Point) -> Point:
            x, y = symmetry.of(point)
            return Point(x - left, y - bottom)

        turned = self._mapped(image, lambda direction: turned_direction(direction, symmetry))
        size = (self.width, self.height) if symmetry.b == 0 else (self.height, self.width)
        return replace(turned, width=size[0], height=size[1])

    def _mapped(self, image: Callable[[Point], Point], turn: Callable[[Direction], Direction]) -> CellBlock:
        nodes = {
            crossing(image(Point(*at))): Node(is_odd, tuple(map(turn, ways)))
            for at, (is_odd, ways) in self.nodes.items()
        }
        return replace(
            self,
            lines=tuple(line._replace(start=image(line.start), end=image(line.end)) for line in self.lines),
            nodes=nodes,
            shut=frozenset(crossing(image(Point(*at))) for at in self.shut),
            outlines=tuple(_image_of(corners, image) for corners in self.outlines),
            look_alikes=tuple(LookAlike(kind, _image_of(at, image)) for kind, at in self.look_alikes),
        )


def crossing(point: Point) -> GridPoint:
    """Return a point on the grid as whole numbers."""
    return int(point.x), int(point.y)


def _image_of(corners: Outline, image: Callable[[Point], Point]) -> Outline:
    one, two, three, four = corners
    return image(one), image(two), image(three), image(four)


def _bare(lines: Iterable[Line]) -> tuple[Line, ...]:
    """Return lines without the hinges, and without the labels of what turns pleats."""
    return tuple(
        line if line.role in ("pleat", "inside") else line._replace(label="U")
        for line in lines
        if line.role != "hinge"
    )


def _ring(corners: Iterable[Point], rank: int) -> Iterator[Line]:
    """Yield the sides of a pleat line that closes."""
    ring = tuple(corners)
    for start, end in zip(ring, ring[1:] + ring[:1], strict=True):
        yield Line(start, end, "pleat", label_of_rank(rank))


@lru_cache(maxsize=512)
def roof_block(width: int, height: int) -> CellBlock:
    """Return a roof: pleats in rings about a ridge line, or about a point where it is square.

    ValueError where the smaller side is odd.
    """
    if min(width, height) % 2:
        raise ValueError(f"The smaller side of a roof is even, not {min(width, height)}.")
    if width < height:
        return roof_block(height, width).turned(QUARTER_TURN)
    half = height // 2
    left, right = Point(half, half), Point(width - half, half)
    corners = Paper(0, 0, width, height).corners
    ends = (left, right, right, left)
    lines = [Line(corner, end, "ridge", "U") for corner, end in zip(corners, ends, strict=True)]
    for rank in range(1, half):
        lines += _ring(Paper(rank, rank, width - rank, height - rank).corners, rank)
    nodes = {(half, half): Node(False, (LEFT, UP, DOWN, RIGHT))}
    if width > height:
        lines.append(Line(left, right, "ridge", "U"))
        nodes = {
            (half, half): Node(True, (LEFT, UP, DOWN)),
            (width - half, half): Node(True, (RIGHT, UP, DOWN)),
        }
    return CellBlock("roof", width, height, tuple(lines), nodes, look_alikes=(LookAlike("roof", corners),))


@lru_cache(maxsize=128)
def stretch_block(units: int, pleats: int, triangle: Triangle = TRIANGLE_345) -> CellBlock:
    """Return a slanted stretch of equal sides with so many pleats around, all of them one square wide."""
    stretch = Stretch((units, units), pleats=0, triangle=triangle, widths=(1, 1, 1))
    block = with_pleats_around(stretch.block(), pleats)
    if block.edge != label_of_rank(0):
        block = exchanged(block)
    (outline,) = block.outlines
    start, a, far, b = map(crossing, outline)
    width, height = int(block.width), int(block.height)
    bounds = half_planes(outline)
    within = {(x, y) for x in range(width + 1) for y in range(height + 1) if lies_within(Point(x, y), bounds)}
    return CellBlock(
        "stretch",
        width,
        height,
        _bare(block.lines),
        {a: Node(True, (DOWN, RIGHT)), b: Node(True, (UP, LEFT))},
        frozenset(within - {start, a, far, b}),
        block.outlines,
    )


@lru_cache(maxsize=128)
def diamond_block(half: int, margin: int, length: int, place: int) -> CellBlock:
    """Return an upright roof so long with a 45-degree stretch in its field, so many squares from its sides.

    ``place`` says how many squares the stretch's lowest corner lies above the ridge line's lower end.
    ValueError where it does not lie between the ends.
    """
    field = 2 * (half + margin)
    diamond = Diamond(half + margin, half + margin + place + half, half, field)
    framed = Framed(diamond, Roof(length, field)).block()
    left, bottom, right, top = map(crossing, diamond.corners)
    nodes = {
        left: Node(True, (LEFT,)),
        right: Node(True, (RIGHT,)),
        top: Node(True, (LEFT, RIGHT)),
        bottom: Node(True, (LEFT, RIGHT)),
    }
    return CellBlock(
        "diamond",
        field,
        length,
        _bare(framed.lines),
        {**roof_block(field, length).nodes, **nodes},
        look_alikes=framed.look_alikes,
    )


@lru_cache(maxsize=16)
def three_tips_block(size: int) -> CellBlock:
    """Return the block of three flap tips, 6 by 4 squares so many times, cut into three triangles.

    The tips are its lower corners and the middle of its upper side, so that the middle triangle has
    sides 5-5-6 and the others 3-4-5. Each has its angles halved and pleats in rings round its incentre:
    nearly all of it is slanted, with the steps of a stretch, and yet there is no parallelogram.
    """
    width, height, deep = 6 * size, 4 * size, 3 * size
    low, right, top = Point(0, 0), Point(width, 0), Point(deep, height)
    lines = [Line(end, top, "pleat", RANK_ZERO) for end in (low, right)]
    lines += _triangle_lines((low, right, top))
    lines += _triangle_lines((low, top, Point(0, height)))
    lines += _triangle_lines((right, Point(width, height), top))
    # the middle one's hinge begins off the grid where size is odd, so that it is always drawn
    lines.append(Line(incentre_of((low, right, top)), Point(deep, 0), "hinge", "U"))
    nodes = {
        (deep, 0): Node(True, (DOWN,)),
        (deep, height): Node(True, (UP,)),
        (size, deep): Node(True, (LEFT, UP)),
        (width - size, deep): Node(True, (RIGHT, UP)),
    }
    corner = {(x, y) for x in range(size + 1) for y in range(deep, height)}
    corner |= {(width - x, y) for x, y in corner}
    inside = {(x, y) for x in range(1, width) for y in range(1, height)}
    look_alike = LookAlike("tips", Paper(0, 0, width, height).corners)
    return CellBlock(
        "tips",
        width,
        height,
        tuple(lines),
        nodes,
        frozenset(inside - corner),
        look_alikes=(look_alike,),
    )


def _triangle_lines(corners: tuple[Point, Point, Point]) -> Iterator[Line]:
    """Yield the ridges from the corners to the incentre, and the pleats in rings one square apart."""
    middle, radius = incentre_of(corners), _inradius(corners)
    for corner in corners:
        yield Line(corner, middle, "ridge", "U")
    rank = 1
    while rank < radius:
        share = Fraction(rank) / radius
        yield from _ring((moved(corner, move_between(corner, middle), share) for corner in corners), rank)
        rank += 1


def incentre_of(corners: tuple[Point, Point, Point]) -> Point:
    """Return where the halved angles of a triangle with whole sides meet, exactly.

    It is the mean of the corners, each counted as often as the opposite side is long.
    """
    sides = [_whole_length(corners[place - 2], corners[place - 1]) for place in range(3)]
    shares = [Fraction(side, sum(sides)) for side in sides]
    pairs = list(zip(shares, corners, strict=True))
    x, y = (
        sum((share * at.x for share, at in pairs), Fraction()),
        sum((share * at.y for share, at in pairs), Fraction()),
    )
    return Point(as_int(x), as_int(y))


def _inradius(corners: tuple[Point, Point, Point]) -> Fraction:
    """Return twice a triangle's area over the sum of its sides."""
    one, two, three = corners
    area = abs(Fraction(cross(move_between(one, two), move_between(one, three))))
    around = sum(_whole_length(corners[place - 1], corners[place]) for place in range(3))
    return area / around


def _whole_length(start: Point, end: Point) -> int:
    dx, dy = move_between(start, end)
    return isqrt(int(dx * dx + dy * dy))
