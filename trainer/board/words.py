"""The crease under the cursor in words, places counted from the sheet's top left corner."""

from __future__ import annotations

from drills.exact.plane import Direction, Move, move_between
from drills.pattern.crease_pattern import CreasePattern, Edge, Label, Role
from drills.pattern.places import mixed, short_place

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
