"""The parallelogram that outlines a slanted stretch, and the points on its sides and ridges by distance.

A point's distance from a side corner is how far from it the pleat line through that point runs, in squares.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from drills.exact.plane import Direction, Point, moved
from drills.structures.triangle import Triangle

_UP_OUT = Direction(1, 1)


class Parallelogram(NamedTuple):
    """So many unit sides of a triangle along the shallow and along the steep side, S at (0, 0)."""

    triangle: Triangle
    units: tuple[int, int]

    @property
    def reaches(self) -> tuple[int, int]:
        """The distances at which the shallow and the steep side end, seen from a side corner."""
        return self.units[0] * self.triangle.width, self.units[1] * self.triangle.width

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """S, A, T, B."""
        start, (shallow, steep) = Point(0, 0), self.triangle.unit_sides
        a, b = moved(start, shallow, self.units[0]), moved(start, steep, self.units[1])
        return start, a, Point(a.x + b.x, a.y + b.y), b

    def along(self, side: int, distance: int) -> Point:
        """Return the point so far from A along the shallow (0) or steep (1) side and on along its ridge."""
        unit, reach, width = self.triangle.unit_sides[side], self.reaches[side], self.triangle.width
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
