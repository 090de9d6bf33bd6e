"""Finding slanted stretches by where creases run; roles, mountains and valleys play no part.

Outlines come first, followed from corner to corner (see ``outlines``). A stretch that the paper's
edge cuts shows as pieces, which are put together where each lies at the inner hand of the others'
sides. An outline alone is no stretch: inside lines must lead from where its pleat lines end, or come
in over the paper's edge, to places where they may end, which no look-alike's creases do.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from drills.geometry import Direction, Move, Point, move_between, moved, opposite, straight_on
from drills.pattern import CreasePattern
from drills.structures.outlines import CreaseIndex, Piece, crease_index, outline_pieces
from drills.structures.triangle import FAR_CORNERS, Triangle


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


def inside_of(index: CreaseIndex, pieces: Sequence[Piece]) -> Inside:
    """Return what lies inside the outline that these pieces show: lines with both ends where they may be."""
    oriented = pieces[0].oriented
    sides_at = {vertex: side for piece in pieces for vertex, side in starts_on(index, piece).items()}
    outline = {vertex for piece in pieces for vertex in piece.vertices}
    starts = {vertex: oriented.inside[side] for vertex, side in sides_at.items()}
    starts |= _starts_at_edge(index, pieces)
    edges: set[int] = set()
    ends: set[int] = set()
    for vertex, direction in starts.items():
        end, line = _followed(index, vertex, direction, outline)
        if end in index.at_edge or starts.get(end) == opposite(direction):
            edges.update(line)
            ends |= {vertex, end}
    corners = {vertex for piece in pieces for _, vertex in piece.corners()}
    turning = frozenset((sides_at[vertex], vertex) for vertex in ends - corners - index.at_edge)
    # three rays from one point of the paper's edge are no far corner: a ridge must leave another corner
    is_anchored = bool(turning) or bool(ends & corners and corners - index.at_edge)
    return Inside(frozenset(edges), turning, is_anchored)


def starts_on(index: CreaseIndex, piece: Piece) -> dict[int, int]:
    """Return the vertices of a piece where an inside line may start, each with its side.

    These are far corners, and places on a side where a pleat line, or the paper's edge, is outside.
    """
    oriented = piece.oriented
    starts = [(corner, vertex) for corner, vertex in piece.corners() if corner in FAR_CORNERS]
    starts += [
        (side, vertex)
        for side, vertex in piece.along_sides()
        if vertex in index.at_edge or oriented.pleats[side] in index.leaving[vertex]
    ]
    return {vertex: side for side, vertex in starts if oriented.inside[side] in index.leaving[vertex]}


def _lies_inside(index: CreaseIndex, vertices: Iterable[int], piece: Piece) -> bool:
    """Whether the vertices lie at the inner hand of each side of a piece, none of which runs through all."""
    places = [index.places[vertex] for vertex in vertices]
    for bound in piece.bounds:
        heights = [bound.height(place) for place in places]
        if min(heights) < 0 or max(heights) == 0:
            return False
    return True


def _starts_at_edge(index: CreaseIndex, pieces: Sequence[Piece]) -> dict[int, Direction]:
    """Return where inside lines may come in over the paper's edge, with their directions."""
    bounds = [bound for piece in pieces for bound in piece.bounds]
    return {
        vertex: direction
        for vertex, direction in index.over_edge.get(pieces[0].number, ())
        if all(bound.height(index.places[vertex]) > 0 for bound in bounds)
    }


def _followed(
    index: CreaseIndex, start: int, direction: Direction, outline: set[int]
) -> tuple[int, list[int]]:
    """Return where a line ends, at the latest in the outline or at the paper's edge, and its edges."""
    edges, end = [], start
    for edge, vertex in straight_on(index.leaving, start, direction):
        edges.append(edge)
        end = vertex
        if end in outline or end in index.at_edge:
            break
    return end, edges


Corners = tuple[Point | None, Point | None, Point | None, Point | None]


@dataclass(frozen=True)
class Found:
    """A slanted stretch as far as the paper shows it; edges and vertices by index, in order.

    ``corners`` are S, A, T, B, named as in the stretch drawn in the same ``facing``, one of FACINGS,
    and None where two sides do not meet on the paper. ``units`` are the pleats turned: by the
    shallow side at A and the steep side at B, else the one that B-T and A-T turn; None where no such
    side is shown from corner to corner.
    """

    triangle: Triangle
    facing: int
    corners: Corners
    units: tuple[int | None, int | None]
    outline: tuple[int, ...]
    inside: tuple[int, ...]
    turning_points: tuple[int, ...]

    @property
    def is_whole(self) -> bool:
        """Whether all four corners are on the sheet."""
        return None not in self.corners

    @property
    def shallow(self) -> Move | None:
        """The shallow side, S to A or B to T, or None where neither is shown from corner to corner."""
        start, a, far, b = self.corners
        return _first_move((start, a), (b, far))

    @property
    def steep(self) -> Move | None:
        """The steep side, S to B or A to T, or None where neither is shown from corner to corner."""
        start, a, far, b = self.corners
        return _first_move((start, b), (a, far))

    def parts_that_go_in(self) -> tuple[tuple[Point, Point, Point], ...]:
        """Return the two triangles that go in, each from its side corner; none where it is cut."""
        s, a, far, b = self.corners
        shallow, steep = self.units
        if s is None or a is None or far is None or b is None or not shallow or not steep:
            return ()
        reach = min(shallow, steep)

        def part(corner: Point, along_shallow: Point, along_steep: Point) -> tuple[Point, Point, Point]:
            first = moved(corner, move_between(corner, along_shallow), Fraction(reach, shallow))
            return corner, first, moved(corner, move_between(corner, along_steep), Fraction(reach, steep))

        return part(a, s, far), part(b, far, s)


def _first_move(*sides: tuple[Point | None, Point | None]) -> Move | None:
    moves = (move_between(start, end) for start, end in sides if start is not None and end is not None)
    return next(moves, None)


def find_stretches(pattern: CreasePattern) -> tuple[Found, ...]:
    """Return each slanted stretch once, in order of its outline's edges; roles, M and V play no part."""
    index = crease_index(pattern)
    found = []
    for pieces in _outlines(index):
        inside = inside_of(index, pieces)
        if inside.is_anchored:
            found.append(_found(pattern, index, pieces, inside))
    return tuple(sorted(found, key=lambda stretch: stretch.outline))


def _outlines(index: CreaseIndex) -> list[list[Piece]]:
    """Return the pieces that belong together: each whole outline, and what the paper's edge left of others.

    Each shows a shallow and a steep side, and somewhere on it an inside line may start.
    """
    outlines: list[list[Piece]] = []
    cut: dict[int, list[Piece]] = defaultdict(list)
    for piece in outline_pieces(index):
        if piece.is_whole:
            outlines.append([piece])
        else:
            cut[piece.number].append(piece)
    for pieces in cut.values():
        outlines += _together(index, pieces)
    return [pieces for pieces in outlines if len({side % 2 for piece in pieces for side in piece.shown}) == 2]


def _together(index: CreaseIndex, pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Return the cut pieces by outline; a piece where nothing starts joins others and stands for nothing."""
    starts = {piece: len(starts_on(index, piece)) for piece in pieces}
    outlines: list[list[Piece]] = []
    for piece in sorted(pieces, key=lambda piece: -starts[piece]):
        fitting = (outline for outline in outlines if _belongs_to(index, piece, outline))
        outline = next(fitting, None)
        if outline is not None:
            outline.append(piece)
        elif starts[piece]:
            outlines.append([piece])
    return outlines


def _belongs_to(index: CreaseIndex, piece: Piece, outline: Iterable[Piece]) -> bool:
    return all(_belong_together(index, piece, other) for other in outline)


def _belong_together(index: CreaseIndex, one: Piece, two: Piece) -> bool:
    """Whether two pieces show different sides and each lies on the inner hand of the other's sides."""
    return (
        not one.shown & two.shown
        and _lies_inside(index, one.vertices, two)
        and _lies_inside(index, two.vertices, one)
    )


def _found(pattern: CreasePattern, index: CreaseIndex, pieces: Sequence[Piece], inside: Inside) -> Found:
    oriented = pieces[0].oriented
    at = {corner: pattern.vertices[vertex] for piece in pieces for corner, vertex in piece.corners()}
    edges = {
        index.leaving[vertex][oriented.sides[side]][0]
        for piece in pieces
        for vertex, side in zip(piece.vertices, piece.sides, strict=False)
    }
    whole = [[side for side in sides if {side, (side + 1) % 4} <= at.keys()] for sides in ((0, 2), (3, 1))]
    shallow, steep = (inside.turning(sides[0]) + 1 if sides else None for sides in whole)
    return Found(
        oriented.triangle,
        oriented.facing,
        (at.get(0), at.get(1), at.get(2), at.get(3)),
        (shallow, steep),
        tuple(sorted(edges)),
        tuple(sorted(inside.edges)),
        tuple(sorted(vertex for _, vertex in inside.turning_points)),
    )
