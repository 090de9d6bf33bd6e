"""The crease pattern: points, edges with role and label, what meets at a point, and walks through it.

The walks go round its faces and along rows of edges of one role.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import (
    Direction,
    Exact,
    HalfEdge,
    Leaving,
    Point,
    Scaled,
    counterclockwise,
    direction_of,
    double_area,
    face_walk,
    move_between,
    opposite,
    scaled_to_integers,
)

Label: TypeAlias = Literal["B", "M", "V", "F", "U"]
Role: TypeAlias = Literal["outline", "inside", "ridge", "pleat", "hinge", "border", "other"]

OTHER_LABEL: Mapping[Label, Label] = {"M": "V", "V": "M", "B": "B", "F": "F", "U": "U"}
_Onward: TypeAlias = Callable[[int, int], int | None]
"""For an edge and the vertex at its end, the edge with which the row goes on there, if any."""


class Edge(NamedTuple):
    """A crease or a piece of the paper's edge between two vertices, given by their indices."""

    start: int
    end: int
    role: Role
    label: Label

    @classmethod
    def joining(cls, one: int, two: int, role: Role, label: Label) -> Edge:
        """Return the edge between two vertices, the smaller index first."""
        return cls(min(one, two), max(one, two), role, label)


@dataclass(frozen=True)
class CreasePattern:
    """A planar crease pattern; vertices are exact points, edges meet only at vertices.

    Labels are those of FOLD: B paper's edge, M mountain, V valley, F flat, U not given. Where
    ``has_grid`` is false the points are in units of some file, and no squares are there to be counted.
    """

    vertices: tuple[Point, ...]
    edges: tuple[Edge, ...]
    has_grid: bool = True

    @cached_property
    def on_integers(self) -> Scaled:
        """The vertices as whole numbers of one small unit: quick, exact reckoning for whoever does much."""
        return scaled_to_integers(self.vertices)

    @cached_property
    def around(self) -> tuple[tuple[int, ...], ...]:
        """Per vertex the edges that meet there, counterclockwise, by index."""
        meeting: list[list[int]] = [[] for _ in self.vertices]
        for index, edge in enumerate(self.edges):
            meeting[edge.start].append(index)
            meeting[edge.end].append(index)
        return tuple(
            tuple(edges[place] for place in _turning(tuple(self.direction(edge, vertex) for edge in edges)))
            for vertex, edges in enumerate(meeting)
        )

    @cached_property
    def directions(self) -> tuple[tuple[Direction, ...], ...]:
        """Per vertex the directions in which its edges leave, in the order of ``around``."""
        return tuple(
            tuple(self.direction(edge, vertex) for edge in edges) for vertex, edges in enumerate(self.around)
        )

    @cached_property
    def neighbours(self) -> tuple[tuple[int, ...], ...]:
        """Per vertex those at the other ends of its edges, in the order of ``around``."""
        return tuple(
            tuple(self.other_end(edge, vertex) for edge in edges) for vertex, edges in enumerate(self.around)
        )

    @cached_property
    def leaving(self) -> tuple[Leaving, ...]:
        """Per vertex what leaves it in each direction: the edge and the vertex it leads to."""
        return tuple(
            dict(zip(directions, zip(edges, others, strict=True), strict=True))
            for directions, edges, others in zip(self.directions, self.around, self.neighbours, strict=True)
        )

    @cached_property
    def interior(self) -> tuple[int, ...]:
        """The vertices off the paper's edge where creases meet."""
        return tuple(
            vertex
            for vertex, edges in enumerate(self.around)
            if edges and all(self.edges[edge].label != "B" for edge in edges)
        )

    @cached_property
    def creases(self) -> tuple[int, ...]:
        """The edges that are not the paper's edge, by index."""
        return tuple(index for index, edge in enumerate(self.edges) if edge.label != "B")

    @cached_property
    def interior_ends(self) -> tuple[tuple[int, ...], ...]:
        """Per edge those of its ends that are interior vertices."""
        inner = frozenset(self.interior)
        return tuple(
            tuple(vertex for vertex in (edge.start, edge.end) if vertex in inner) for edge in self.edges
        )

    @cached_property
    def box(self) -> tuple[Exact, Exact, Exact, Exact]:
        """The smallest and largest x and y: left, bottom, right, top."""
        xs, ys = [point.x for point in self.vertices], [point.y for point in self.vertices]
        return min(xs), min(ys), max(xs), max(ys)

    @cached_property
    def _faces(self) -> tuple[tuple[int, ...], ...]:
        """What ``faces`` returns."""
        points = self.on_integers.points
        return tuple(
            cycle for cycle in face_cycles(self) if double_area([points[vertex] for vertex in cycle]) > 0
        )

    def other_end(self, edge: int, vertex: int) -> int:
        """Return the end of the edge that is not the given vertex."""
        start, end = self.edges[edge].start, self.edges[edge].end
        return end if vertex == start else start

    def direction(self, edge: int, vertex: int) -> Direction:
        """Return the direction in which the edge leaves the vertex, one of its ends."""
        direction = self._directions_of_edges[edge]
        return direction if vertex == self.edges[edge].start else opposite(direction)

    @cached_property
    def _directions_of_edges(self) -> tuple[Direction, ...]:
        """Per edge its direction from start to end: asked for so often that it is reckoned once."""
        return tuple(
            direction_of(move_between(self.vertices[edge.start], self.vertices[edge.end]))
            for edge in self.edges
        )

    def ends(self, edge: int) -> tuple[Point, Point]:
        """Return the two ends of the edge as points."""
        return self.vertices[self.edges[edge].start], self.vertices[self.edges[edge].end]

    def labels(self) -> tuple[Label, ...]:
        """Return the label of each edge."""
        return tuple(edge.label for edge in self.edges)

    def with_labels(self, labels: Iterable[Label]) -> CreasePattern:
        """Return the same pattern with other labels, one per edge."""
        pairs = zip(self.edges, labels, strict=True)
        edges = (Edge(start, end, role, label) for (start, end, role, _), label in pairs)
        relabelled = replace(self, edges=tuple(edges))
        # what was worked out of places alone is true of the same creases with other labels
        known = ((name, self.__dict__[name]) for name in _OF_PLACES if name in self.__dict__)
        relabelled.__dict__.update(known)
        return relabelled

    def switched(self, switch: Iterable[int]) -> CreasePattern:
        """Return the pattern with mountain and valley exchanged on the given edges."""
        chosen = frozenset(switch)
        return self.with_labels(
            OTHER_LABEL[edge.label] if index in chosen else edge.label
            for index, edge in enumerate(self.edges)
        )

    def unlabelled(self) -> CreasePattern:
        """Return the pattern with every crease's label taken away (U)."""
        return self.with_labels("B" if edge.label == "B" else "U" for edge in self.edges)


_OF_PLACES = (
    "on_integers",
    "around",
    "directions",
    "neighbours",
    "leaving",
    "box",
    "_directions_of_edges",
    "_faces",
)
"""The cached properties that do not depend on labels."""


@lru_cache(maxsize=4096)
def _turning(directions: tuple[Direction, ...]) -> tuple[int, ...]:
    """Return the places of directions in counterclockwise order: few points of a sheet differ in theirs."""
    return tuple(counterclockwise(range(len(directions)), directions.__getitem__))


def faces(pattern: CreasePattern) -> tuple[tuple[int, ...], ...]:
    """Return the faces as vertex cycles, counterclockwise; the outside is not one of them.

    The pattern must hang together, as every pattern inside a paper's edge does.
    """
    return pattern._faces


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


def straight_runs(pattern: CreasePattern, role: Role) -> list[Run]:
    """Return the longest straight rows of edges of a role."""
    return straight_runs_among(pattern, _of_role(pattern, role))


def straight_runs_among(pattern: CreasePattern, edges: Iterable[int]) -> list[Run]:
    """Return the longest straight rows of some edges."""
    return _runs(pattern, set(edges), lambda edge, vertex: _straight_ahead(pattern, edge, vertex))


def bent_runs(pattern: CreasePattern, role: Role) -> list[Run]:
    """Return the longest rows of edges of a role that go straight on or, at a ridge, round its bend."""

    def onward(edge: int, vertex: int) -> int | None:
        ahead = _straight_ahead(pattern, edge, vertex)
        if ahead is not None and pattern.edges[ahead].role == role:
            return ahead
        others = [e for e in pattern.around[vertex] if e != edge and pattern.edges[e].role == role]
        return others[0] if len(others) == 1 else None

    return _runs(pattern, _of_role(pattern, role), onward)


def _of_role(pattern: CreasePattern, role: Role) -> set[int]:
    return {edge for edge in pattern.creases if pattern.edges[edge].role == role}


def _straight_ahead(pattern: CreasePattern, edge: int, vertex: int) -> int | None:
    ahead = pattern.leaving[vertex].get(opposite(pattern.direction(edge, vertex)))
    return ahead[0] if ahead else None


def _runs(pattern: CreasePattern, waiting: set[int], onward: _Onward) -> list[Run]:
    """Return rows of edges: from each edge not yet in a row as far as it goes both ways."""
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
