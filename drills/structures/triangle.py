"""The right triangles that slanted stretches are made of, their sides, and how each lies on a sheet.

Their half angles give whole-number slopes. The finder tells the five, each in four facings, apart by
directions alone. Sides and corners are counted round the outline from S: sides S-A, A-T, T-B, B-S,
corners S, A, T, B, so that side i begins at corner i and ends at the next.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from drills.geometry import FACINGS, Direction, Move, Point, Symmetry, direction_of, moved, opposite
from drills.pattern import Label

Four = tuple[Direction, Direction, Direction, Direction]
FAR_CORNERS = (0, 2)
_UP_OUT = Direction(1, 1)
_RIDGES = (Direction(-1, -1), Direction(1, -1), Direction(1, 1), Direction(-1, 1))
_PLEATS = (Direction(1, 0), Direction(0, -1), Direction(-1, 0), Direction(0, 1))


class Triangle(NamedTuple):
    """A Pythagorean triangle with the two outline directions that enclose 45 degrees.

    ``width`` is the narrowest pleat, in squares, that keeps every turning point on the grid.
    """

    name: str
    shallow: Direction
    steep: Direction
    width: int

    @property
    def inside(self) -> Direction:
        """The direction of the inside lines: twice the shallow side's angle (its Gaussian square)."""
        p, q = self.shallow
        return direction_of(Move(p * p - q * q, 2 * p * q))

    @property
    def unit_sides(self) -> tuple[Move, Move]:
        """The parts of the shallow and of the steep side along which one pleat turns."""
        (p, q), (r, s) = self.shallow, self.steep
        return Move(Fraction(p * self.width, q), self.width), Move(self.width, Fraction(s * self.width, r))


TRIANGLE_345 = Triangle("3-4-5", Direction(3, 1), Direction(1, 2), 1)

TRIANGLES = (
    TRIANGLE_345,
    Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 2),
    Triangle("8-15-17", Direction(4, 1), Direction(3, 5), 3),
    Triangle("7-24-25", Direction(7, 1), Direction(3, 4), 3),
    Triangle("20-21-29", Direction(5, 2), Direction(3, 7), 6),
)
"""The triangles met in folding, each with one of its two pairs of outline directions."""


@dataclass(frozen=True)
class Parallelogram:
    """So many unit sides of a triangle along the shallow and along the steep side, S at (0, 0)."""

    triangle: Triangle
    units: tuple[int, int]

    @cached_property
    def reaches(self) -> tuple[int, int]:
        """The distances at which the shallow and the steep side end, seen from a side corner."""
        return self.units[0] * self.triangle.width, self.units[1] * self.triangle.width

    @cached_property
    def unit_sides(self) -> tuple[Move, Move]:
        """Those of the triangle."""
        return self.triangle.unit_sides

    @cached_property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """S, A, T, B."""
        start, (shallow, steep) = Point(0, 0), self.unit_sides
        a, b = moved(start, shallow, self.units[0]), moved(start, steep, self.units[1])
        return start, a, Point(a.x + b.x, a.y + b.y), b

    def along(self, side: int, distance: int) -> Point:
        """Return the point so far from A along the shallow (0) or steep (1) side and on along its ridge."""
        unit, reach, width = self.unit_sides[side], self.reaches[side], self.triangle.width
        sense = 1 if side else -1
        end = moved(self.corners[1], unit, Fraction(sense * min(distance, reach), width))
        return moved(end, _UP_OUT, sense * max(distance - reach, 0))

    def opposite(self, point: Point) -> Point:
        """Return the point's image under the half turn that exchanges S with T and A with B."""
        far = self.corners[2]
        return Point(far.x - point.x, far.y - point.y)

    def across(self, distance: int) -> tuple[Point, Point]:
        """Return the ends of the inside line so far from A: on A's two sides, further on on B's."""
        rest = sum(self.reaches) - distance
        first, second = (
            self.along(side, distance) if distance <= reach else self.opposite(self.along(1 - side, rest))
            for side, reach in enumerate(self.reaches)
        )
        return first, second


def label_of_rank(rank: int) -> Label:
    """Return the label of a pleat line of this rank: mountain where it is even, valley where it is odd."""
    return "V" if rank % 2 else "M"


class OrientedTriangle(NamedTuple):
    """A triangle in one facing and its directions on the sheet, y up.

    ``sides``: along each side; ``ridges``: out from each corner at 45 degrees; ``pleats`` and
    ``inside``: as a pleat line and an inside line leave each side's turning points.
    """

    triangle: Triangle
    facing: int
    sides: Four
    ridges: Four
    pleats: Four
    inside: Four

    @property
    def left(self) -> int:
        """1 where the outline has its inside at the left of its sides, -1 in a mirror image."""
        facing = FACINGS[self.facing]
        return facing.a * facing.d - facing.b * facing.c

    def outward(self, corner: int) -> tuple[Direction, ...]:
        """Return the directions of which one must leave a corner: its ridge, or at a far corner a hinge.

        Where two stretches stand side by side their ridges end in one point and only a hinge goes on.
        """
        ridge = self.ridges[corner]
        if corner not in FAR_CORNERS:
            return (ridge,)
        return ridge, Direction(ridge.dx, 0), Direction(0, ridge.dy)


def _oriented(triangle: Triangle, facing: int) -> OrientedTriangle:
    a, b, inside = triangle.shallow, triangle.steep, triangle.inside
    image = FACINGS[facing]
    return OrientedTriangle(
        triangle,
        facing,
        _four(image, (a, b, opposite(a), opposite(b))),
        _four(image, _RIDGES),
        _four(image, _PLEATS),
        _four(image, (inside, opposite(inside), opposite(inside), inside)),
    )


def _four(facing: Symmetry, directions: Four) -> Four:
    first, second, third, fourth = (_image(facing, direction) for direction in directions)
    return first, second, third, fourth


def _image(facing: Symmetry, direction: Direction) -> Direction:
    point = facing.of(Point(direction.dx, direction.dy))
    return Direction(int(point.x), int(point.y))


ORIENTED_TRIANGLES = tuple(
    _oriented(triangle, facing) for triangle in TRIANGLES for facing in range(len(FACINGS))
)

SIDE_ALONG: Mapping[Direction, tuple[int, int]] = {
    direction: (number, side)
    for number, oriented in enumerate(ORIENTED_TRIANGLES)
    for side, direction in enumerate(oriented.sides)
}
"""The oriented triangle, by number, and the side that run in a direction: no two share one."""

TRIANGLE_INSIDE: Mapping[Direction, int] = {
    direction: number
    for number, oriented in enumerate(ORIENTED_TRIANGLES)
    for direction in oriented.inside[:2]
}
"""The oriented triangle, by number, whose inside lines run in a direction."""
