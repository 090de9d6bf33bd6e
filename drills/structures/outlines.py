"""Where slanted creases lead, and the pieces of outlines that they make from corner to corner."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from math import gcd
from typing import NamedTuple, TypeAlias

from drills.geometry import Direction, HalfPlane, IntPair, Leaving, opposite
from drills.pattern import CreasePattern
from drills.structures.triangle import (
    FAR_CORNERS,
    ORIENTED_TRIANGLES,
    SIDE_ALONG,
    TRIANGLE_INSIDE,
    OrientedTriangle,
)

_Step: TypeAlias = tuple[int, int]
"""An edge of the outline, by its first vertex and its side."""


class CreaseIndex(NamedTuple):
    """Where creases lead: the vertices as whole numbers in one small unit, and what leaves each.

    ``over_edge`` gives for each oriented triangle, by its place in ORIENTED_TRIANGLES, at which
    vertices and in which direction a crease that runs like its inside lines comes in over the
    paper's edge.
    """

    places: tuple[IntPair, ...]
    leaving: tuple[Leaving, ...]
    at_edge: frozenset[int]
    over_edge: Mapping[int, Sequence[tuple[int, Direction]]]

    def beyond(self, vertex: int, direction: Direction) -> int | None:
        """Return the vertex to which a crease leads in a direction, if there is one."""
        found = self.leaving[vertex].get(direction)
        return found[1] if found else None


def crease_index(pattern: CreasePattern) -> CreaseIndex:
    """Return where the creases of a pattern lead; the paper's edge is none of them."""
    places = pattern.on_integers.points
    leaving: list[dict[Direction, tuple[int, int]]] = [{} for _ in places]
    at_edge = set()
    for number, (start, end, _, label) in enumerate(pattern.edges):
        if label == "B":
            at_edge |= {start, end}
            continue
        # reckoned from whole numbers, which is quicker here than to ask the pattern
        dx, dy = places[end][0] - places[start][0], places[end][1] - places[start][1]
        shared = gcd(dx, dy)
        direction = Direction(dx // shared, dy // shared)
        leaving[start][direction] = number, end
        leaving[end][opposite(direction)] = number, start
    over_edge = defaultdict(list)
    for vertex in at_edge:
        for direction in leaving[vertex].keys() & TRIANGLE_INSIDE.keys():
            over_edge[TRIANGLE_INSIDE[direction]].append((vertex, direction))
    return CreaseIndex(places, tuple(leaving), frozenset(at_edge), over_edge)


class Piece(NamedTuple):
    """A part of an outline that the paper shows, followed with the inside at one hand.

    One side for each edge; a whole outline ends where it began, others begin and end at the paper's edge.
    For each side shown ``bounds`` has the half plane at its inner hand, for places as in CreaseIndex.
    """

    number: int
    vertices: tuple[int, ...]
    sides: tuple[int, ...]
    bounds: tuple[HalfPlane, ...]
    shown: frozenset[int]

    @property
    def oriented(self) -> OrientedTriangle:
        """The oriented triangle of which this may be the outline."""
        return ORIENTED_TRIANGLES[self.number]

    @property
    def is_whole(self) -> bool:
        """Whether it closes."""
        return self.vertices[0] == self.vertices[-1]

    def corners(self) -> Iterator[tuple[int, int]]:
        """Yield each corner passed and its vertex."""
        ends = self.sides[-1:] + self.sides[:-1] if self.is_whole else self.sides[:1] + self.sides[:-1]
        for vertex, last, side in zip(self.vertices, ends, self.sides, strict=False):
            if last != side:
                yield side, vertex

    def along_sides(self) -> Iterator[tuple[int, int]]:
        """Yield a side and a vertex on it, off the corners, for each such vertex."""
        corners = {vertex for _, vertex in self.corners()}
        sides = self.sides if self.is_whole else (*self.sides, self.sides[-1])
        for vertex, side in zip(self.vertices, sides, strict=False):
            if vertex not in corners:
                yield side, vertex


_Onward: TypeAlias = Callable[[CreaseIndex, OrientedTriangle, int, int], _Step | None]


def outline_pieces(index: CreaseIndex) -> list[Piece]:
    """Return every piece that closes with four corners, or runs from edge to edge with fewer."""
    waiting = {
        (vertex, direction)
        for vertex, leaving in enumerate(index.leaving)
        for direction in leaving.keys() & SIDE_ALONG.keys()
    }
    pieces = (_followed(index, start, waiting) for start in sorted(waiting) if start in waiting)
    return [piece for piece in pieces if _is_sound(index, piece)]


def _is_sound(index: CreaseIndex, piece: Piece) -> bool:
    corners = len(list(piece.corners()))
    if piece.is_whole:
        closing = _next(index, piece.oriented, piece.vertices[-2], piece.sides[-1])
        return corners == 4 and closing == (piece.vertices[0], piece.sides[0])
    return corners < 4 and {piece.vertices[0], piece.vertices[-1]} <= index.at_edge


def _followed(index: CreaseIndex, start: tuple[int, Direction], waiting: set[tuple[int, Direction]]) -> Piece:
    """Take off those waiting all edges, by first vertex and direction, in a row with the first."""
    vertex, direction = start
    number, side = SIDE_ALONG[direction]
    oriented = ORIENTED_TRIANGLES[number]
    ahead = _taken(index, oriented, (vertex, side), _next, waiting)
    behind = _taken(index, oriented, _last(index, oriented, vertex, side), _last, waiting)
    steps = behind[::-1] + ahead
    last, side = steps[-1]
    end = index.leaving[last][oriented.sides[side]][1]
    vertices, sides = (*(vertex for vertex, _ in steps), end), tuple(side for _, side in steps)
    place_on = {side: index.places[vertex] for vertex, side in steps}
    bounds = tuple(_bound(oriented, side, place) for side, place in place_on.items())
    return Piece(number, vertices, sides, bounds, frozenset(place_on))


def _bound(oriented: OrientedTriangle, side: int, place: IntPair) -> HalfPlane:
    """Return what lies at the inner hand of a side through a place."""
    dx, dy = oriented.sides[side]
    a, b = -oriented.left * dy, oriented.left * dx
    return HalfPlane(a, b, a * place[0] + b * place[1])


def _taken(
    index: CreaseIndex,
    oriented: OrientedTriangle,
    here: _Step | None,
    onward: _Onward,
    waiting: set[tuple[int, Direction]],
) -> list[_Step]:
    taken = []
    while here and (here[0], oriented.sides[here[1]]) in waiting:
        waiting.remove((here[0], oriented.sides[here[1]]))
        taken.append(here)
        here = onward(index, oriented, *here)
    return taken


def _next(index: CreaseIndex, oriented: OrientedTriangle, vertex: int, side: int) -> _Step | None:
    """Return the edge that follows a side's edge: round the corner, or straight on."""
    end = index.leaving[vertex][oriented.sides[side]][1]
    following = (side + 1) % 4
    if _is_corner(index, oriented, end, following):
        return end, following
    if oriented.sides[side] not in index.leaving[end] or _is_corner(index, oriented, end, side):
        return None
    return end, side


def _last(index: CreaseIndex, oriented: OrientedTriangle, vertex: int, side: int) -> _Step | None:
    """Return the edge that a side's edge follows."""
    if _is_corner(index, oriented, vertex, side):
        return index.leaving[vertex][oriented.sides[(side + 1) % 4]][1], (side - 1) % 4
    back = index.beyond(vertex, oriented.sides[(side + 2) % 4])
    if back is None or _is_corner(index, oriented, vertex, (side + 1) % 4):
        return None
    return back, side


def _is_corner(index: CreaseIndex, oriented: OrientedTriangle, vertex: int, corner: int) -> bool:
    """Whether two sides meet here as in this corner, and a ridge or hinge, or the paper's edge, goes on."""
    leaving = index.leaving[vertex]
    if oriented.sides[corner] not in leaving or oriented.sides[(corner + 1) % 4] not in leaving:
        return False
    if vertex in index.at_edge:
        return True
    if not any(direction in leaving for direction in oriented.outward(corner)):
        return False
    return not any(_is_turning_point(leaving, oriented, corner, side) for side in (corner, (corner - 1) % 4))


def _is_turning_point(leaving: Leaving, oriented: OrientedTriangle, corner: int, side: int) -> bool:
    """Whether strange creases make a corner of a side's turning point; only far corners have all of these."""
    through = {
        oriented.sides[side],
        opposite(oriented.sides[side]),
        oriented.inside[side],
        oriented.pleats[side],
    }
    other = oriented.pleats[(2 * corner - 1 - side) % 4]
    return through <= leaving.keys() and not (corner in FAR_CORNERS and other in leaving)
