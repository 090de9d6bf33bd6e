"""Exact points beside the rounded ones: fractions in text, in grid squares, under a key of our own."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from drills.exact.plane import Point
from drills.files.frames import Frame
from drills.files.lists_in import MOST_VERTICES, rows_of
from drills.files.numbers_in import exact_coordinate
from drills.files.refusals import FoldError

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
            raise FoldError(f"{place} is not a point; give it as two fractions in text.")
        point = Point(*(exact_coordinate(value, place) for value in row))
        if not all(-_NEAR <= one - two <= _NEAR for one, two in zip(point, rounded, strict=True)):
            raise FoldError(f"{place} is not the point of vertices_coords; correct it or leave {EXACT} out.")
        exact.append(point)
    return tuple(exact)
