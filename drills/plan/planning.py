"""Planning how a sheet's slanted stretches are precreased: dots, outline, inside lines, in this order."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from math import lcm

from drills.flatfold import check_pattern
from drills.geometry import Move, Point, as_int, cross, direction_of, move_between, moved
from drills.pattern import CreasePattern, Label, Run, across_down
from drills.plan.stretch_plan import Crease, Dot, DotKind, StretchPlan, Way, inside_lines, outline_lines
from drills.structures import KINDS, Corners, Found, OrientedTriangle, find_stretches

_CornerVertices = tuple[int | None, int | None, int | None, int | None]


def plan(pattern: CreasePattern) -> tuple[StretchPlan, ...]:
    """Return the plan of each slanted stretch of a pattern, in the order in which they are found."""
    return tuple(_planned(pattern, found) for found in find_stretches(pattern))


def _planned(pattern: CreasePattern, found: Found) -> StretchPlan:
    kind = next(kind for kind in KINDS if (kind.triangle, kind.facing) == (found.triangle, found.facing))
    outline = outline_lines(pattern, found, kind)
    corners = _corner_vertices(pattern, found.corners, outline)
    is_equal = _is_equal(found.corners, kind)
    inside, has_middle = inside_lines(pattern, found, kind, corners if is_equal else ())
    shallow, steep = found.shallow, found.steep
    marked = {*corners, *found.turning_points}
    outline, inside = ([_from_a_mark(pattern, row, marked) for row in rows] for rows in (outline, inside))
    return StretchPlan(
        found.triangle,
        corners,
        (shallow and _way(shallow), steep and _way(steep)),
        is_equal,
        tuple(_dots(pattern, found, corners, [*outline, *inside])),
        tuple(_crease(pattern, row) for row in outline),
        tuple(_crease(pattern, row) for row in inside),
        has_middle,
    )


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
    yield from (_dot(pattern, vertex, "corner") for vertex in marked)
    yield from (_dot(pattern, vertex, "turning point") for vertex in dict.fromkeys(met))
    at_edge = (vertex for vertex in dict.fromkeys(ends) if vertex not in marked.keys() | turning)
    yield from (_dot(pattern, vertex, "edge") for vertex in at_edge)


def _dot(pattern: CreasePattern, vertex: int, kind: DotKind) -> Dot:
    across, down = map(as_int, across_down(pattern, pattern.vertices[vertex]))
    return Dot(vertex, kind, across, down, lcm(across.denominator, down.denominator))


def _from_a_mark(pattern: CreasePattern, row: Run, marked: Container[int | None]) -> Run:
    """Return the row from a marked end, if one is, else from the one that the coarser grid has."""
    start, end = (
        0 if vertex in marked else _dot(pattern, vertex, "edge").grid
        for vertex in (row.vertices[0], row.vertices[-1])
    )
    return row if start <= end else Run(row.edges[::-1], row.vertices[::-1])


def _crease(pattern: CreasePattern, row: Run) -> Crease:
    start, end = (_dot(pattern, vertex, "edge") for vertex in (row.vertices[0], row.vertices[-1]))
    way = _way(move_between(pattern.vertices[start.vertex], pattern.vertices[end.vertex]))
    labels = tuple(pattern.edges[edge].label for edge in row.edges)
    return Crease(row.vertices, row.edges, labels, way, start.grid == end.grid == 1)


def _way(move: Move) -> Way:
    direction = direction_of(move)
    return Way(direction.dx, -direction.dy, as_int(Fraction(move.dx, direction.dx)))


def open_labels(pattern: CreasePattern, plans: Iterable[StretchPlan]) -> Mapping[int, Label]:
    """Return labels for open creases, by edge; none where all that is planned has labels, or none fold."""
    if all(each.is_labelled for each in plans):
        return {}
    return check_pattern(pattern).solved or {}
