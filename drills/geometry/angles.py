"""Angles without floats: a turn is a Gaussian integer of that argument, sums are products."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cmp_to_key
from math import gcd
from typing import NamedTuple, TypeVar

from drills.geometry.plane import Direction, cross


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


Item = TypeVar("Item")


def counterclockwise(items: Iterable[Item], direction_of: Callable[[Item], Direction]) -> list[Item]:
    """Return the items sorted by their direction from 0 up to 360 degrees."""
    return sorted(items, key=lambda item: _by_direction(direction_of(item)))


def _compare(u: Direction, v: Direction) -> int:
    half = _is_lower(u) - _is_lower(v)
    return half or (-1 if (turn := cross(u, v)) > 0 else int(turn < 0))


def _is_lower(direction: Direction) -> bool:
    return direction.dy < 0 or (direction.dy == 0 and direction.dx < 0)


_by_direction = cmp_to_key(_compare)
