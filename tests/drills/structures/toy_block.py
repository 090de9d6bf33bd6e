"""A look-alike that is in no recipe: a square roof, added as any structure is, from its module alone.

Ridges from the four corners meet in the middle at right angles, so there is no ridge line; one hinge
leaves upward and one downward. That makes six creases in the middle, 45, 45, 90, 45, 45 and 90 degrees
apart, as in the preliminary base (T. C. Hull, arXiv:1307.1065, for such a point: 18 labellings).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from drills.geometry import Direction, Point, moved
from drills.pattern import Line
from drills.structures import DOWN, UP, Block, BlockDesign, LeavingHinge, Tile, Triangle, label_of_rank

HALF_SIDES = (1, 2, 3)


@dataclass(frozen=True)
class SquareRoof(BlockDesign):
    """A square of pleats in rings, twice ``half`` squares wide and high."""

    half: int

    def block(self) -> Block:
        """Return its block."""
        side = 2 * self.half
        hinges = (
            LeavingHinge(Point(self.half, side), UP, label_of_rank(1)),
            LeavingHinge(Point(self.half, 0), DOWN, label_of_rank(1)),
        )
        return Block(side, side, tuple(_lines(self.half)), hinges)


def _lines(half: int) -> Iterator[Line]:
    middle = Point(half, half)
    for rank in range(1, half + 1):
        away = half - rank
        for corner in (Direction(1, 1), Direction(-1, 1), Direction(-1, -1), Direction(1, -1)):
            ends = moved(middle, corner, away), moved(middle, corner, away + 1)
            yield Line(*ends, "ridge", label_of_rank(rank))
            following = Direction(-corner.dy, corner.dx)
            if away:
                yield Line(
                    moved(middle, corner, away), moved(middle, following, away), "pleat", label_of_rank(rank)
                )
        for direction in (UP, DOWN):
            ends = moved(middle, direction, away), moved(middle, direction, away + 1)
            yield Line(*ends, "hinge", label_of_rank(rank - 1))


def square_roof_tiles(_: tuple[Triangle, ...]) -> Iterator[Tile]:
    """Yield square roofs with their hinges up and down, and left and right."""
    for half in HALF_SIDES:
        tile = Tile("square roof", SquareRoof(half), 2 * half, 2 * half, frozenset((UP, DOWN)))
        yield from (tile, tile.upright())
