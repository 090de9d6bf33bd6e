"""Angles without floats: a turn is a Gaussian integer of that argument, sums are products."""

from __future__ import annotations

from math import gcd
from typing import NamedTuple

from drills.exact.plane import Direction


class Turn(NamedTuple):
    """An angle above 0 and up to 180 degrees, as the direction x + iy that it turns (1, 0) to."""

    x: int
    y: int

    def plus_minus(self, more: Turn, less: Turn) -> Turn:
        """Return self + more - less; it must again be above 0 and up to 180 degrees."""
        x, y = self.x * more.x - self.y * more.y, self.x * more.y + self.y * more.x
        return _reduced(x * less.x + y * less.y, y * less.x - x * less.y)

    def is_below(self, other: Turn) -> bool:
        """Whether this angle is the smaller one."""
        return self.x * other.y - self.y * other.x > 0


def turn_between(first: Direction, second: Direction) -> Turn:
    """Return the counterclockwise turn from one direction to another, at most 180 degrees."""
    return _reduced(
        first.dx * second.dx + first.dy * second.dy,
        first.dx * second.dy - first.dy * second.dx,
    )


def is_half_turn(turns: list[Turn]) -> bool:
    """Whether the turns' product is real and negative: they add up to an odd number of half turns."""
    x, y = 1, 0
    for turn in turns:
        x, y = _reduced(x * turn.x - y * turn.y, x * turn.y + y * turn.x)
    return y == 0 and x < 0


def _reduced(x: int, y: int) -> Turn:
    shared = gcd(x, y)
    return Turn(x // shared, y // shared)
