"""Faces of a crease pattern, found by walking round each one with the paper on the left."""

from __future__ import annotations

from collections.abc import Iterator

from drills.geometry import Exact
from drills.pattern.crease_pattern import CreasePattern


def faces(pattern: CreasePattern) -> tuple[tuple[int, ...], ...]:
    """Return the faces as vertex cycles, counterclockwise; the outside is not one of them.

    The pattern must hang together, as every pattern inside a paper's edge does.
    """
    return tuple(cycle for cycle in cycles(pattern) if double_area(pattern, cycle) > 0)


def cycles(pattern: CreasePattern) -> Iterator[tuple[int, ...]]:
    """Yield every vertex cycle with nothing but one face, or the outside, at its left."""
    seen: set[tuple[int, int]] = set()
    for edge, ends in enumerate(pattern.edges):
        for vertex in (ends.start, ends.end):
            if (vertex, edge) not in seen:
                yield _walk(pattern, vertex, edge, seen)


def double_area(pattern: CreasePattern, cycle: tuple[int, ...]) -> Exact:
    """Return twice the signed area of a vertex cycle, positive where it runs counterclockwise."""
    points = [pattern.vertices[vertex] for vertex in cycle]
    return sum(p.x * q.y - p.y * q.x for p, q in zip(points, points[1:] + points[:1], strict=True))


def _walk(pattern: CreasePattern, vertex: int, edge: int, seen: set[tuple[int, int]]) -> tuple[int, ...]:
    """Return the cycle that leaves a vertex by an edge and takes the sharpest left turn at every vertex."""
    cycle: list[int] = []
    while (vertex, edge) not in seen:
        seen.add((vertex, edge))
        cycle.append(vertex)
        vertex = pattern.other_end(edge, vertex)
        ring = pattern.around[vertex]
        edge = ring[ring.index(edge) - 1]
    return tuple(cycle)
