"""The crease pattern: points, edges with role and label, and what meets at a point."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property, partial
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import (
    Direction,
    Exact,
    Leaving,
    Point,
    Scaled,
    counterclockwise,
    direction_of,
    move_between,
    opposite,
    scaled_to_integers,
)

Label: TypeAlias = Literal["B", "M", "V", "F", "U"]
Role: TypeAlias = Literal["outline", "inside", "ridge", "pleat", "hinge", "border", "other"]

OTHER_LABEL: Mapping[Label, Label] = {"M": "V", "V": "M", "B": "B", "F": "F", "U": "U"}


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

    Labels are those of FOLD: B paper's edge, M mountain, V valley, F flat, U not given.
    """

    vertices: tuple[Point, ...]
    edges: tuple[Edge, ...]

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
            tuple(counterclockwise(found, partial(self.direction, vertex=vertex)))
            for vertex, found in enumerate(meeting)
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
        return CreasePattern(self.vertices, tuple(edge._replace(label=label) for edge, label in pairs))

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
