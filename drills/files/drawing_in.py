"""The lists of a FOLD crease pattern as they are drawn: nothing fitted, split or left out yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final, NamedTuple

from drills.exact.plane import Point
from drills.files.exact_points import EXACT, exact_points
from drills.files.frames import Frame, pattern_frame
from drills.files.labels_in import labels_of
from drills.files.lists_in import MOST_EDGES, MOST_VERTICES, pair_of, rows_of
from drills.files.numbers_in import whole_of
from drills.files.refusals import FoldError
from drills.files.spots import Ends
from drills.files.text_in import json_of
from drills.files.written import Number, Scaled, Written, scaled
from drills.pattern.crease_pattern import Label

MOST_MIB: Final = 16

_NOT_FLAT = "The points do not lie in one flat sheet; save the crease pattern with every z = 0."


class Drawing(NamedTuple):
    """Coordinates as whole numbers of 10 ** -places, edges by their ends, joins (J) labelled F.

    ``exact`` are the points where the file gives them as fractions, in grid squares.
    """

    xs: tuple[int, ...]
    ys: tuple[int, ...]
    places: int
    exact: tuple[Point, ...] | None
    ends: tuple[Ends, ...]
    labels: tuple[Label, ...]
    notices: tuple[str, ...]


def read_drawing(text: bytes) -> Drawing:
    """Return what a FOLD file draws; FoldError says in one sentence what is wrong."""
    frame, about_frames = pattern_frame(json_of(text, MOST_MIB, whole_of, Written))
    xs, ys, places = _coordinates(rows_of(frame, "vertices_coords", MOST_VERTICES))
    ends = _ends(frame, len(xs))
    labels, about_labels = labels_of(frame, len(ends))
    said = tuple(words for words in (about_frames, about_labels) if words)
    exact = _exact(frame, xs, ys, 10**places) if EXACT in frame else None
    return Drawing(xs, ys, places, exact, ends, labels, said)


def _coordinates(rows: Sequence[object]) -> tuple[tuple[int, ...], tuple[int, ...], int]:
    points = [_point(row, index) for index, row in enumerate(rows)]
    numbers = scaled(number for point in points for number in point)
    xs = tuple(numbers.values[point[0]] for point in points)
    ys = tuple(numbers.values[point[1]] for point in points)
    _check_heights(points, numbers, max(max(xs) - min(xs), max(ys) - min(ys)))
    return xs, ys, numbers.places


def _point(row: object, index: int) -> list[Number]:
    if type(row) is not list or len(row) not in (2, 3):
        raise FoldError(f"vertices_coords[{index}] is not a point; give it as two numbers.")
    for value in row:
        if type(value) is not int and type(value) is not Written:
            raise FoldError(f"vertices_coords[{index}] is not a number; write it as a plain number.")
    return row


def _check_heights(points: Sequence[Sequence[Number]], numbers: Scaled, size: int) -> None:
    """Refuse a third coordinate that is not the same everywhere, up to a millionth of the sheet."""
    heights = {numbers.values[point[2]] if len(point) == 3 else 0 for point in points}
    if (max(heights) - min(heights)) * 1_000_000 > size:
        raise FoldError(_NOT_FLAT)


def _exact(frame: Frame, xs: Sequence[int], ys: Sequence[int], one: int) -> tuple[Point, ...]:
    return exact_points(
        frame, [Point(Fraction(x, one), Fraction(y, one)) for x, y in zip(xs, ys, strict=True)]
    )


def _ends(frame: Frame, vertices: int) -> tuple[Ends, ...]:
    if "edges_vertices" in frame or "faces_vertices" not in frame:
        rows = rows_of(frame, "edges_vertices", MOST_EDGES)
        return tuple(pair_of(row, vertices, "edges_vertices", index) for index, row in enumerate(rows))
    if "edges_assignment" in frame or "edges_foldAngle" in frame:
        raise FoldError("The file has labels but no list edges_vertices; save it with this list.")
    sides = list(dict.fromkeys(_sides_of_faces(rows_of(frame, "faces_vertices", MOST_EDGES), vertices)))
    if len(sides) > MOST_EDGES:
        raise FoldError(f"The faces have more than {MOST_EDGES} edges; save a smaller part of the pattern.")
    return tuple(sides)


def _sides_of_faces(rows: Sequence[object], vertices: int) -> Iterator[Ends]:
    for index, row in enumerate(rows):
        if not isinstance(row, list) or len(row) < 3:
            raise FoldError(f"faces_vertices[{index}] is not a face; give three vertices or more in order.")
        for pair in zip(row, row[1:] + row[:1], strict=True):
            one, two = pair_of(list(pair), vertices, "faces_vertices", index)
            yield min(one, two), max(one, two)
