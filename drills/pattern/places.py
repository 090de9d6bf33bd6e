"""Places in words: counted in squares from the top left corner of the sheet."""

from __future__ import annotations

from fractions import Fraction

from drills.exact.plane import Exact, Point
from drills.pattern.crease_pattern import CreasePattern


def across_down(pattern: CreasePattern, point: Point) -> tuple[Exact, Exact]:
    """Return how far the point lies across and down from the top left corner."""
    left, _, _, top = pattern.box
    return point.x - left, top - point.y


def place(pattern: CreasePattern, vertex: int) -> str:
    """Return the place of a vertex in words, as in "3 across, 1 down"."""
    across, down = across_down(pattern, pattern.vertices[vertex])
    return f"{mixed(across)} across, {mixed(down)} down"


def short_place(pattern: CreasePattern, point: Point) -> str:
    """Return the place of a point as two numbers, across before down, as in "3,1"."""
    return ",".join(mixed(number) for number in across_down(pattern, point))


def mixed(number: Exact) -> str:
    """Return a number as it is said: 2, 1/2 or 2 1/2; the number must not be below 0."""
    whole, rest = divmod(Fraction(number), 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
