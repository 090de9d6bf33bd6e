"""The inside lines of a slanted stretch, followed from where they leave its outline."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from drills.exact.plane import Direction
from drills.structures.finder_kinds import FAR_CORNERS, opposite
from drills.structures.finder_outlines import Piece
from drills.structures.finder_ways import Ways


class Inside(NamedTuple):
    """The edges of the inside lines, and the turning points off the paper's edge, each with its side.

    ``is_anchored`` says that a line ends in a turning point or, where a corner is off the paper's edge,
    in a far corner.
    """

    edges: frozenset[int]
    turning_points: frozenset[tuple[int, int]]
    is_anchored: bool

    def turning(self, side: int) -> int:
        """Return the number of turning points on a side."""
        return sum(own == side for own, _ in self.turning_points)


def inside_of(ways: Ways, pieces: Sequence[Piece]) -> Inside:
    """Return what lies inside the outline that these pieces show: lines with both ends where they may be."""
    kind = pieces[0].kind
    sides_at = {vertex: side for piece in pieces for vertex, side in starts_on(ways, piece).items()}
    outline = {vertex for piece in pieces for vertex in piece.vertices}
    starts = {vertex: kind.inside[side] for vertex, side in sides_at.items()}
    starts |= _starts_at_edge(ways, pieces)
    edges: set[int] = set()
    ends: set[int] = set()
    for vertex, way in starts.items():
        end, line = _followed(ways, vertex, way, outline)
        if end in ways.at_edge or starts.get(end) == opposite(way):
            edges.update(line)
            ends |= {vertex, end}
    corners = {vertex for piece in pieces for _, vertex in piece.corners()}
    turning = frozenset((sides_at[vertex], vertex) for vertex in ends - corners - ways.at_edge)
    # three rays from one point of the paper's edge are no far corner: a ridge must leave another corner
    is_anchored = bool(turning) or bool(ends & corners and corners - ways.at_edge)
    return Inside(frozenset(edges), turning, is_anchored)


def starts_on(ways: Ways, piece: Piece) -> dict[int, int]:
    """Return the vertices of a piece where an inside line may start, each with its side.

    These are far corners, and places on a side where a pleat line, or the paper's edge, is outside.
    """
    kind = piece.kind
    starts = [(corner, vertex) for corner, vertex in piece.corners() if corner in FAR_CORNERS]
    starts += [
        (side, vertex)
        for side, vertex in piece.along_sides()
        if vertex in ways.at_edge or kind.pleats[side] in ways.leaving[vertex]
    ]
    return {vertex: side for side, vertex in starts if kind.inside[side] in ways.leaving[vertex]}


def lies_within(ways: Ways, vertices: Iterable[int], piece: Piece) -> bool:
    """Whether the vertices lie at the inner hand of each side of a piece, none of which runs through all."""
    places = [ways.places[vertex] for vertex in vertices]
    for a, b, c in piece.bounds:
        heights = [a * x + b * y - c for x, y in places]
        if min(heights) < 0 or max(heights) == 0:
            return False
    return True


def _starts_at_edge(ways: Ways, pieces: Sequence[Piece]) -> dict[int, Direction]:
    """Return where inside lines may come in over the paper's edge, with their ways."""
    found = dict(ways.over_edge.get(pieces[0].number, ()))
    for a, b, c in (bound for piece in pieces for bound in piece.bounds):
        places = ((vertex, *ways.places[vertex]) for vertex in found)
        found = {vertex: found[vertex] for vertex, x, y in places if a * x + b * y > c}
    return found


def _followed(ways: Ways, vertex: int, way: Direction, outline: set[int]) -> tuple[int, list[int]]:
    """Return where a line ends, at the latest in the outline or at the paper's edge, and its edges."""
    edges = []
    while way in ways.leaving[vertex]:
        edge, vertex = ways.leaving[vertex][way]
        edges.append(edge)
        if vertex in outline or vertex in ways.at_edge:
            break
    return vertex, edges
