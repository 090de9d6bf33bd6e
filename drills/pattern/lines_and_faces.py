"""Walks through a crease pattern: round its faces, and along rows of edges of one role."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple, TypeAlias

from drills.geometry import HalfEdge, double_area, face_walk, opposite
from drills.pattern.crease_pattern import CreasePattern, Role


def faces(pattern: CreasePattern) -> tuple[tuple[int, ...], ...]:
    """Return the faces as vertex cycles, counterclockwise; the outside is not one of them.

    The pattern must hang together, as every pattern inside a paper's edge does.
    """
    points = pattern.vertices
    return tuple(
        cycle for cycle in face_cycles(pattern) if double_area([points[vertex] for vertex in cycle]) > 0
    )


def face_cycles(pattern: CreasePattern) -> Iterator[tuple[int, ...]]:
    """Yield every vertex cycle with nothing but one face, or the outside, at its left."""
    rings = pattern.neighbours

    def sharpest_left(last: int, vertex: int) -> int:
        # rings run counterclockwise, so the sharpest left turn is the one just before the way back
        ring = rings[vertex]
        return ring[ring.index(last) - 1]

    seen: set[HalfEdge] = set()
    for edge in pattern.edges:
        for way in ((edge.start, edge.end), (edge.end, edge.start)):
            if way not in seen:
                yield tuple(start for start, _ in face_walk(way, sharpest_left, seen))


class Run(NamedTuple):
    """Edges in a row and the vertices they join, one more than edges."""

    edges: tuple[int, ...]
    vertices: tuple[int, ...]


_Onward: TypeAlias = Callable[[int, int], int | None]
"""For an edge and the vertex at its end, the edge with which the row goes on there, if any."""


def straight_runs(pattern: CreasePattern, role: Role) -> list[Run]:
    """Return the longest straight rows of edges of a role."""
    return _runs(pattern, role, lambda edge, vertex: _straight_ahead(pattern, edge, vertex))


def bent_runs(pattern: CreasePattern, role: Role) -> list[Run]:
    """Return the longest rows of edges of a role that go straight on or, at a ridge, round its bend."""

    def onward(edge: int, vertex: int) -> int | None:
        ahead = _straight_ahead(pattern, edge, vertex)
        if ahead is not None and pattern.edges[ahead].role == role:
            return ahead
        others = [e for e in pattern.around[vertex] if e != edge and pattern.edges[e].role == role]
        return others[0] if len(others) == 1 else None

    return _runs(pattern, role, onward)


def _straight_ahead(pattern: CreasePattern, edge: int, vertex: int) -> int | None:
    ahead = pattern.leaving[vertex].get(opposite(pattern.direction(edge, vertex)))
    return ahead[0] if ahead else None


def _runs(pattern: CreasePattern, role: Role, onward: _Onward) -> list[Run]:
    """Return rows of edges of a role: from each edge not yet in a row as far as it goes both ways."""
    waiting = {edge for edge in pattern.creases if pattern.edges[edge].role == role}
    runs = []
    for edge in sorted(waiting):
        if edge in waiting:
            waiting.remove(edge)
            start, end = pattern.edges[edge].start, pattern.edges[edge].end
            # a row that closes is taken whole by the first walk, and ends where it began
            ahead = _taken(pattern, edge, end, waiting, onward)
            behind = _taken(pattern, edge, start, waiting, onward)
            edges = [e for e, _ in reversed(behind)] + [edge] + [e for e, _ in ahead]
            vertices = [v for _, v in reversed(behind)] + [start, end] + [v for _, v in ahead]
            runs.append(Run(tuple(edges), tuple(vertices)))
    return runs


def _taken(
    pattern: CreasePattern, edge: int, vertex: int, waiting: set[int], onward: _Onward
) -> list[tuple[int, int]]:
    """Take the edges beyond a vertex off those waiting; return each with the vertex it leads to."""
    taken: list[tuple[int, int]] = []
    following = onward(edge, vertex)
    while following is not None and following in waiting:
        waiting.remove(following)
        vertex = pattern.other_end(following, vertex)
        taken.append((following, vertex))
        following = onward(following, vertex)
    return taken
