"""What a mouse points at: the creases and points near a position on the board, nearest first."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot
from typing import TypeVar

from drills.pattern.crease_pattern import CreasePattern
from trainer.board.cells import DOTS_ACROSS, DOTS_DOWN, Dot
from trainer.board.scale import Scale

RADIUS = 4.0
"""How many dots from a crease or a point still count as pointing at it: two columns, one row."""

Item = TypeVar("Item")


def creases_near(pattern: CreasePattern, scale: Scale, x: float, y: float) -> tuple[int, ...]:
    """Return the creases near a position in cells (fractional, y down), nearest first.

    The middle of a cell is at .5; the paper's edge is no crease.
    """
    distances = {
        edge: _from_segment(
            x * DOTS_ACROSS, y * DOTS_DOWN, *(scale.dot(point) for point in pattern.ends(edge))
        )
        for edge in pattern.creases
    }
    return _nearest_first(distances)


def points_near(pattern: CreasePattern, scale: Scale, x: float, y: float) -> tuple[int, ...]:
    """Return the vertices near a position in cells (fractional, y down), nearest first."""
    dots = (scale.dot(point) for point in pattern.vertices)
    distances = {
        vertex: hypot(x * DOTS_ACROSS - dot.x - 0.5, y * DOTS_DOWN - dot.y - 0.5)
        for vertex, dot in enumerate(dots)
    }
    return _nearest_first(distances)


def after(candidates: Sequence[Item], last: Item | None) -> Item | None:
    """Return the candidate after the last one taken, round and round: the first if that is not among them."""
    if not candidates:
        return None
    if last is None or last not in candidates:
        return candidates[0]
    return candidates[(candidates.index(last) + 1) % len(candidates)]


def _nearest_first(distances: dict[int, float]) -> tuple[int, ...]:
    near = (item for item, distance in distances.items() if distance <= RADIUS)
    return tuple(sorted(near, key=lambda item: (distances[item], item)))


def _from_segment(x: float, y: float, start: Dot, end: Dot) -> float:
    """Return the distance in dots from a position to the segment between the middles of two dots."""
    across, down = end.x - start.x, end.y - start.y
    from_start = x - start.x - 0.5, y - start.y - 0.5
    length = across * across + down * down
    along = (from_start[0] * across + from_start[1] * down) / length if length else 0.0
    along = min(max(along, 0.0), 1.0)
    return hypot(from_start[0] - along * across, from_start[1] - along * down)
