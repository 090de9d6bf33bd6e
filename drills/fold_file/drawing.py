"""A pattern as a FOLD frame draws it: any frame read exactly as it is written, our own patterns written.

Written is FOLD 1.2 (github.com/edemaine/fold, doc/spec.md).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final, NamedTuple

from drills.fold_file.read import (
    MOST_EDGES,
    MOST_VERTICES,
    DecimalText,
    Ends,
    FoldFileError,
    Frame,
    Number,
    ScaledNumbers,
    counted,
    fraction_of,
    json_of,
    pair_of,
    pattern_frame,
    rows_of,
    scaled_numbers,
    sign_of,
)
from drills.geometry import Exact, Point
from drills.pattern import CreasePattern, Label

EXACT_POINTS: Final = "slantwise:vertices_exact"
"""The key of our own under which points stand as fractions in text, beside their decimals."""
_NEAR: Final = Fraction(1, 1_000_000)
"""How far exact points may be from the decimals beside them."""

_LABEL_OF: Final[dict[object, Label]] = {"B": "B", "M": "M", "V": "V", "F": "F", "U": "U", "J": "F"}
_UNLABELLED: Final = "No labels are given, so every crease may fold either way."
_NOT_FLAT: Final = "The points do not lie in one flat sheet; save the crease pattern with every z = 0."


class Drawing(NamedTuple):
    """Coordinates as whole numbers of 10 ** -places, edges by their ends, joins (J) labelled F.

    ``exact`` are the points where the file gives them as fractions, in grid squares. ``rounding`` is
    how far apart the numbers are that the file can hold, in units of the last place.
    """

    xs: tuple[int, ...]
    ys: tuple[int, ...]
    places: int
    exact: tuple[Point, ...] | None
    ends: tuple[Ends, ...]
    labels: tuple[Label, ...]
    notices: tuple[str, ...]
    rounding: int = 1


def read_drawing(text: bytes) -> Drawing:
    """Return what a FOLD file draws; FoldFileError says in one sentence what is wrong."""
    frame, about_frames = pattern_frame(json_of(text))
    xs, ys, places = _coordinates(rows_of(frame, "vertices_coords", MOST_VERTICES))
    ends = _ends(frame, len(xs))
    labels, about_labels = _labels(frame, len(ends))
    said = tuple(words for words in (about_frames, about_labels) if words)
    exact = _exact_points(frame, xs, ys, 10**places) if EXACT_POINTS in frame else None
    return Drawing(xs, ys, places, exact, ends, labels, said)


def _coordinates(rows: Sequence[object]) -> tuple[tuple[int, ...], tuple[int, ...], int]:
    points = [_point(row, index) for index, row in enumerate(rows)]
    numbers = scaled_numbers(number for point in points for number in point)
    xs = tuple(numbers.values[point[0]] for point in points)
    ys = tuple(numbers.values[point[1]] for point in points)
    _check_heights(points, numbers, max(max(xs) - min(xs), max(ys) - min(ys)))
    return xs, ys, numbers.places


def _point(row: object, index: int) -> list[Number]:
    if type(row) is not list or len(row) not in (2, 3):
        raise FoldFileError(f"vertices_coords[{index}] is not a point; give it as two numbers.")
    for value in row:
        if type(value) is not int and type(value) is not DecimalText:
            raise FoldFileError(f"vertices_coords[{index}] is not a number; write it as a plain number.")
    return row


def _check_heights(points: Sequence[Sequence[Number]], numbers: ScaledNumbers, size: int) -> None:
    """Refuse a third coordinate that is not the same everywhere, up to a millionth of the sheet."""
    heights = {numbers.values[point[2]] if len(point) == 3 else 0 for point in points}
    if (max(heights) - min(heights)) * 1_000_000 > size:
        raise FoldFileError(_NOT_FLAT)


def _exact_points(frame: Frame, xs: Sequence[int], ys: Sequence[int], one: int) -> tuple[Point, ...]:
    """Return the exact points, which must be those of vertices_coords up to rounding."""
    rows = rows_of(frame, EXACT_POINTS, MOST_VERTICES, len(xs))
    exact, near = [], _NEAR * one
    for index, (row, x, y) in enumerate(zip(rows, xs, ys, strict=True)):
        place = f"{EXACT_POINTS}[{index}]"
        if not isinstance(row, list) or len(row) != 2:
            raise FoldFileError(f"{place} is not a point; give it as two fractions in text.")
        point = Point(*(fraction_of(value, place) for value in row))
        if not all(
            -near <= number * one - written <= near for number, written in ((point.x, x), (point.y, y))
        ):
            raise FoldFileError(
                f"{place} is not the point of vertices_coords; correct it or leave {EXACT_POINTS} out."
            )
        exact.append(point)
    return tuple(exact)


def _ends(frame: Frame, vertices: int) -> tuple[Ends, ...]:
    if "edges_vertices" in frame or "faces_vertices" not in frame:
        rows = rows_of(frame, "edges_vertices", MOST_EDGES)
        return tuple(pair_of(row, vertices, "edges_vertices", index) for index, row in enumerate(rows))
    if "edges_assignment" in frame or "edges_foldAngle" in frame:
        raise FoldFileError("The file has labels but no list edges_vertices; save it with this list.")
    sides = list(dict.fromkeys(_sides_of_faces(rows_of(frame, "faces_vertices", MOST_EDGES), vertices)))
    if len(sides) > MOST_EDGES:
        raise FoldFileError(
            f"The faces have more than {MOST_EDGES} edges; save a smaller part of the pattern."
        )
    return tuple(sides)


def _sides_of_faces(rows: Sequence[object], vertices: int) -> Iterator[Ends]:
    for index, row in enumerate(rows):
        if not isinstance(row, list) or len(row) < 3:
            raise FoldFileError(
                f"faces_vertices[{index}] is not a face; give three vertices or more in order."
            )
        for pair in zip(row, row[1:] + row[:1], strict=True):
            one, two = pair_of(list(pair), vertices, "faces_vertices", index)
            yield min(one, two), max(one, two)


def _labels(frame: Frame, edges: int) -> tuple[tuple[Label, ...], str]:
    """Return a label per edge, joins as F, and what to tell the person about them, if anything."""
    angles = _by_angle(frame, edges) if "edges_foldAngle" in frame else None
    if "edges_assignment" not in frame:
        return (angles, "") if angles else (tuple(_LABEL_OF["U"] for _ in range(edges)), _UNLABELLED)
    labels = _assigned(rows_of(frame, "edges_assignment", MOST_EDGES, edges))
    against = sum({one, two} == {"M", "V"} for one, two in zip(labels, angles or labels, strict=True))
    if against:
        return labels, f"The fold angles contradict {counted(against, 'label')}, and the labels were taken."
    return labels, ""


def _assigned(letters: Sequence[object]) -> tuple[Label, ...]:
    for index, letter in enumerate(letters):
        if letter == "C":
            raise FoldFileError(
                f"Edge {index} is a cut (C); take it out, as only paper without cuts can be read."
            )
        if not isinstance(letter, str) or letter not in _LABEL_OF:
            raise FoldFileError(f"edges_assignment[{index}] is not a label; use B, M, V, F or U.")
    return tuple(_LABEL_OF[letter] for letter in letters)


def _by_angle(frame: Frame, edges: int) -> tuple[Label, ...]:
    """Return V for an angle above zero, M below, F at zero, U where none is given."""
    by_sign: tuple[Label, Label, Label] = ("F", "V", "M")
    labels: list[Label] = []
    for index, angle in enumerate(rows_of(frame, "edges_foldAngle", MOST_EDGES, edges)):
        if isinstance(angle, bool) or not (angle is None or isinstance(angle, (int, DecimalText))):
            raise FoldFileError(f"edges_foldAngle[{index}] is not a number; give it in degrees, or null.")
        labels.append("U" if angle is None else by_sign[sign_of(angle)])
    return tuple(labels)


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
