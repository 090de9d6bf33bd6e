"""The right triangles whose half angles give whole-number slopes, and the sides they lend a stretch."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from drills.exact.plane import Direction, Move, direction_of


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
