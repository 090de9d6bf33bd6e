"""What is missing where angles fail: creases that make every point they touch fold flat, the best first.

At a point where an odd number of creases meet, each gap between two has at most one direction in
which a further crease mends the point: the alternate turns, multiplied as Gaussian integers, give it.
From there a crease can only run on as it must: past a crease it is mirrored, which is straight on where
they meet at right angles; at a point it ends where that mends it, or leaves so that the point folds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise
from math import gcd, isqrt
from typing import NamedTuple

from drills.flatfold.limit import UNLIMITED, Limit
from drills.flatfold.vertex import check_angles, folds, is_kawasaki
from drills.geometry import (
    AnyMove,
    Direction,
    Exact,
    HalfEdge,
    Move,
    Point,
    counterclockwise,
    cross,
    direction_of,
    dot,
    move_between,
    moved,
    opposite,
)
from drills.pattern import CreasePattern, Line, faces, with_lines

MOST_BENDS = 6
"""A missing crease with more bends is not followed: no hinge met in folding has so many."""


class Way(NamedTuple):
    """A crease that may be missing: where it starts, bends and ends, and the failing points it mends."""

    points: tuple[Point, ...]
    mends: frozenset[Point]

    @property
    def is_plain(self) -> bool:
        """Whether it runs along the grid or at 45 degrees throughout."""
        moves = [move_between(start, end) for start, end in pairwise(self.points)]
        return all(0 in move or abs(move.dx) == abs(move.dy) for move in moves)


@dataclass(frozen=True)
class Missing:
    """One crease that is missing; ``ways`` are all that explain it equally well, never none."""

    ways: tuple[Way, ...]


def find_missing(
    pattern: CreasePattern, failing: Iterable[int], limit: Limit = UNLIMITED
) -> tuple[Missing, ...]:
    """Return the creases that would mend the angles at these points, each found with those before it drawn.

    First comes what mends most of them. Points that no crease mends are left; OutOfTimeError where the
    limit comes first.
    """
    found: list[Missing] = []
    wrong = frozenset(pattern.vertices[vertex] for vertex in failing)
    while wrong and (ways := _best(pattern, wrong, limit)):
        found.append(Missing(ways))
        pattern = completed(pattern, ways[0])
        still = {pattern.vertices[vertex] for vertex in check_angles(pattern)}
        wrong &= still
    return tuple(found)


def completed(pattern: CreasePattern, way: Way) -> CreasePattern:
    """Return the pattern with the crease drawn, its label open."""
    return with_lines(pattern, [Line(start, end, "other", "U") for start, end in pairwise(way.points)])


def _best(pattern: CreasePattern, wrong: frozenset[Point], limit: Limit) -> tuple[Way, ...]:
    """Return the ways that mend most points with fewest bends, those that its labels allow if any."""
    tracer = _Tracer(pattern, wrong, limit)
    ways = {min(way.points, way.points[::-1]): way for way in tracer.ways()}
    if not ways:
        return ()

    def worth(way: Way) -> tuple[int, int, bool]:
        return len(way.mends), -len(way.points), way.is_plain

    most = max(map(worth, ways.values()))
    best = sorted(way for way in ways.values() if worth(way) == most)
    allowed = [way for way in best if _labels_allow(pattern, way)] if len(best) > 1 else best
    first = (allowed or best)[0]
    return tuple(way for way in allowed or best if way.mends & first.mends)


def _labels_allow(pattern: CreasePattern, way: Way) -> bool:
    """Whether each point that was mended folds with the labels that are there."""
    whole = completed(pattern, way)
    labels = whole.labels()
    return all(
        folds(whole, labels, vertex) for vertex in whole.interior if whole.vertices[vertex] in way.mends
    )


def mending(directions: Sequence[Direction]) -> list[Direction]:
    """Return each direction in which one further crease makes an odd number of creases fold flat."""
    found: dict[Direction, None] = {}
    for gap in range(len(directions)):
        x, y = _alternate([*directions[gap:], *directions[:gap]])
        way = _reduced(-x, -y)
        if way not in directions and is_kawasaki(_around([*directions, way])):
            found[way] = None
    return list(found)


def mending_lines(directions: Sequence[Direction]) -> list[Direction]:
    """Return the directions in which a line straight through mends an even number of creases.

    Only lines that one direction settles: where two sums of angles are as they must be on any line
    between two gaps, nothing tells which line it is.
    """
    found: set[Direction] = set()
    count = len(directions)
    for first, second in combinations(range(count), 2):
        if (second - first) % 2:
            between = _alternate(directions[first:second])
            around = _alternate([*directions[second:], *directions[:first]])
            # the line is the bisector of what the creases on its two sides come to
            way = _half(*_times(between, around))
            both = {way, opposite(way)} if way else set()
            if way and not both & set(directions) and is_kawasaki(_around([*directions, *both])):
                found.add(max(both))
    return sorted(found)


def _half(x: int, y: int) -> Direction | None:
    """Return the direction at half the angle of (x, y); None where no whole numbers give it."""
    length = isqrt(x * x + y * y)
    if length * length != x * x + y * y:
        return None
    return _reduced(length + x, y) if length + x else Direction(0, 1)


def _alternate(directions: Sequence[Direction]) -> tuple[int, int]:
    """Return the product of the directions, every second one mirrored, as a Gaussian integer."""
    x, y = 1, 0
    for place, (dx, dy) in enumerate(directions):
        x, y = _times((x, y), (dx, -dy if place % 2 else dy))
        shared = gcd(x, y)
        x, y = x // shared, y // shared
    return x, y


def _times(one: tuple[int, int], two: tuple[int, int]) -> tuple[int, int]:
    return one[0] * two[0] - one[1] * two[1], one[0] * two[1] + one[1] * two[0]


def _reduced(x: int, y: int) -> Direction:
    shared = gcd(x, y)
    return Direction(x // shared, y // shared)


def _around(directions: Iterable[Direction]) -> list[Direction]:
    return counterclockwise(directions, lambda direction: direction)


class _Front(NamedTuple):
    """A crease followed so far: where it is, in which face and which way it goes on from there.

    ``bends`` are its start and bends, ``touched`` the vertices it came through.
    """

    point: Point
    face: tuple[int, ...]
    way: Direction
    bends: tuple[Point, ...]
    touched: tuple[int, ...]


class _Hit(NamedTuple):
    """Where a crease comes to: a point, the side of the face there, and the vertex if it is one."""

    point: Point
    side: HalfEdge
    vertex: int | None


class _Tracer:
    """Follows creases that are not drawn through the faces of a pattern, from the points that fail."""

    def __init__(self, pattern: CreasePattern, wrong: frozenset[Point], limit: Limit) -> None:
        self.pattern, self.limit = pattern, limit
        self.wrong = [vertex for vertex, point in enumerate(pattern.vertices) if point in wrong]
        self.inner = frozenset(pattern.interior)
        self.faces = {
            side: face for face in faces(pattern) for side in zip(face, face[1:] + face[:1], strict=True)
        }

    def ways(self) -> Iterator[Way]:
        """Yield each crease that mends a failing point and leaves every point that it touches right."""
        for vertex in self.wrong:
            directions = self.pattern.directions[vertex]
            if len(directions) % 2:
                for way in mending(directions):
                    for line in self._followed(vertex, way):
                        yield self._way(line.bends, line.touched)
                continue
            for way in mending_lines(directions):
                behind = list(self._followed(vertex, opposite(way)))
                for ahead in self._followed(vertex, way) if behind else ():
                    for back in behind:
                        yield self._way(back.bends[:0:-1] + ahead.bends[1:], (*back.touched, *ahead.touched))

    def _way(self, bends: tuple[Point, ...], touched: tuple[int, ...]) -> Way:
        places = self.pattern.vertices
        return Way(bends, frozenset(places[vertex] for vertex in touched if vertex in self.wrong))

    def _followed(self, vertex: int, way: Direction) -> Iterator[_Front]:
        """Yield each way in which a crease that leaves a vertex comes to an end."""
        start = self.pattern.vertices[vertex]
        waiting = list(self._leaving(vertex, way, (start,), (vertex,)))
        while waiting:
            self.limit.check()
            front = waiting.pop()
            hit = self._next(front)
            if hit is None:
                continue
            if self._is_end(front, hit):
                touched = front.touched if hit.vertex is None else (*front.touched, hit.vertex)
                yield front._replace(bends=(*front.bends, hit.point), touched=touched)
            elif hit.vertex is None:
                waiting += self._past_crease(front, hit)
            else:
                waiting += self._past_vertex(front, hit.vertex)

    def _is_end(self, front: _Front, hit: _Hit) -> bool:
        """Whether the crease may end here: at the paper's edge, or at a point that it mends."""
        if hit.vertex is None:
            return hit.side[::-1] not in self.faces
        if hit.vertex not in self.inner:
            return True
        return is_kawasaki(_around([*self.pattern.directions[hit.vertex], opposite(front.way)]))

    def _past_crease(self, front: _Front, hit: _Hit) -> Iterator[_Front]:
        start, end = (self.pattern.vertices[vertex] for vertex in hit.side)
        way = mirrored(front.way, move_between(start, end))
        bends = front.bends if way == front.way else (*front.bends, hit.point)
        if len(bends) <= MOST_BENDS:
            yield _Front(hit.point, self.faces[hit.side[::-1]], way, bends, front.touched)

    def _past_vertex(self, front: _Front, vertex: int) -> Iterator[_Front]:
        directions = [*self.pattern.directions[vertex], opposite(front.way)]
        if vertex in front.touched or len(directions) % 2 == 0 or len(set(directions)) < len(directions):
            return
        for way in mending(directions):
            bends = front.bends if way == front.way else (*front.bends, self.pattern.vertices[vertex])
            if len(bends) <= MOST_BENDS:
                yield from self._leaving(vertex, way, bends, (*front.touched, vertex))

    def _leaving(
        self, vertex: int, way: Direction, bends: tuple[Point, ...], touched: tuple[int, ...]
    ) -> Iterator[_Front]:
        """Yield the crease as it leaves a vertex, where a face is there."""
        around = _around([*self.pattern.directions[vertex], way])
        before = self.pattern.leaving[vertex][around[around.index(way) - 1]][1]
        if (vertex, before) in self.faces:
            yield _Front(self.pattern.vertices[vertex], self.faces[vertex, before], way, bends, touched)

    def _next(self, front: _Front) -> _Hit | None:
        """Return what a crease comes to first in its face."""
        nearest: tuple[Exact, _Hit] | None = None
        places = self.pattern.vertices
        for side in zip(front.face, front.face[1:] + front.face[:1], strict=True):
            one, two = (move_between(front.point, places[vertex]) for vertex in side)
            left, right = cross(front.way, one), cross(front.way, two)
            if left == 0:
                hit = _Hit(places[side[0]], side, side[0])
            elif left * right < 0:
                along = Fraction(left) / (left - right)
                hit = _Hit(
                    moved(places[side[0]], move_between(places[side[0]], places[side[1]]), along), side, None
                )
            else:
                continue
            away = dot(front.way, move_between(front.point, hit.point))
            if away > 0 and (nearest is None or away < nearest[0]):
                nearest = away, hit
        return nearest[1] if nearest else None


def mirrored(way: Direction, crease: AnyMove) -> Direction:
    """Return the way on which a crease goes on past another: the way back, as a mirror there shows it."""
    back = opposite(way)
    twice, square = 2 * dot(back, crease), dot(crease, crease)
    return direction_of(Move(twice * crease.dx - square * back.dx, twice * crease.dy - square * back.dy))
