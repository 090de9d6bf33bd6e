"""Writing a crease pattern as FOLD 1.2 (github.com/edemaine/fold, doc/spec.md)."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from drills.geometry import Exact
from drills.pattern import CreasePattern

EXACT_POINTS: Final = "slantwise:vertices_exact"
"""The key of our own under which points stand as fractions in text, beside their decimals."""


def to_fold(pattern: CreasePattern) -> dict[str, object]:
    """Return the pattern as a FOLD object, y up, one grid square = 1, points and edges in order.

    The exact coordinates are added, as fractions in text, where decimals cannot hold one of them.
    """
    fold: dict[str, object] = {
        "file_spec": 1.2,
        "file_creator": "Slantwise",
        "file_classes": ["singleModel"],
        "frame_classes": ["creasePattern"],
        "frame_attributes": ["2D"],
        "vertices_coords": [[_number(value) for value in point] for point in pattern.vertices],
        "edges_vertices": [[edge.start, edge.end] for edge in pattern.edges],
        "edges_assignment": [edge.label for edge in pattern.edges],
        "slantwise:edges_role": [edge.role for edge in pattern.edges],
    }
    if not all(_is_decimal(value) for point in pattern.vertices for value in point):
        fold[EXACT_POINTS] = [[str(value) for value in point] for point in pattern.vertices]
    return fold


def _number(value: Exact) -> int | float:
    return int(value) if value.denominator == 1 else float(value)


def _is_decimal(value: Exact) -> bool:
    """Whether the number as it is written reads back as itself."""
    return Fraction(str(_number(value))) == value
