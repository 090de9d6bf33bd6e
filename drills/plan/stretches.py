"""Planning how a sheet's slanted stretches are precreased: dots, outline, inside lines, in this order."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, takewhile
from math import lcm
from typing import Literal, NamedTuple, TypeAlias

from drills.flatfold import check_pattern
from drills.geometry import (
    Direction,
    Exact,
    HalfPlane,
    Move,
    Point,
    as_int,
    cross,
    direction_of,
    move_between,
    moved,
    opposite,
    straight_on,
)
from drills.pattern import CreasePattern, Label, Run, across_down
from drills.structures import ORIENTED_TRIANGLES, Corners, Found, OrientedTriangle, Triangle, find_stretches

DotKind: TypeAlias = Literal["corner", "turning point", "edge", "end"]
_CornerVertices = tuple[int | None, int | None, int | None, int | None]


class Dot(NamedTuple):
    """A vertex to mark: corner, turning point, where a crease runs off at the paper's ``edge``, or other end.

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


class RepeatedStep(NamedTuple):
    """The smallest whole-number step, right and down positive, and how often it is made, maybe in part."""

    across: int
    down: int
    times: Exact


@dataclass(frozen=True)
class Crease:
    """A straight line to crease in one go: its vertices in order, the edges between them, their labels.

    ``step`` leads from its first vertex to its last. The first is a corner or turning point where
    one is; ``is_counted`` says that both are grid crossings, so that squares can be counted.
    """

    vertices: tuple[int, ...]
    edges: tuple[int, ...]
    labels: tuple[Label, ...]
    step: RepeatedStep
    is_counted: bool


@dataclass(frozen=True)
class StretchPlan:
    """What to mark and to crease of one stretch, each in the order of work.

    ``corners`` are S, A, T, B by vertex, None off the paper; ``sides`` the steps along the shallow and
    the steep side, None where not shown from corner to corner; ``is_equal`` is None where too little
    is on the paper to tell; a middle line, if there is one, comes first of the ``inside`` lines.
    """

    triangle: Triangle
    corners: _CornerVertices
    sides: tuple[RepeatedStep | None, RepeatedStep | None]
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
        return all({"M", "V"}.issuperset(crease.labels) for crease in self.creases)

    @property
    def to_mark(self) -> tuple[Dot, ...]:
        """The dots but for ends at the paper's edge, which are marked only where a crease starts there."""
        starts = {crease.vertices[0] for crease in self.creases}
        return tuple(dot for dot in self.dots if dot.kind != "edge" or dot.vertex in starts)

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


def plan(pattern: CreasePattern) -> tuple[StretchPlan, ...]:
    """Return the plan of each slanted stretch of a pattern, in the order in which they are found."""
    return tuple(_planned(pattern, found) for found in find_stretches(pattern))


def open_labels(pattern: CreasePattern, plans: Iterable[StretchPlan]) -> Mapping[int, Label]:
    """Return labels for open creases, by edge; none where all that is planned has labels, or none fold."""
    if all(each.is_labelled for each in plans):
        return {}
    return check_pattern(pattern).solved or {}


def _planned(pattern: CreasePattern, found: Found) -> StretchPlan:
    wanted = found.triangle, found.facing
    kind = next(kind for kind in ORIENTED_TRIANGLES if (kind.triangle, kind.facing) == wanted)
    outline = _outline_lines(pattern, found, kind)
    corners = _corner_vertices(pattern, found.corners, outline)
    is_equal = _is_equal(found.corners, kind)
    inside, has_middle = _inside_lines(pattern, found, kind, corners if is_equal else ())
    shallow, steep = found.shallow, found.steep
    marked = {*corners, *found.turning_points}
    outline, inside = ([_from_a_mark(pattern, row, marked) for row in rows] for rows in (outline, inside))
    return StretchPlan(
        found.triangle,
        corners,
        (shallow and _repeated_step(shallow), steep and _repeated_step(steep)),
        is_equal,
        tuple(_dots(pattern, found, corners, [*outline, *inside])),
        tuple(_crease(pattern, row) for row in outline),
        tuple(_crease(pattern, row) for row in inside),
        has_middle,
    )


def _outline_lines(pattern: CreasePattern, found: Found, kind: OrientedTriangle) -> list[Run]:
    """Return the sides round the outline from S, or where it is cut from the paper's edge on."""
    ends = {end for edge in found.outline for end in pattern.ends(edge)}
    rows = [
        row
        for side in kind.sides
        for row in _straight_rows(pattern, found.outline, side)
        if _is_at_inner_hand(ends, pattern.vertices[row.vertices[0]], side, kind.left)
    ]
    joined = {row.vertices[-1] for row in rows}
    first = next((place for place, row in enumerate(rows) if row.vertices[0] not in joined), 0)
    return rows[first:] + rows[:first]


def _is_at_inner_hand(points: Iterable[Point], start: Point, direction: Direction, left: int) -> bool:
    """Whether an outline lies at the hand of a line where the inside is: its left (1) or its right (-1).

    Two opposite sides run along the same lines; of the two ways round only one has the inside there.
    """
    at_left = HalfPlane.at_left(start, moved(start, direction))
    return any(at_left.height(point) * left > 0 for point in points)


def _inside_lines(
    pattern: CreasePattern, found: Found, kind: OrientedTriangle, corners: Sequence[int | None]
) -> tuple[list[Run], bool]:
    """Return the inside lines from A over to B, but the one through one of these far corners first.

    All run as from S to T. The middle line joins points that are there already, so it is the surest.
    """
    direction = kind.inside[0]

    def distance_from_a(row: Run) -> Exact:
        return cross(direction, Move(*pattern.vertices[row.vertices[0]])) * kind.left

    rows = sorted(_straight_rows(pattern, found.inside, direction), key=distance_from_a)
    middle = [row for row in rows if {row.vertices[0], row.vertices[-1]} & set(corners[::2])]
    return middle + [row for row in rows if row not in middle], bool(middle)


def _straight_rows(pattern: CreasePattern, edges: Iterable[int], direction: Direction) -> list[Run]:
    """Return the longest straight rows of those edges that run in a direction, each followed in it."""
    chosen = frozenset(edges)
    leaving, back = pattern.leaving, opposite(direction)

    def has(vertex: int, way: Direction) -> bool:
        return way in leaving[vertex] and leaving[vertex][way][0] in chosen

    ends = {vertex for edge in chosen for vertex in pattern.edges[edge][:2]}
    rows = []
    for first in sorted(vertex for vertex in ends if has(vertex, direction) and not has(vertex, back)):
        steps = list(takewhile(lambda step: step[0] in chosen, straight_on(leaving, first, direction)))
        rows.append(Run(tuple(edge for edge, _ in steps), (first, *(vertex for _, vertex in steps))))
    return rows


def _corner_vertices(pattern: CreasePattern, corners: Corners, outline: Iterable[Run]) -> _CornerVertices:
    at = {pattern.vertices[vertex]: vertex for row in outline for vertex in row.vertices}
    s, a, t, b = (None if corner is None else at[corner] for corner in corners)
    return s, a, t, b


def _is_equal(corners: Corners, kind: OrientedTriangle) -> bool | None:
    """Whether the far corners lie on one inside line; None where neither is known nor follows."""
    s, a, t, b = corners
    if a is not None and b is not None:
        s, t = s or _fourth(a, b, t), t or _fourth(a, b, s)
    if s is None or t is None:
        return None
    return cross(kind.inside[0], move_between(s, t)) == 0


def _fourth(one: Point, other: Point, between: Point | None) -> Point | None:
    """Return the corner of a parallelogram that lies across from the one between two others."""
    return None if between is None else moved(one, move_between(between, other))


def _dots(
    pattern: CreasePattern, found: Found, corners: _CornerVertices, rows: Sequence[Run]
) -> Iterator[Dot]:
    """Yield the corners, then the turning points as met round the outline, then the ends at the edge."""
    marked = dict.fromkeys(corner for corner in corners if corner is not None)
    turning = set(found.turning_points)
    met = [vertex for row in rows for vertex in row.vertices if vertex in turning]
    ends = [vertex for row in rows for vertex in (row.vertices[0], row.vertices[-1])]
    yield from (dot_at(pattern, vertex, "corner") for vertex in marked)
    yield from (dot_at(pattern, vertex, "turning point") for vertex in dict.fromkeys(met))
    at_edge = (vertex for vertex in dict.fromkeys(ends) if vertex not in marked.keys() | turning)
    yield from (dot_at(pattern, vertex, "edge") for vertex in at_edge)


def dot_at(pattern: CreasePattern, vertex: int, kind: DotKind) -> Dot:
    """Return the dot that marks a vertex."""
    across, down = map(as_int, across_down(pattern, pattern.vertices[vertex]))
    return Dot(vertex, kind, across, down, lcm(across.denominator, down.denominator))


def _from_a_mark(pattern: CreasePattern, row: Run, marked: Container[int | None]) -> Run:
    """Return the row from a marked end, if one is, else from the one that the coarser grid has."""
    start, end = (
        0 if vertex in marked else dot_at(pattern, vertex, "edge").grid
        for vertex in (row.vertices[0], row.vertices[-1])
    )
    return row if start <= end else Run(row.edges[::-1], row.vertices[::-1])


def _crease(pattern: CreasePattern, row: Run) -> Crease:
    start, end = (dot_at(pattern, vertex, "edge") for vertex in (row.vertices[0], row.vertices[-1]))
    step = _repeated_step(move_between(pattern.vertices[start.vertex], pattern.vertices[end.vertex]))
    labels = tuple(pattern.edges[edge].label for edge in row.edges)
    return Crease(row.vertices, row.edges, labels, step, start.grid == end.grid == 1)


def _repeated_step(move: Move) -> RepeatedStep:
    direction = direction_of(move)
    return RepeatedStep(direction.dx, -direction.dy, as_int(Fraction(move.dx, direction.dx)))
