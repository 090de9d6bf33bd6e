"""How a board is to look: what is lit, marked, judged and told; nothing of how it is drawn."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from drills.geometry import Point
from drills.pattern import CreasePattern

NO_EDGES: frozenset[int] = frozenset()
NO_POINTS: frozenset[Point] = frozenset()


class Marked(NamedTuple):
    """Edges, by index, and points, by place, that wear one mark."""

    edges: frozenset[int] = NO_EDGES
    points: frozenset[Point] = NO_POINTS


NOTHING = Marked()


@dataclass(frozen=True)
class Look:
    """One look of a board; with nothing said, every crease solid and without its letter.

    ``labels`` tells mountains from valleys, with letters where it is plain whose they are;
    ``bare`` leaves only grid and paper; ``ruled`` counts the squares along the board; ``scanned`` says
    that it is looked over as a whole and need not be legible in detail; ``arrow`` is the vertex a lit
    crease starts from and the one it leads to; ``points`` are pencil dots; ``shaded`` are parts, each
    of faces as vertex cycles; ``staircase`` are the corners of the way across and down; ``cursor_at`` is
    the point under the cursor, on the pattern or on the bare grid.

    Once it ``is_told``, what is true is thick and bright and all is dimmed that is neither judged nor lit
    nor ``kept``; ``outlines`` are edges that wear one sign together; ``angles`` are the creases beside
    small angles, ``notes`` the words at creases, ``counts`` those at points.
    """

    labels: bool = False
    bare: bool = False
    ruled: bool = False
    scanned: bool = False
    hidden: frozenset[int] = NO_EDGES
    lit: frozenset[int] = NO_EDGES
    arrow: tuple[int, int] | None = None
    cursor_edge: int | None = None
    cursor_at: Point | None = None
    marked: Marked = NOTHING
    right: Marked = NOTHING
    missed: Marked = NOTHING
    wrong: Marked = NOTHING
    points: frozenset[Point] = NO_POINTS
    fault_points: frozenset[Point] = NO_POINTS
    shaded: tuple[tuple[tuple[int, ...], ...], ...] = ()
    staircase: tuple[Point, ...] = ()
    is_told: bool = False
    kept: frozenset[int] = NO_EDGES
    outlines: tuple[frozenset[int], ...] = ()
    angles: tuple[int, ...] = ()
    notes: tuple[tuple[int, str], ...] = ()
    counts: tuple[tuple[Point, str], ...] = ()


def points_at(pattern: CreasePattern, vertices: Iterable[int]) -> frozenset[Point]:
    """Return the places of the vertices."""
    return frozenset(pattern.vertices[vertex] for vertex in vertices)
