"""The angle condition at a point (Kawasaki-Justin): every second angle adds up to half a turn."""

from __future__ import annotations

from collections.abc import Sequence

from drills.exact.plane import Direction
from drills.exact.turn import Turn, is_half_turn, turn_between
from drills.pattern.crease_pattern import CreasePattern


def turns_around(directions: Sequence[Direction]) -> tuple[Turn, ...]:
    """Return the angles between neighbouring directions, which are given counterclockwise."""
    following = [*directions[1:], *directions[:1]]
    return tuple(turn_between(first, second) for first, second in zip(directions, following, strict=True))


def is_kawasaki(directions: Sequence[Direction]) -> bool:
    """Whether creases in these counterclockwise directions can fold flat under some labels."""
    if len(directions) % 2 or not directions:
        return False
    following = zip(directions[::2], directions[1::2], strict=True)
    return is_half_turn([turn_between(first, second) for first, second in following])


def check_angles(pattern: CreasePattern) -> tuple[int, ...]:
    """Return the interior vertices where the angle condition fails."""
    return tuple(vertex for vertex in pattern.interior if not is_kawasaki(pattern.directions[vertex]))
