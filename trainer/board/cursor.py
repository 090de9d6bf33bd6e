"""The cursor on a pattern: arrows go from point to point, turns from crease to crease round a point."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

from drills.exact.plane import Direction, Point, dot
from drills.pattern.crease_pattern import CreasePattern
from trainer.board.arrows import BACK, Arrow, arrow_ways, nearest_that_way

EAST = Direction(1, 0)


class Cursor(NamedTuple):
    """A vertex, one of its creases (None: it has none to show) and the way the cursor faces.

    The crease is the one nearest to where the cursor faces; arrows leave that as it is, so going
    right and then left comes back to the same crease too. ``back`` is the arrow that undoes the
    last one, and the vertex it leads to.
    """

    vertex: int
    edge: int | None
    facing: Direction = EAST
    back: tuple[Arrow, int] | None = None


@dataclass(frozen=True)
class Track:
    """The vertices and creases a cursor may be on, and the ways between them."""

    pattern: CreasePattern
    vertices: frozenset[int]
    hidden: frozenset[int]

    @cached_property
    def _places(self) -> dict[int, Point]:
        return {vertex: self.pattern.vertices[vertex] for vertex in sorted(self.vertices)}

    @cached_property
    def ways(self) -> Mapping[tuple[int, Arrow], int]:
        """Where each arrow leads from each vertex, both ways alike; these alone reach every vertex."""
        return arrow_ways(self._places)

    @cached_property
    def reading_order(self) -> tuple[int, ...]:
        """The vertices row by row from the top left."""
        places = self.pattern.vertices
        return tuple(sorted(self.vertices, key=lambda vertex: (-places[vertex].y, places[vertex].x)))

    def creases_at(self, vertex: int) -> tuple[int, ...]:
        """Return the creases shown at a vertex, counterclockwise."""
        edges = self.pattern.edges
        return tuple(
            edge
            for edge in self.pattern.around[vertex]
            if edges[edge].label != "B" and edge not in self.hidden
        )

    def at(self, vertex: int, facing: Direction = EAST, back: tuple[Arrow, int] | None = None) -> Cursor:
        """Return the cursor at a vertex, on the crease nearest to where it faces."""
        creases = self.creases_at(vertex)
        if not creases:
            return Cursor(vertex, None, facing, back)
        nearest = max(
            creases, key=lambda edge: (_closeness(self.pattern.direction(edge, vertex), facing), -edge)
        )
        return Cursor(vertex, nearest, facing, back)

    def on(self, edge: int, near: int | None = None) -> Cursor:
        """Return the cursor on a crease, at the given end of it or at one it may be on."""
        ends = [end for end in (near, *self.pattern.edges[edge][:2]) if end in self.vertices]
        vertex = ends[0] if ends else self.pattern.edges[edge].start
        return Cursor(vertex, edge, self.pattern.direction(edge, vertex))

    def moved(self, cursor: Cursor, arrow: Arrow) -> Cursor:
        """Return the cursor after an arrow; the same one where no point lies that way.

        The arrow goes back where it came from, else along the track, else to the nearest point.
        """
        if cursor.back and cursor.back[0] == arrow:
            vertex: int | None = cursor.back[1]
        elif (vertex := self.ways.get((cursor.vertex, arrow))) is None:
            vertex = nearest_that_way(self._places, self.pattern.vertices[cursor.vertex], arrow)
        if vertex is None:
            return cursor
        return self.at(vertex, cursor.facing, (BACK[arrow], cursor.vertex))

    def turned(self, cursor: Cursor, clockwise: bool) -> Cursor:
        """Return the cursor on the next crease round its vertex, clockwise as seen on the screen or not."""
        creases = self.creases_at(cursor.vertex)
        if cursor.edge not in creases:
            return cursor
        edge = creases[(creases.index(cursor.edge) + (-1 if clockwise else 1)) % len(creases)]
        return cursor._replace(edge=edge, facing=self.pattern.direction(edge, cursor.vertex))

    def next_point(self, cursor: Cursor, back: bool = False) -> Cursor:
        """Return the cursor at the next (or last) vertex in reading order, round and round."""
        order = self.reading_order
        place = order.index(cursor.vertex) + (-1 if back else 1)
        return self.at(order[place % len(order)], cursor.facing)

    def start(self) -> Cursor:
        """Return the cursor at the vertex nearest to the middle of the sheet."""
        left, bottom, right, top = self.pattern.box
        places = self.pattern.vertices
        middle = min(
            self.reading_order,
            key=lambda v: (2 * places[v].x - left - right) ** 2 + (2 * places[v].y - bottom - top) ** 2,
        )
        return self.at(middle)


def track_of(
    pattern: CreasePattern, vertices: Iterable[int] | None = None, hidden: Iterable[int] = ()
) -> Track:
    """Return the track over these vertices (by default all where a shown crease meets)."""
    chosen = None if vertices is None else frozenset(vertices)
    return _track(pattern, chosen, frozenset(hidden))


@lru_cache(maxsize=16)
def _track(pattern: CreasePattern, vertices: frozenset[int] | None, hidden: frozenset[int]) -> Track:
    if vertices is None:
        shown = (pattern.edges[edge] for edge in pattern.creases if edge not in hidden)
        vertices = frozenset(end for edge in shown for end in (edge.start, edge.end))
    return Track(pattern, vertices, hidden)


def _closeness(way: Direction, facing: Direction) -> float:
    """Return the cosine of the angle between two directions."""
    along: float = dot(way, facing) / (dot(way, way) * dot(facing, facing)) ** 0.5
    return round(along, 9)
