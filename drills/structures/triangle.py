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

TRIANGLES = (
    TRIANGLE_345,
    Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 2),
    Triangle("8-15-17", Direction(4, 1), Direction(3, 5), 3),
    Triangle("7-24-25", Direction(7, 1), Direction(3, 4), 3),
    Triangle("20-21-29", Direction(5, 2), Direction(3, 7), 6),
)
"""The triangles met in folding, each with one of its two pairs of outline directions."""
