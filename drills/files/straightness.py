"""Whether creases that run straight through a point still do so after their points were moved."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from math import atan2, hypot, pi, tau

from drills.exact.plane import Exact
from drills.files.spots import Whole


def is_kinked(points: Sequence[Whole], neighbours: Mapping[int, Sequence[int]], near: Exact) -> bool:
    """Whether some point lies within ``near`` of the line between two neighbours, but not on it.

    ``neighbours`` are per point those that it is joined to.
    """
    return any(_is_kink(points, vertex, others, float(near)) for vertex, others in neighbours.items())


def _is_kink(points: Sequence[Whole], vertex: int, others: Sequence[int], near: float) -> bool:
    x, y = points[vertex]
    moves = [(points[other][0] - x, points[other][1] - y) for other in others]
    ways = sorted((atan2(dy, dx), dx, dy) for dx, dy in moves)
    angles = [way[0] for way in ways]
    for angle, dx, dy in ways:
        behind = angle - pi if angle > 0 else angle + pi
        place = bisect_left(angles, behind)
        opposite = min((ways[place - 1], ways[place % len(ways)]), key=lambda way: _apart(way[0], behind))
        area = dx * opposite[2] - dy * opposite[1]
        if area and dx * opposite[1] + dy * opposite[2] < 0:
            length = hypot(dx - opposite[1], dy - opposite[2])
            if abs(area) <= near * length:
                return True
    return False


def _apart(one: float, two: float) -> float:
    return min((one - two) % tau, (two - one) % tau)
