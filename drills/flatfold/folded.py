"""The folded sheet, exactly: where every point lies, and the cells into which its edges cut the plane.

A face is carried by z -> a z + b, or a conj(z) + b where it is turned over, with Gaussian
rationals a and b, |a| = 1. Reflecting in a line through p along d is z -> u conj(z) + p - u conj(p)
with u = d*d / |d|^2, so folded coordinates stay rational.

The folded edges are drawn as a pattern of their own. Walking from cell to cell, the set of faces
changes exactly by those that end on the piece walked across, so no point is ever looked up in a face.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict, deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import gcd, lcm
from typing import NamedTuple, TypeAlias

from drills.flatfold.limit import UNLIMITED, Limit
from drills.geometry import (
    Direction,
    HalfEdge,
    IntPair,
    Point,
    direction_of,
    double_area,
    meetings,
    move_between,
)
from drills.pattern import CreasePattern, Edge, face_cycles, faces

Segment: TypeAlias = tuple[Point, Point]


class _Carry(NamedTuple):
    """The map of one face: a = (ax, ay) / divisor, b = (bx, by) / divisor, and whether it is turned over."""

    ax: int
    ay: int
    bx: int
    by: int
    divisor: int
    over: bool

    def of(self, point: IntPair, divisor: int) -> IntPair:
        """Return the image of a point, multiplied by a multiple of the map's own divisor."""
        x, y = point[0], -point[1] if self.over else point[1]
        times = divisor // self.divisor
        return times * (self.ax * x - self.ay * y + self.bx), times * (self.ax * y + self.ay * x + self.by)

    def across(self, point: IntPair, direction: Direction) -> _Carry:
        """Return the map of the face beyond a crease of this one: reflect first, then carry."""
        (x, y), (dx, dy) = point, direction
        size, ux, uy = dx * dx + dy * dy, dx * dx - dy * dy, 2 * dx * dy
        # the line's own shift: p - u conj(p)
        px, py = size * x - (ux * x + uy * y), size * y - (uy * x - ux * y)
        if self.over:
            uy, py = -uy, -py
        ax, ay = self.ax * ux - self.ay * uy, self.ax * uy + self.ay * ux
        bx = self.ax * px - self.ay * py + size * self.bx
        by = self.ax * py + self.ay * px + size * self.by
        # without the common factor the numbers would grow with every crease crossed
        divisor = size * self.divisor
        shared = gcd(ax, ay, bx, by, divisor)
        ax, ay, bx, by, divisor = (number // shared for number in (ax, ay, bx, by, divisor))
        return _Carry(ax, ay, bx, by, divisor, not self.over)


@dataclass(frozen=True)
class Folded:
    """A pattern folded flat; coordinates are whole numbers, all multiplied by one common scale.

    ``points`` are the folded vertices, ``over`` says of each face whether its underside is up,
    ``sides`` are per edge the one or two faces beside it, the one at its left first.
    """

    pattern: CreasePattern
    faces: tuple[tuple[int, ...], ...]
    points: tuple[IntPair, ...]
    over: tuple[bool, ...]
    sides: tuple[tuple[int, ...], ...]


class TearingError(ValueError):
    """The sheet tears: round some point or hole the creases do not close."""


def fold(pattern: CreasePattern) -> Folded:
    """Return the folded positions; TearingError where the faces do not fit together again.

    Every crease counts as folded; the first face stays as it lies.
    """
    cycles = faces(pattern)
    sides = _sides(pattern, cycles)
    flat = pattern.on_integers.points
    carries = _carried(pattern, cycles, sides)
    divisor = lcm(*(carry.divisor for carry in carries))
    points: dict[int, IntPair] = {}
    for carry, cycle in zip(carries, cycles, strict=True):
        for vertex in cycle:
            place = carry.of(flat[vertex], divisor)
            if points.setdefault(vertex, place) != place:
                raise TearingError("the creases round a point do not close")
    places = tuple(points.get(vertex, (0, 0)) for vertex in range(len(flat)))
    return Folded(pattern, cycles, places, tuple(carry.over for carry in carries), sides)


def _sides(pattern: CreasePattern, cycles: tuple[tuple[int, ...], ...]) -> tuple[tuple[int, ...], ...]:
    """Return per edge its faces: that at the left of start to end, then that at the right."""
    beside: dict[HalfEdge, int] = {}
    for face, cycle in enumerate(cycles):
        beside.update(((a, b), face) for a, b in zip(cycle, cycle[1:] + cycle[:1], strict=True))
    return tuple(
        tuple(beside[half] for half in ((edge.start, edge.end), (edge.end, edge.start)) if half in beside)
        for edge in pattern.edges
    )


def _carried(
    pattern: CreasePattern,
    cycles: tuple[tuple[int, ...], ...],
    sides: tuple[tuple[int, ...], ...],
) -> list[_Carry]:
    """Return each face's map, found by going from face to face across creases."""
    flat = pattern.on_integers.points
    joins: list[list[tuple[int, int]]] = [[] for _ in cycles]
    for edge, beside in enumerate(sides):
        if len(beside) == 2:
            joins[beside[0]].append((beside[1], edge))
            joins[beside[1]].append((beside[0], edge))
    carries: dict[int, _Carry] = {0: _Carry(1, 0, 0, 0, 1, over=False)}
    waiting = deque([0])
    while waiting:
        face = waiting.popleft()
        for other, edge in joins[face]:
            if other not in carries:
                start = pattern.edges[edge].start
                carries[other] = carries[face].across(flat[start], pattern.direction(edge, start))
                waiting.append(other)
    if len(carries) < len(cycles):
        raise TearingError("the sheet is in pieces")
    return [carries[face] for face in range(len(cycles))]


def arrange(folded: Folded, limit: Limit = UNLIMITED) -> Mapping[Segment, list[int]]:
    """Return the pieces of the folded edges, ends in sorted order, each with the edges that lie on it."""
    edges_on: dict[Segment, list[int]] = defaultdict(list)
    for index, edge in enumerate(folded.pattern.edges):
        start, end = sorted((folded.points[edge.start], folded.points[edge.end]))
        edges_on[Point(*start), Point(*end)].append(index)
    rows = _rows(sorted(edges_on))
    cuts = [{end for segment in row for end in segment} for row in rows]
    for one, two, shared in meetings([(row[0][0], max(end for _, end in row)) for row in rows]):
        limit.check()
        cuts[one].update(shared)
        cuts[two].update(shared)
    pieces: dict[Segment, list[int]] = defaultdict(list)
    for row, points in zip(rows, map(sorted, cuts), strict=True):
        limit.check()
        # points on one line are in order along it when they are sorted
        for segment in row:
            first, last = bisect_left(points, segment[0]), bisect_right(points, segment[1])
            for piece in pairwise(points[first:last]):
                pieces[piece].extend(edges_on[segment])
    return pieces


def _rows(segments: Iterable[Segment]) -> list[list[Segment]]:
    """Return the segments, which are sorted, in rows on one line in which none lies apart from the others.

    Pleats fold onto a few lines, so that rows are few, and a row meets another as if it were one segment.
    """
    lines: dict[tuple[int, int, int], list[list[Segment]]] = defaultdict(list)
    reach: dict[tuple[int, int, int], Point] = {}
    for start, end in segments:
        way = direction_of(move_between(start, end))
        line = (*way, int(way.dx * start.y - way.dy * start.x))
        if line not in reach or reach[line] < start:
            lines[line].append([])
        lines[line][-1].append((start, end))
        reach[line] = max(end, reach.get(line, end))
    return [row for rows in lines.values() for row in rows]


class Piece(NamedTuple):
    """A piece of the folded edges: the pattern's edges on it, and the sets of faces at its two sides."""

    edges: tuple[int, ...]
    left: int
    right: int


@dataclass(frozen=True)
class Cells:
    """The different sets of faces that lie on top of each other somewhere, and the pieces between cells."""

    sets: tuple[int, ...]
    pieces: tuple[Piece, ...]


def cells_of(folded: Folded, limit: Limit = UNLIMITED) -> Cells:
    """Return the cells of a folded sheet; OutOfTimeError where they are too many for the limit."""
    drawing = Drawing.of(folded, limit)
    sets, beside = drawing.sets, drawing.beside
    pieces = tuple(
        Piece(on, sets[beside[edge.start, edge.end]], sets[beside[edge.end, edge.start]])
        for edge, on in zip(drawing.drawn.edges, drawing.lying, strict=True)
    )
    return Cells(tuple(sorted(set(sets) - {0})), pieces)


class Drawing(NamedTuple):
    """The folded edges as a pattern, in the folded sheet's units, and the cells into which it cuts the plane.

    ``lying`` are per piece the sheet's edges on it, ``rims`` the corners of each cell by vertex,
    counterclockwise but for that of the outside, ``sets`` the faces over each cell as bits, ``beside``
    gives per half edge the number of the cell at its left.
    """

    drawn: CreasePattern
    lying: tuple[tuple[int, ...], ...]
    rims: tuple[tuple[int, ...], ...]
    sets: tuple[int, ...]
    beside: Mapping[HalfEdge, int]

    @classmethod
    def of(cls, folded: Folded, limit: Limit = UNLIMITED) -> Drawing:
        """Return the drawing of a folded sheet."""
        lying = arrange(folded, limit)
        points = sorted({point for piece in lying for point in piece})
        number = {point: index for index, point in enumerate(points)}
        edges = tuple(Edge(number[a], number[b], "other", "U") for a, b in lying)
        drawn = CreasePattern(tuple(points), edges)
        rims = []
        for rim in face_cycles(drawn):
            limit.check()
            rims.append(rim)
        beside, sets = _sets(drawn, rims, [_ending(folded, on) for on in lying.values()])
        return cls(drawn, tuple(map(tuple, lying.values())), tuple(rims), sets, beside)


def _ending(folded: Folded, edges: list[int]) -> int:
    """Return the faces that are on one side of a piece only."""
    ending = 0
    for edge in edges:
        for face in folded.sides[edge]:
            ending ^= 1 << face
    return ending


def _sets(
    drawn: CreasePattern, rims: Sequence[tuple[int, ...]], ending: list[int]
) -> tuple[dict[HalfEdge, int], tuple[int, ...]]:
    """Return per half edge the number of the cell at its left, and the set of faces of each cell."""
    beside: dict[HalfEdge, int] = {}
    for cell, rim in enumerate(rims):
        beside.update((way, cell) for way in zip(rim, rim[1:] + rim[:1], strict=True))
    joins: list[list[tuple[int, int]]] = [[] for _ in rims]
    for edge, ends in zip(drawn.edges, ending, strict=True):
        left, right = beside[edge.start, edge.end], beside[edge.end, edge.start]
        joins[left].append((right, ends))
        joins[right].append((left, ends))
    # the one rim that runs clockwise is that of the outside, over which no face lies
    outside = next(cell for cell, rim in enumerate(rims) if double_area([drawn.vertices[v] for v in rim]) < 0)
    found = {outside: 0}
    waiting = [outside]
    while waiting:
        cell = waiting.pop()
        for other, ends in joins[cell]:
            if other not in found:
                found[other] = found[cell] ^ ends
                waiting.append(other)
    return beside, tuple(found[cell] for cell in range(len(rims)))
