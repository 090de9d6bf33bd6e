"""Rows of edges of one role that follow each other straight on, or round the bends of a ridge."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeAlias

from drills.geometry import Direction
from drills.pattern.crease_pattern import CreasePattern, Role

_Onward: TypeAlias = Callable[[int, int], int | None]


class Run(NamedTuple):
    """Edges in a row and the vertices they join, one more than edges."""

    edges: tuple[int, ...]
    vertices: tuple[int, ...]


def straight_runs(pattern: CreasePattern, role: Role) -> list[Run]:
    """Return the longest straight rows of edges of a role."""
    return _runs(pattern, role, lambda edge, vertex: _straight_on(pattern, edge, vertex))


def bent_runs(pattern: CreasePattern, role: Role) -> list[Run]:
    """Return the longest rows of edges of a role that go straight on or, at a ridge, round its bend."""

    def onward(edge: int, vertex: int) -> int | None:
        ahead = _straight_on(pattern, edge, vertex)
        if ahead is not None and pattern.edges[ahead].role == role:
            return ahead
        others = [e for e in pattern.around[vertex] if e != edge and pattern.edges[e].role == role]
        return others[0] if len(others) == 1 else None

    return _runs(pattern, role, onward)


def _straight_on(pattern: CreasePattern, edge: int, vertex: int) -> int | None:
    """Return the edge that goes on straight beyond the vertex, if there is one."""
    back = pattern.direction(edge, vertex)
    ahead, directions = Direction(-back.dx, -back.dy), pattern.directions[vertex]
    return pattern.around[vertex][directions.index(ahead)] if ahead in directions else None


def _runs(pattern: CreasePattern, role: Role, onward: _Onward) -> list[Run]:
    waiting = {edge for edge in pattern.creases if pattern.edges[edge].role == role}
    runs = []
    for edge in sorted(waiting):
        if edge in waiting:
            waiting.remove(edge)
            start, end = pattern.edges[edge].start, pattern.edges[edge].end
            ahead = _followed(pattern, edge, end, waiting, onward)
            behind = _followed(pattern, edge, start, waiting, onward)
            edges = [e for e, _ in reversed(behind)] + [edge] + [e for e, _ in ahead]
            vertices = [v for _, v in reversed(behind)] + [start, end] + [v for _, v in ahead]
            runs.append(Run(tuple(edges), tuple(vertices)))
    return runs


def _followed(
    pattern: CreasePattern, edge: int, vertex: int, waiting: set[int], onward: _Onward
) -> list[tuple[int, int]]:
    """Take the edges beyond a vertex off those waiting; return each with the vertex it leads to."""
    found: list[tuple[int, int]] = []
    following = onward(edge, vertex)
    while following is not None and following in waiting:
        waiting.remove(following)
        vertex = pattern.other_end(following, vertex)
        found.append((following, vertex))
        following = onward(following, vertex)
    return found
