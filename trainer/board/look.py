"""What is lit, marked, hidden and pointed at on a board; the pattern itself stays as it is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from drills.exact.plane import Point
from drills.pattern.crease_pattern import CreasePattern

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

    ``labels`` draws mountains solid, valleys dashed, and letters where there is room;
    ``bare`` leaves only grid and paper; ``arrow`` is the vertex a lit crease starts from and the
    one it leads to; ``points`` are pencil dots; ``shaded`` are faces as vertex cycles;
    ``staircase`` are the corners of the way across and down; ``cursor_at`` is the point under
    the cursor, on the pattern or on the bare grid.
    """

    labels: bool = False
    bare: bool = False
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
    shaded: tuple[tuple[int, ...], ...] = ()
    staircase: tuple[Point, ...] = ()


def points_at(pattern: CreasePattern, vertices: Iterable[int]) -> frozenset[Point]:
    """Return the places of the vertices."""
    return frozenset(pattern.vertices[vertex] for vertex in vertices)
