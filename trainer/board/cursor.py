"""Where the arrows lead: a matching of points per axis, so that right and then left returns.

Each point has at most one neighbour to the right, and is then that one's neighbour to the left;
likewise up and down. Near neighbours within 45 degrees are matched first; then free arrows join
what is still apart. A chain of matches has two free ends in either axis and a join never closes a
chain, so two parts that are apart always have a free pair: in the end every point is reachable.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from itertools import permutations
from math import lcm
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import Direction, Exact, Point, cross, dot, move_between
from drills.pattern import CreasePattern

Arrow: TypeAlias = Literal["right", "left", "up", "down"]
Axis: TypeAlias = Literal["across", "upward"]

AXES: Mapping[Axis, tuple[Arrow, Arrow]] = {"across": ("right", "left"), "upward": ("up", "down")}
BACK: Mapping[Arrow, Arrow] = {"right": "left", "left": "right", "up": "down", "down": "up"}
DIRECTIONS: Mapping[Arrow, Direction] = {
    "right": Direction(1, 0),
    "left": Direction(-1, 0),
    "up": Direction(0, 1),
    "down": Direction(0, -1),
}
# Sideways counts more than forward, so that an arrow rather goes a little further than off its line.
_SIDEWAYS = 3
AHEAD, BEHIND = 0, 2
FAR = 5
"""About how many squares the keys go that go far."""


class _Way(NamedTuple):
    """A possible match, the best ones first: forward squares, with those sideways counted more."""

    rank: int
    cost: int
    axis: Axis
    start: int
    end: int


@dataclass
class _Matching:
    """Matches so far, and for each point the part of the sheet it is joined to."""

    ways: dict[tuple[int, Arrow], int] = field(default_factory=dict)
    part: dict[int, int] = field(default_factory=dict)

    def is_free(self, way: _Way) -> bool:
        forward, back = AXES[way.axis]
        return (way.start, forward) not in self.ways and (way.end, back) not in self.ways

    def match(self, way: _Way) -> None:
        forward, back = AXES[way.axis]
        self.ways[way.start, forward], self.ways[way.end, back] = way.end, way.start
        self.part[self.part_of(way.start)] = self.part_of(way.end)

    def part_of(self, point: int) -> int:
        while (above := self.part.get(point, point)) != point:
            point = above
        return point


def arrow_ways(points: Mapping[int, Point]) -> dict[tuple[int, Arrow], int]:
    """Return where each arrow leads from each point; points are given by number and place."""
    places = _whole(points)
    matching = _Matching()
    for way in sorted(_ways(places, AHEAD)):
        if matching.is_free(way):
            matching.match(way)
    if len({matching.part_of(point) for point in points}) > 1:
        for way in sorted(_ways(places, BEHIND)):
            if matching.part_of(way.start) != matching.part_of(way.end) and matching.is_free(way):
                matching.match(way)
    return matching.ways


def nearest_that_way(points: Mapping[int, Point], start: Point, arrow: Arrow) -> int | None:
    """Return the number of the nearest point within 45 degrees of an arrow, None where there is none."""
    return _best_that_way(points, start, arrow, 0)


def farther_that_way(points: Mapping[int, Point], start: Point, arrow: Arrow) -> int | None:
    """Return the number of the point within 45 degrees of an arrow that is nearest to five squares away."""
    return _best_that_way(points, start, arrow, FAR)


def _best_that_way(points: Mapping[int, Point], start: Point, arrow: Arrow, wanted: int) -> int | None:
    """Return the number of the point within 45 degrees that is nearest to so many squares away."""
    ahead: list[tuple[Exact, int]] = []
    for number, point in points.items():
        move = move_between(start, point)
        forward, aside = dot(move, DIRECTIONS[arrow]), cross(move, DIRECTIONS[arrow])
        sideways = max(aside, -aside)
        if forward > 0 and sideways <= forward:
            ahead.append((max(forward - wanted, wanted - forward) + _SIDEWAYS * sideways, number))
    return min(ahead)[1] if ahead else None


def _ways(places: Sequence[tuple[int, int, int]], most: int) -> Iterator[_Way]:
    """Yield the ways of rank up to so much; the many others are not made, as most sheets need none."""
    for (start, x, y), (end, to_x, to_y) in permutations(places, 2):
        across, up = to_x - x, to_y - y
        if most > AHEAD or abs(up) <= across:
            yield _way("across", across, abs(up), start, end)
        if most > AHEAD or abs(across) <= up:
            yield _way("upward", up, abs(across), start, end)


def _way(axis: Axis, forward: int, sideways: int, start: int, end: int) -> _Way:
    """Return a way of rank 0 within 45 degrees of the arrow, 1 up to a right angle, 2 where it leads back."""
    rank = 0 if sideways <= forward else 1 if forward > 0 else 2
    return _Way(rank, abs(forward) + _SIDEWAYS * sideways, axis, start, end)


def _whole(points: Mapping[int, Point]) -> list[tuple[int, int, int]]:
    """Return number, x and y of the points, in parts of a square small enough to make all whole."""
    unit = lcm(*_denominators(points.values()))
    return [(number, int(point.x * unit), int(point.y * unit)) for number, point in points.items()]


def _denominators(points: Iterable[Point]) -> Iterator[int]:
    for point in points:
        yield from (point.x.denominator, point.y.denominator)


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

    def far(self, cursor: Cursor, arrow: Arrow) -> Cursor:
        """Return the cursor at the point nearest to five squares that way, else the same one."""
        start = self.pattern.vertices[cursor.vertex]
        vertex = farther_that_way(self._places, start, arrow)
        return cursor if vertex is None else self.at(vertex, cursor.facing)

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
