"""Faces of a crease pattern, found by walking round each one with the paper on the left."""

from __future__ import annotations

from collections.abc import Iterator

from drills.exact.plane import Exact
from drills.pattern.crease_pattern import CreasePattern


def faces(pattern: CreasePattern) -> tuple[tuple[int, ...], ...]:
    """Return the faces as vertex cycles, counterclockwise; the outside is not one of them.

    The pattern must hang together, as every pattern inside a paper's edge does.
    """
    return tuple(cycle for cycle in cycles(pattern) if double_area(pattern, cycle) > 0)


def cycles(pattern: CreasePattern) -> Iterator[tuple[int, ...]]:
    """Yield every vertex cycle with nothing but one face, or the outside, at its left."""
    seen: set[tuple[int, int]] = set()
    for start, end in _half_edges(pattern):
        if (start, end) not in seen:
            cycle = _walk(pattern, start, end)
            seen.update(zip(cycle, cycle[1:] + cycle[:1], strict=True))
            yield tuple(cycle)


def double_area(pattern: CreasePattern, cycle: tuple[int, ...]) -> Exact:
    """Return twice the signed area of a vertex cycle, positive where it runs counterclockwise."""
    points = [pattern.vertices[vertex] for vertex in cycle]
    return sum(p.x * q.y - p.y * q.x for p, q in zip(points, points[1:] + points[:1], strict=True))


def _half_edges(pattern: CreasePattern) -> Iterator[tuple[int, int]]:
    for edge in pattern.edges:
        yield edge.start, edge.end
        yield edge.end, edge.start


def _walk(pattern: CreasePattern, start: int, end: int) -> list[int]:
    """Return the cycle that begins start, end and takes the sharpest left turn at every vertex."""
    cycle: list[int] = []
    last, here = start, end
    while not cycle or (last, here) != (start, end):
        cycle.append(last)
        ring = pattern.around[here]
        back = next(place for place, edge in enumerate(ring) if pattern.other_end(edge, here) == last)
        last, here = here, pattern.other_end(ring[back - 1], here)
    return cycle
