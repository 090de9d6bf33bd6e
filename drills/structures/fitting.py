"""The structures that fit a strip of a row, brought to its height by pleats around them."""

from __future__ import annotations

from collections.abc import Collection
from functools import lru_cache
from typing import get_args

from drills.exact.plane import Direction
from drills.structures.block import DOWN, UP
from drills.structures.choices import Choice, Kind, Triangles, all_choices
from drills.structures.parts import Around
from drills.structures.triangle import TRIANGLE_345

_STRAIGHT_OUT = frozenset((UP, DOWN))


def fitting(
    height: int,
    room: int,
    free: Collection[Direction],
    kinds: Collection[Kind] = get_args(Kind),
    triangles: Triangles = (TRIANGLE_345,),
) -> list[Choice]:
    """Return structures of these kinds brought to a height by pleats around, at most so wide.

    Their hinges leave free ways only, and their stretches are of these triangles.
    """
    return [
        choice
        for choice in _brought_to(height, triangles)
        if choice.width <= room and choice.kind in kinds and choice.ways <= set(free)
    ]


@lru_cache(maxsize=256)
def narrowest(height: int, kind: Kind, triangles: Triangles) -> Choice | None:
    """Return the narrowest structure of a kind brought to a height, if there is one.

    Its hinges run up and down only, and labels by rank fold it.
    """
    among = (c for c in _brought_to(height, triangles) if c.kind == kind and c.is_by_rank)
    straight = (c for c in among if c.ways <= _STRAIGHT_OUT)
    return min(straight, key=lambda choice: (choice.width, choice.is_varied), default=None)


@lru_cache(maxsize=256)
def _brought_to(height: int, triangles: Triangles) -> tuple[Choice, ...]:
    return tuple(
        _with_pleats(choice, (height - choice.height) // 2)
        for choice in all_choices(triangles)
        if choice.height <= height and (height - choice.height) % 2 == 0
    )


def _with_pleats(choice: Choice, pleats: int) -> Choice:
    if not pleats:
        return choice
    return choice._replace(
        part=Around(choice.part, pleats), width=choice.width + 2 * pleats, height=choice.height + 2 * pleats
    )
