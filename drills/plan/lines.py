"""The lines of a slanted stretch as straight rows of edges, in the order in which a folder creases them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drills.exact.plane import Direction, Exact, Move, cross, move_between
from drills.pattern.crease_pattern import CreasePattern
from drills.pattern.runs import Run
from drills.structures.finder import Found
from drills.structures.finder_kinds import Kind, opposite


def outline_lines(pattern: CreasePattern, found: Found, kind: Kind) -> list[Run]:
    """Return the sides round the outline from S, or where it is cut from the paper's edge on."""
    ends = {vertex for edge in found.outline for vertex in pattern.edges[edge][:2]}
    rows = [
        row
        for way in kind.sides
        for row in _rows(pattern, found.outline, way)
        if _is_within(pattern, kind, way, row, ends)
    ]
    joined = {row.vertices[-1] for row in rows}
    first = next((place for place, row in enumerate(rows) if row.vertices[0] not in joined), 0)
    return rows[first:] + rows[:first]


def _is_within(pattern: CreasePattern, kind: Kind, way: Direction, row: Run, ends: Iterable[int]) -> bool:
    """Whether the outline lies at the inner hand of a row of edges that runs this way, as along its side."""
    start = pattern.vertices[row.vertices[0]]
    return sum(cross(way, move_between(start, pattern.vertices[end])) for end in ends) * kind.left > 0


def inside_lines(
    pattern: CreasePattern, found: Found, kind: Kind, corners: Sequence[int | None]
) -> tuple[list[Run], bool]:
    """Return the inside lines from A over to B, but the one through one of these far corners first.

    All run as from S to T. The middle line joins points that are there already, so it is the surest.
    """
    way = kind.inside[0]

    def nearness(row: Run) -> Exact:
        return cross(way, Move(*pattern.vertices[row.vertices[0]])) * kind.left

    rows = sorted(_rows(pattern, found.inside, way), key=nearness)
    middle = [row for row in rows if {row.vertices[0], row.vertices[-1]} & set(corners[::2])]
    return middle + [row for row in rows if row not in middle], bool(middle)


def _rows(pattern: CreasePattern, edges: Iterable[int], way: Direction) -> list[Run]:
    """Return the straight rows of those edges that run this way, each followed in this way."""
    ahead = {}
    for edge in edges:
        start, end = pattern.edges[edge][:2]
        direction = pattern.direction(edge, start)
        if direction in (way, opposite(way)):
            first, last = (start, end) if direction == way else (end, start)
            ahead[first] = edge, last
    firsts = ahead.keys() - {end for _, end in ahead.values()}
    return [_followed(ahead, first) for first in sorted(firsts)]


def _followed(ahead: dict[int, tuple[int, int]], vertex: int) -> Run:
    edges, vertices = [], [vertex]
    while vertex in ahead:
        edge, vertex = ahead[vertex]
        edges.append(edge)
        vertices.append(vertex)
    return Run(tuple(edges), tuple(vertices))
