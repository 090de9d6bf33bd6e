"""A drill read back from its line of JSON alone, as points, edges and faces; decimals are taken exactly.

Shares nothing with the code under test: no roles, no ranks, no module of the drills.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cached_property
from math import atan2, gcd
from typing import Any, NamedTuple

Place = tuple[Fraction, Fraction]


class PlainStretch(NamedTuple):
    """A slanted stretch as far as the paper shows it: its outline, its inside lines, all its points."""

    outline: frozenset[int]
    inside: frozenset[int]
    points: frozenset[int]


class PlainSheet:
    """The planar graph of a drill's pattern, y up, with its question and its answer as they came."""

    def __init__(self, line: str) -> None:
        drill = json.loads(line, parse_float=Fraction)
        self.drill: dict[str, Any] = drill
        self.question: dict[str, Any] = drill["question"]
        self.answer: dict[str, Any] = drill["answer"]
        fold = drill["pattern"]
        written = fold.get("slantwise:vertices_exact", fold["vertices_coords"])
        self.points: list[Place] = [(Fraction(x), Fraction(y)) for x, y in written]
        self.edges: list[tuple[int, int]] = [(start, end) for start, end in fold["edges_vertices"]]
        self.labels: list[str] = fold["edges_assignment"]

    @cached_property
    def around(self) -> list[list[int]]:
        """Per vertex its edges, counterclockwise."""
        meeting: list[list[int]] = [[] for _ in self.points]
        for edge, ends in enumerate(self.edges):
            for vertex in ends:
                meeting[vertex].append(edge)
        for vertex, edges in enumerate(meeting):
            edges.sort(key=lambda edge: self.angle(edge, vertex))
        return meeting

    @cached_property
    def inner(self) -> list[int]:
        """The vertices off the paper's edge."""
        return [v for v, edges in enumerate(self.around) if all(self.labels[edge] != "B" for edge in edges)]

    @cached_property
    def creases(self) -> list[int]:
        """The edges that are not the paper's edge."""
        return [edge for edge, label in enumerate(self.labels) if label != "B"]

    def beyond(self, edge: int, vertex: int) -> int:
        """Return the other end of an edge."""
        start, end = self.edges[edge]
        return start + end - vertex

    def move(self, edge: int, vertex: int) -> Place:
        """Return how far the edge leads from the vertex, to the right and up."""
        (x, y), (u, v) = self.points[vertex], self.points[self.beyond(edge, vertex)]
        return u - x, v - y

    def angle(self, edge: int, vertex: int) -> float:
        """Return the angle at which the edge leaves the vertex, in radians."""
        right, up = self.move(edge, vertex)
        return atan2(up, right)

    def way(self, edge: int, vertex: int) -> tuple[int, int]:
        """Return the shortest whole numbers to the right and up along the edge."""
        right, up = self.move(edge, vertex)
        scale = right.denominator * up.denominator
        whole = int(right * scale), int(up * scale)
        return whole[0] // gcd(*whole), whole[1] // gcd(*whole)

    def is_slanted(self, edge: int) -> bool:
        """Whether an edge runs neither along the grid nor at 45 degrees."""
        right, up = self.move(edge, self.edges[edge][0])
        return right != 0 and up != 0 and abs(right) != abs(up)

    @cached_property
    def faces(self) -> list[frozenset[int]]:
        """The edges of each face of the sheet."""
        waiting = {(edge, vertex) for edge, ends in enumerate(self.edges) for vertex in ends}
        found = []
        while waiting:
            edges, corners = self._face(min(waiting))
            waiting -= set(zip(edges, corners, strict=True))
            if self._area(corners) > 0:
                found.append(frozenset(edges))
        return found

    @cached_property
    def sunk_faces(self) -> list[frozenset[int]]:
        """The faces within an outline: no crease of theirs runs along the grid or at 45 degrees."""
        return [
            face
            for face in self.faces
            if all(self.is_slanted(edge) or self.labels[edge] == "B" for edge in face)
        ]

    @cached_property
    def inside_lines(self) -> frozenset[int]:
        """The edges that run inside the outline of some stretch."""
        return frozenset[int]().union(*(stretch.inside for stretch in self.stretches))

    @cached_property
    def outline(self) -> frozenset[int]:
        """The edges of all outlines."""
        return frozenset[int]().union(*(stretch.outline for stretch in self.stretches))

    @cached_property
    def stretches(self) -> list[PlainStretch]:
        """Each slanted stretch: the sunk faces that hang together over inside lines.

        Two of them may share a corner, never a side. What else is slanted hangs together otherwise: its
        rim has more than two slopes, or does not lie round it as a parallelogram does.
        """
        found = []
        for edges in self._hanging_together(self._middle_lines):
            points = frozenset(vertex for edge in edges for vertex in self.edges[edge])
            inside = self._middle_lines & edges
            rim = frozenset(edge for edge in edges - inside if self.is_slanted(edge))
            if inside and self._is_parallelogram(rim, points):
                found.append(PlainStretch(rim, inside, points))
        return found

    @cached_property
    def _middle_lines(self) -> frozenset[int]:
        """The slanted edges that run between the ways of two sides, with a sunk face at either hand.

        Seen from a far corner both sides and the lines between lie in one quarter of the compass.
        """
        sunk = {edge for edge in self.creases if self._sunk_sides(edge) == 2}
        return frozenset(
            edge
            for edges in self._hanging_together(filter(self.is_slanted, self.creases))
            for edge in edges & sunk
            if self.slope(edge) in self._middle_slopes(edges)
        )

    def _is_parallelogram(self, rim: Iterable[int], points: Iterable[int]) -> bool:
        """Whether edges have two slopes 45 degrees apart, and no point lies beyond one as others do."""
        slopes = sorted({abs(self.slope(edge)) for edge in rim})
        if len(slopes) != 2 or slopes[1] - slopes[0] != 1 + slopes[0] * slopes[1]:
            return False
        return all(len(self._hands(edge, points)) == 1 for edge in rim)

    def _hands(self, edge: int, points: Iterable[int]) -> set[bool]:
        """Return at which hands of an edge points lie."""
        start = self.edges[edge][0]
        (x, y), (right, up) = self.points[start], self.move(edge, start)
        heights = (right * (self.points[v][1] - y) - up * (self.points[v][0] - x) for v in points)
        return {height > 0 for height in heights if height}

    def slope(self, edge: int) -> Fraction:
        """Return how far up a slanted edge runs for each square to the right."""
        right, up = self.move(edge, self.edges[edge][0])
        return Fraction(up, right)

    def walked(self, start: int, edges: Iterable[int]) -> tuple[int, set[tuple[int, int]]]:
        """Return where a walk along the edges ends and the ways it went."""
        ways = set()
        for edge in edges:
            ways.add(self.way(edge, start))
            start = self.beyond(edge, start)
        return start, ways

    def _hanging_together(self, over: Iterable[int]) -> Iterator[frozenset[int]]:
        """Yield the edges of the sunk faces that hang together over some of their edges."""
        waiting, joining = list(self.sunk_faces), set(over)
        while waiting:
            faces, edges = [waiting.pop()], set[int]()
            while faces:
                edges |= (face := faces.pop())
                beside = [other for other in waiting if other & face & joining]
                waiting = [other for other in waiting if other not in beside]
                faces += beside
            yield frozenset(edges)

    def _middle_slopes(self, edges: Iterable[int]) -> set[Fraction]:
        """Return of three slopes, all up or all down to the right, the middle one."""
        slopes = {self.slope(edge) for edge in edges if self.is_slanted(edge)}
        both = [sorted(slope for slope in slopes if (slope > 0) == rising) for rising in (True, False)]
        return {three[1] for three in both if len(three) == 3}

    def _sunk_sides(self, edge: int) -> int:
        return sum(edge in face for face in self.sunk_faces)

    def _face(self, first: tuple[int, int]) -> tuple[list[int], list[int]]:
        """Return the edges and corners met on the way round, with the paper on the left."""
        edges: list[int] = []
        corners: list[int] = []
        edge, vertex = first
        while not edges or (edge, vertex) != first:
            edges.append(edge)
            corners.append(vertex)
            vertex = self.beyond(edge, vertex)
            ring = self.around[vertex]
            edge = ring[ring.index(edge) - 1]
        return edges, corners

    def _area(self, corners: list[int]) -> Fraction:
        ring = [self.points[corner] for corner in corners]
        return sum(
            (x * v - y * u for (x, y), (u, v) in zip(ring, ring[1:] + ring[:1], strict=True)), Fraction(0)
        )
