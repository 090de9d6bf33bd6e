"""What is lit, marked, hidden and pointed at on a board; the pattern itself stays as it is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from drills.geometry import Direction, Move, Point, move_between
from drills.pattern import CreasePattern, Edge, Label, Role, mixed, short_place

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


ROLES: dict[Role, str] = {
    "outline": "outline side",
    "inside": "inside line",
    "ridge": "ridge",
    "pleat": "pleat line",
    "hinge": "hinge",
    "border": "paper's edge",
    "other": "crease",
}
LABELS: dict[Label, str] = {"M": "mountain", "V": "valley", "F": "flat", "U": "no label"}


def way_in_words(move: Move) -> str:
    """Return a move as so many across (to either side) and so many up or down."""
    parts = [f"{mixed(max(move.dx, -move.dx))} across"] if move.dx else []
    if move.dy:
        parts.append(f"{mixed(max(move.dy, -move.dy))} {'up' if move.dy > 0 else 'down'}")
    return " ".join(parts)


def crease_in_words(
    pattern: CreasePattern, edge: int, vertex: int, *, role: bool = True, label: bool = True, way: bool = True
) -> str:
    """Return an edge as seen from one of its ends: "outline side, mountain, 3 across 1 down, to 6,4".

    What a question asks for is left out by ``role``, ``label`` and ``way``.
    """
    far = pattern.other_end(edge, vertex)
    crease = pattern.edges[edge]
    parts = [_role_in_words(crease, pattern.direction(edge, vertex)) if role else "crease"]
    if label and crease.label in LABELS:
        parts.append(LABELS[crease.label])
    if way:
        parts.append(way_in_words(move_between(pattern.vertices[vertex], pattern.vertices[far])))
    return ", ".join([*parts, f"to {short_place(pattern, pattern.vertices[far])}"])


def _role_in_words(edge: Edge, direction: Direction) -> str:
    """Return the role's name; a ridge on the diagonal says so."""
    is_diagonal = abs(direction.dx) == abs(direction.dy)
    return "45-degree ridge" if edge.role == "ridge" and is_diagonal else ROLES[edge.role]
