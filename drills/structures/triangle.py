"""The right triangles whose half angles give whole-number slopes, and the sides they lend a stretch."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from drills.geometry import Direction, Move, Point, direction_of, moved
from drills.pattern import Label


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


def label_of_rank(rank: int) -> Label:
    """Return the label of a pleat line of this rank: mountain where it is even, valley where it is odd."""
    return "V" if rank % 2 else "M"
