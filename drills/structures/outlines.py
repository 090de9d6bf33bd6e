"""Pieces of the outlines of slanted stretches: slanted creases followed from corner to corner."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple, TypeAlias

from drills.geometry import Direction
from drills.structures.oriented_triangle import (
    FAR_CORNERS,
    KINDS,
    SIDE_ALONG,
    CreaseIndex,
    Leaving,
    OrientedTriangle,
    opposite,
)

_Step: TypeAlias = tuple[int, int]
"""An edge of the outline, by its first vertex and its side."""

Bound: TypeAlias = tuple[int, int, int]


class Piece(NamedTuple):
    """A part of an outline that the paper shows, followed with the inside at one hand.

    One side for each edge; a whole outline ends where it began, others begin and end at the paper's edge.
    For each side shown ``bounds`` has a, b, c: at its inner hand a x + b y > c, for places as in Ways.
    """

    number: int
    vertices: tuple[int, ...]
    sides: tuple[int, ...]
    bounds: tuple[Bound, ...]
    shown: frozenset[int]

    @property
    def kind(self) -> OrientedTriangle:
        """The kind of stretch that this may be the outline of."""
        return KINDS[self.number]

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


def outline_pieces(ways: CreaseIndex) -> list[Piece]:
    """Return every piece that closes with four corners, or runs from edge to edge with fewer."""
    waiting = {
        (vertex, way)
        for vertex, leaving in enumerate(ways.leaving)
        for way in leaving.keys() & SIDE_ALONG.keys()
    }
    pieces = (_followed(ways, start, waiting) for start in sorted(waiting) if start in waiting)
    return [piece for piece in pieces if _is_sound(ways, piece)]


def _is_sound(ways: CreaseIndex, piece: Piece) -> bool:
    corners = len(list(piece.corners()))
    if piece.is_whole:
        closing = _next(ways, piece.kind, piece.vertices[-2], piece.sides[-1])
        return corners == 4 and closing == (piece.vertices[0], piece.sides[0])
    return corners < 4 and {piece.vertices[0], piece.vertices[-1]} <= ways.at_edge


def _followed(ways: CreaseIndex, start: tuple[int, Direction], waiting: set[tuple[int, Direction]]) -> Piece:
    """Take off those waiting all edges, each by its first vertex and its way, in a row with the first."""
    vertex, way = start
    number, side = SIDE_ALONG[way]
    kind = KINDS[number]
    ahead = _taken(ways, kind, (vertex, side), _next, waiting)
    behind = _taken(ways, kind, _last(ways, kind, vertex, side), _last, waiting)
    steps = behind[::-1] + ahead
    last, side = steps[-1]
    end = ways.leaving[last][kind.sides[side]][1]
    vertices, sides = (*(vertex for vertex, _ in steps), end), tuple(side for _, side in steps)
    place_on = {side: ways.places[vertex] for vertex, side in steps}
    bounds = tuple(_bound(kind, side, place) for side, place in place_on.items())
    return Piece(number, vertices, sides, bounds, frozenset(place_on))


def _bound(kind: OrientedTriangle, side: int, place: tuple[int, int]) -> Bound:
    dx, dy = kind.sides[side]
    a, b = -kind.left * dy, kind.left * dx
    return a, b, a * place[0] + b * place[1]


def _taken(
    ways: CreaseIndex,
    kind: OrientedTriangle,
    here: _Step | None,
    onward: _Onward,
    waiting: set[tuple[int, Direction]],
) -> list[_Step]:
    taken = []
    while here and (here[0], kind.sides[here[1]]) in waiting:
        waiting.remove((here[0], kind.sides[here[1]]))
        taken.append(here)
        here = onward(ways, kind, *here)
    return taken


def _next(ways: CreaseIndex, kind: OrientedTriangle, vertex: int, side: int) -> _Step | None:
    """Return the edge that follows a side's edge: round the corner, or straight on."""
    end = ways.leaving[vertex][kind.sides[side]][1]
    following = (side + 1) % 4
    if _is_corner(ways, kind, end, following):
        return end, following
    if kind.sides[side] not in ways.leaving[end] or _is_corner(ways, kind, end, side):
        return None
    return end, side


def _last(ways: CreaseIndex, kind: OrientedTriangle, vertex: int, side: int) -> _Step | None:
    """Return the edge that a side's edge follows."""
    if _is_corner(ways, kind, vertex, side):
        return ways.leaving[vertex][kind.sides[(side + 1) % 4]][1], (side - 1) % 4
    back = ways.beyond(vertex, kind.sides[(side + 2) % 4])
    if back is None or _is_corner(ways, kind, vertex, (side + 1) % 4):
        return None
    return back, side


def _is_corner(ways: CreaseIndex, kind: OrientedTriangle, vertex: int, corner: int) -> bool:
    """Whether two sides meet here as in this corner, and a ridge or hinge, or the paper's edge, goes on."""
    leaving = ways.leaving[vertex]
    if kind.sides[corner] not in leaving or kind.sides[(corner + 1) % 4] not in leaving:
        return False
    if vertex in ways.at_edge:
        return True
    if not any(way in leaving for way in kind.outward(corner)):
        return False
    return not any(_is_turning_point(leaving, kind, corner, side) for side in (corner, (corner - 1) % 4))


def _is_turning_point(leaving: Leaving, kind: OrientedTriangle, corner: int, side: int) -> bool:
    """Whether strange creases make a corner of a side's turning point; only far corners have all of these."""
    through = {kind.sides[side], opposite(kind.sides[side]), kind.inside[side], kind.pleats[side]}
    other = kind.pleats[(2 * corner - 1 - side) % 4]
    return through <= leaving.keys() and not (corner in FAR_CORNERS and other in leaving)
