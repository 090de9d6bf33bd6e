"""Plain sheets: pleats that turn at one or two 45-degree ridges, and no structure on the paper at all.

Such a sheet lies beside a roof, from its short side outward, so that nothing of the roof shows.
"""

from __future__ import annotations

from typing import TypeAlias

from drills.geometry import SYMMETRIES, Chance, Point
from drills.structures.block import DOWN, LEFT, RIGHT, UP
from drills.structures.roof import Roof
from drills.structures.sheets import Sheet

LEAST = 6

_Place: TypeAlias = tuple[int, int, int]
"""The roof's height, the pleats around it, and how far above their lowest line the paper begins."""

_SHOWN = 2
_UPRIGHT, _LYING = (0, 2, 4, 6), (1, 3, 5, 7)
_SIDES = (LEFT, DOWN, RIGHT, UP)


def pleats_only(chance: Chance, width: int, height: int) -> Sheet:
    """Return a sheet of this size in squares with nothing but pleats and one or two 45-degree ridges.

    ValueError where it is less than 6 squares wide or high.
    """
    across, along = min(width, height), max(width, height)
    if across < LEAST:
        raise ValueError(f"A plain sheet is at least {LEAST} by {LEAST} squares, not {width} by {height}.")
    high, pleats, low = (_with_two_ridges if chance.one_in(2) else _with_one)(chance, across, along)
    roof = Roof(high + 1, high, ("up", "down"))
    crop = (pleats - across, low, roof.width + pleats, 2 * pleats + high - low - along)
    facing = chance.pick(_LYING if width > height else _UPRIGHT)
    return Sheet(roof, pleats, facing, chance.one_in(2), _turned(crop, facing))


def _with_two_ridges(chance: Chance, across: int, along: int) -> _Place:
    """Return a place where both ridges from the roof's short side show, two squares of each at least."""
    high = 2 + 2 * chance.below((along - 2 * _SHOWN) // 2)
    pleats = max(across, (along - high + 1) // 2) + chance.below(3)
    least, most = pleats + high + _SHOWN - along, 2 * pleats + high - along
    return high, pleats, _between(chance, max(0, least), min(pleats - _SHOWN, most))


def _with_one(chance: Chance, across: int, along: int) -> _Place:
    """Return a place where only the lower ridge shows, two squares of it at least."""
    pleats = across + chance.below(3)
    return (
        along + along % 2,
        pleats,
        _between(chance, max(0, pleats - across + _SHOWN - along), pleats - _SHOWN),
    )


def _between(chance: Chance, least: int, most: int) -> int:
    return least + chance.below(most - least + 1)


def _turned(crop: tuple[int, int, int, int], facing: int) -> tuple[int, int, int, int]:
    """Return what is cut off at the left, bottom, right and top once the sheet is turned."""
    at = {SYMMETRIES[facing].of(Point(*way)): cut for way, cut in zip(_SIDES, crop, strict=True)}
    left, bottom, right, top = (at[Point(*way)] for way in _SIDES)
    return left, bottom, right, top
