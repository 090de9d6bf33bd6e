"""The lines of a slanted stretch as straight rows of edges, in the order in which a folder creases them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import Direction, Exact, Move, cross, move_between
from drills.pattern import CreasePattern, Label, Run
from drills.structures import Found, OrientedTriangle, Triangle, opposite


def outline_lines(pattern: CreasePattern, found: Found, kind: OrientedTriangle) -> list[Run]:
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


def _is_within(
    pattern: CreasePattern, kind: OrientedTriangle, way: Direction, row: Run, ends: Iterable[int]
) -> bool:
    """Whether the outline lies at the inner hand of a row of edges that runs this way, as along its side."""
    start = pattern.vertices[row.vertices[0]]
    return sum(cross(way, move_between(start, pattern.vertices[end])) for end in ends) * kind.left > 0


def inside_lines(
    pattern: CreasePattern, found: Found, kind: OrientedTriangle, corners: Sequence[int | None]
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


DotKind: TypeAlias = Literal["corner", "turning point", "edge"]

FOLDED: frozenset[Label] = frozenset({"M", "V"})


class Dot(NamedTuple):
    """A vertex to mark: a corner, a turning point, or where a crease runs off at the paper's ``edge``.

    ``across`` and ``down`` are squares from the sheet's top left corner. The place is a crossing of a
    grid ``grid`` times finer, 1 where it is one of the grid itself.
    """

    vertex: int
    kind: DotKind
    across: Exact
    down: Exact
    grid: int

    @property
    def is_on_line(self) -> bool:
        """Whether it lies on a line of the grid, at a crossing or between two."""
        return self.across.denominator == 1 or self.down.denominator == 1


class Way(NamedTuple):
    """The smallest whole-number step, right and down positive, and how often it is made, maybe in part."""

    across: int
    down: int
    times: Exact


@dataclass(frozen=True)
class Crease:
    """A straight line to crease in one go: its vertices in order, the edges between them, their labels.

    ``way`` leads from its first vertex to its last. The first is a corner or turning point where
    one is; ``is_counted`` says that both are grid crossings, so that squares can be counted.
    """

    vertices: tuple[int, ...]
    edges: tuple[int, ...]
    labels: tuple[Label, ...]
    way: Way
    is_counted: bool


@dataclass(frozen=True)
class StretchPlan:
    """What to mark and to crease of one stretch, each in the order of work.

    ``corners`` are S, A, T, B by vertex, None off the paper; ``sides`` the ways along the shallow and
    the steep side, None where not shown from corner to corner; ``is_equal`` is None where too little
    is on the paper to tell; a middle line, if there is one, comes first of the ``inside`` lines.
    """

    triangle: Triangle
    corners: tuple[int | None, int | None, int | None, int | None]
    sides: tuple[Way | None, Way | None]
    is_equal: bool | None
    dots: tuple[Dot, ...]
    outline: tuple[Crease, ...]
    inside: tuple[Crease, ...]
    has_middle: bool

    @property
    def creases(self) -> tuple[Crease, ...]:
        """All that is creased, in order."""
        return self.outline + self.inside

    @property
    def is_labelled(self) -> bool:
        """Whether each crease is known to be a mountain or a valley."""
        return all(FOLDED.issuperset(crease.labels) for crease in self.creases)

    def valleys(self) -> Iterator[tuple[int, ...]]:
        """Yield the vertices of each longest straight row of valley edges, in the order of work."""
        for crease in self.creases:
            place = 0
            for label, row in groupby(crease.labels):
                start, place = place, place + len(list(row))
                if label == "V":
                    yield crease.vertices[start : place + 1]

    def is_crossed(self, dot: Dot) -> bool:
        """Whether a side that can be creased by counting squares crosses a line of the grid at the dot."""
        counted = (side.vertices for side in self.outline if side.is_counted)
        return dot.is_on_line and any(dot.vertex in vertices for vertices in counted)
