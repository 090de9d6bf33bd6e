"""The 45-degree roof: a rectangle of pleats in rings, which a person may take for a slanted stretch.

Ridges run from the four corners at 45 degrees to the ends of the ridge line. Each end has three
ridges, so one hinge leaves it. The edge of the rectangle is the pleat line of rank 0.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Literal, TypeAlias, get_args

from drills.geometry import Direction, Point, moved
from drills.pattern import Line, Paper
from drills.structures.block import Block, LeavingHinge, LookAlike
from drills.structures.designs import BlockDesign, Tile
from drills.structures.triangle import Triangle, label_of_rank

RoofHinge: TypeAlias = Literal["side", "up", "down"]

ROOF_HINGES: tuple[tuple[RoofHinge, RoofHinge], ...] = tuple(product(get_args(RoofHinge), repeat=2))

_LONGEST = 14
_HIGHEST = 6


@dataclass(frozen=True)
class Roof(BlockDesign):
    """A roof so many pleats wide and high, wider than high, the height even.

    ``hinges`` say which way the hinge leaves the left and the right end of the ridge line: ``side``
    is towards the short side there. Labels by rank fold, layers included, except where both go up or
    both down and are longer, to the paper's edge, than the ridge line. ValueError for another size.
    """

    width: int
    height: int
    hinges: tuple[RoofHinge, RoofHinge] = ("side", "side")

    def __post_init__(self) -> None:
        if not self.width > self.height > 0 or self.height % 2:
            raise ValueError(
                f"A roof must be wider than high and its height even, not {self.width} by {self.height}."
            )

    @property
    def ridge_line(self) -> tuple[Point, Point]:
        """The left and the right end of the ridge line, the lower left corner being (0, 0)."""
        half = self.height // 2
        return Point(half, half), Point(self.width - half, half)

    @property
    def directions(self) -> tuple[Direction, Direction]:
        """The directions in which the hinges leave."""
        left = {"side": Direction(-1, 0), "up": Direction(0, 1), "down": Direction(0, -1)}
        right = left | {"side": Direction(1, 0)}
        return left[self.hinges[0]], right[self.hinges[1]]

    def block(self) -> Block:
        """Return the block of the roof."""
        half = self.height // 2
        hinges = tuple(
            LeavingHinge(moved(end, direction, half), direction, label_of_rank(1))
            for end, direction in zip(self.ridge_line, self.directions, strict=True)
        )
        corners = Paper(0, 0, self.width, self.height).corners
        look_alikes = (LookAlike("roof", corners),)
        return Block(self.width, self.height, tuple(roof_lines(self)), hinges, look_alikes=look_alikes)


def roof_lines(roof: Roof) -> Iterator[Line]:
    """Yield the lines inside a roof, labelled by rank; its edge is not among them."""
    yield from _corner_ridges(roof)
    yield from _rings(roof)
    yield Line(*roof.ridge_line, "ridge", label_of_rank(roof.height // 2))
    for end, direction in zip(roof.ridge_line, roof.directions, strict=True):
        for rank in range(roof.height // 2, 0, -1):
            begin = moved(end, direction, roof.height // 2 - rank)
            yield Line(begin, moved(begin, direction), "hinge", label_of_rank(rank - 1))


def _corner_ridges(roof: Roof) -> Iterator[Line]:
    """Yield the ridges from the corners to the ridge line, each piece of the kind of its inner end."""
    corners = (
        (Point(0, 0), Direction(1, 1)),
        (Point(roof.width, 0), Direction(-1, 1)),
        (Point(roof.width, roof.height), Direction(-1, -1)),
        (Point(0, roof.height), Direction(1, -1)),
    )
    for corner, inward in corners:
        for rank in range(1, roof.height // 2 + 1):
            start, end = moved(corner, inward, rank - 1), moved(corner, inward, rank)
            yield Line(start, end, "ridge", label_of_rank(rank))


def _rings(roof: Roof) -> Iterator[Line]:
    for rank in range(1, roof.height // 2):
        yield from _ring(Point(rank, rank), Point(roof.width - rank, roof.height - rank), rank)


def _ring(low: Point, high: Point, rank: int) -> Iterator[Line]:
    """Yield the four sides of the pleat line that runs round a rectangle, given by two corners."""
    corners = (low, Point(high.x, low.y), high, Point(low.x, high.y))
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Line(start, end, "pleat", label_of_rank(rank))


def roof_tiles(_: tuple[Triangle, ...]) -> Iterator[Tile]:
    """Yield roofs of the sizes that sheets are composed of, lying and upright, with all their hinges."""
    for height in range(2, _HIGHEST + 1, 2):
        for width, hinges in product(range(height + 1, _LONGEST + 1), ROOF_HINGES):
            roof = Roof(width, height, hinges)
            is_by_rank = hinges[0] == "side" or hinges[0] != hinges[1]
            lying = Tile("roof", roof, width, height, frozenset(roof.directions), is_by_rank)
            yield from (lying, lying.upright())
