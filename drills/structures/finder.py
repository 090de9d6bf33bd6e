"""Finding the slanted stretches of any pattern from where its creases run, whatever they are called.

A stretch is found where the paper shows, of one triangle in one facing, a shallow and a steep side
of its outline, with a ridge or a hinge out from each corner off the paper's edge, and inside at
least one inside line whose end is a far corner or a turning point, where a pleat line leaves
outward. So the tip of an outline that the paper's edge cuts off before the first inside line, and
a single side from edge to edge, are not taken for stretches; parallel sides alone are a zigzag.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from drills.exact.plane import Move, Point, move_between
from drills.exact.symmetry import FACINGS
from drills.pattern.crease_pattern import CreasePattern
from drills.structures.finder_inside import Inside, inside_of, lies_within, starts_on
from drills.structures.finder_outlines import Piece, outline_pieces
from drills.structures.finder_ways import Ways, ways_of
from drills.structures.triangle import Triangle

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
    def is_mirrored(self) -> bool:
        """Whether it is a mirror image of the unturned stretch, not only a turned one."""
        facing = FACINGS[self.facing]
        return facing.a * facing.d - facing.b * facing.c < 0

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


def _first_move(*sides: tuple[Point | None, Point | None]) -> Move | None:
    moves = (move_between(start, end) for start, end in sides if start is not None and end is not None)
    return next(moves, None)


def find_stretches(pattern: CreasePattern) -> tuple[Found, ...]:
    """Return each slanted stretch once, in order of its outline's edges; roles, M and V play no part."""
    ways = ways_of(pattern)
    found = []
    for pieces in _outlines(ways):
        inside = inside_of(ways, pieces)
        if inside.is_anchored:
            found.append(_found(pattern, ways, pieces, inside))
    return tuple(sorted(found, key=lambda stretch: stretch.outline))


def _outlines(ways: Ways) -> list[list[Piece]]:
    """Return the pieces that belong together: each whole outline, and what the paper's edge left of others.

    Each shows a shallow and a steep side, and somewhere on it an inside line may start.
    """
    outlines: list[list[Piece]] = []
    cut: dict[int, list[Piece]] = defaultdict(list)
    for piece in outline_pieces(ways):
        if piece.is_whole:
            outlines.append([piece])
        else:
            cut[piece.number].append(piece)
    for pieces in cut.values():
        outlines += _together(ways, pieces)
    return [pieces for pieces in outlines if len({side % 2 for piece in pieces for side in piece.shown}) == 2]


def _together(ways: Ways, pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Return the cut pieces by outline; a piece where nothing starts joins others and stands for nothing."""
    starts = {piece: len(starts_on(ways, piece)) for piece in pieces}
    outlines: list[list[Piece]] = []
    for piece in sorted(pieces, key=lambda piece: -starts[piece]):
        fitting = (outline for outline in outlines if _belongs_to(ways, piece, outline))
        outline = next(fitting, None)
        if outline is not None:
            outline.append(piece)
        elif starts[piece]:
            outlines.append([piece])
    return outlines


def _belongs_to(ways: Ways, piece: Piece, outline: Iterable[Piece]) -> bool:
    return all(_belong_together(ways, piece, other) for other in outline)


def _belong_together(ways: Ways, one: Piece, two: Piece) -> bool:
    """Whether two pieces show different sides and each lies on the inner hand of the other's sides."""
    return (
        not one.shown & two.shown
        and lies_within(ways, one.vertices, two)
        and lies_within(ways, two.vertices, one)
    )


def _found(pattern: CreasePattern, ways: Ways, pieces: Sequence[Piece], inside: Inside) -> Found:
    kind = pieces[0].kind
    at = {corner: pattern.vertices[vertex] for piece in pieces for corner, vertex in piece.corners()}
    edges = {
        ways.leaving[vertex][kind.sides[side]][0]
        for piece in pieces
        for vertex, side in zip(piece.vertices, piece.sides, strict=False)
    }
    whole = [[side for side in sides if {side, (side + 1) % 4} <= at.keys()] for sides in ((0, 2), (3, 1))]
    shallow, steep = (inside.turning(sides[0]) + 1 if sides else None for sides in whole)
    return Found(
        kind.triangle,
        kind.facing,
        (at.get(0), at.get(1), at.get(2), at.get(3)),
        (shallow, steep),
        tuple(sorted(edges)),
        tuple(sorted(inside.edges)),
        tuple(sorted(vertex for _, vertex in inside.turning_points)),
    )
