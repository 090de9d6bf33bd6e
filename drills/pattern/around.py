"""Sorting what meets at a point by direction, counterclockwise from east, without floats."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cmp_to_key
from typing import TypeVar

from drills.exact.plane import Direction, cross

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
