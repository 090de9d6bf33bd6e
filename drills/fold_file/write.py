"""Writing a crease pattern as FOLD 1.2 (github.com/edemaine/fold, doc/spec.md)."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from drills.fold_file.numbers import exact_coordinate
from drills.fold_file.read import MOST_VERTICES, Frame, rows_of
from drills.fold_file.refusals import FoldFileError
from drills.geometry import Exact, Point
from drills.pattern import CreasePattern


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
        fold["slantwise:vertices_exact"] = [[str(value) for value in point] for point in pattern.vertices]
    return fold


def _number(value: Exact) -> int | float:
    return int(value) if value.denominator == 1 else float(value)


def _is_decimal(value: Exact) -> bool:
    """Whether the number as it is written reads back as itself."""
    return Fraction(str(_number(value))) == value


EXACT: Final = "slantwise:vertices_exact"
_NEAR = Fraction(1, 1_000_000)


def exact_points(frame: Frame, points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the exact points, which must be those of vertices_coords up to rounding."""
    exact = []
    for index, (row, rounded) in enumerate(
        zip(rows_of(frame, EXACT, MOST_VERTICES, len(points)), points, strict=True)
    ):
        place = f"{EXACT}[{index}]"
        if not isinstance(row, list) or len(row) != 2:
            raise FoldFileError(f"{place} is not a point; give it as two fractions in text.")
        point = Point(*(exact_coordinate(value, place) for value in row))
        if not all(-_NEAR <= one - two <= _NEAR for one, two in zip(point, rounded, strict=True)):
            raise FoldFileError(
                f"{place} is not the point of vertices_coords; correct it or leave {EXACT} out."
            )
        exact.append(point)
    return tuple(exact)
