"""Reading a crease pattern from FOLD 1.2 (github.com/edemaine/fold, doc/spec.md).

What is written exactly is read exactly; nothing is rounded, and creases that cross are not split.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Final, cast, get_args

from drills.fold_file.numbers import coordinate, decimal_of, whole_of
from drills.fold_file.read import json_of, pair_of, rows_of
from drills.fold_file.refusals import FoldFileError
from drills.fold_file.write import EXACT, exact_points
from drills.geometry import Point
from drills.pattern import CreasePattern, Edge, Label, Role

LARGEST_MIB: Final = 4
MOST_VERTICES: Final = 20_000
MOST_EDGES: Final = 60_000

_ROLE = "slantwise:edges_role"
_LABELS, _ROLES = frozenset(get_args(Label)), frozenset(get_args(Role))


def read_fold(text: str | bytes) -> CreasePattern:
    """Return the crease pattern of a FOLD file's text; FoldError says in one sentence what is wrong."""
    return from_fold(json_of(text, LARGEST_MIB, whole_of, decimal_of))


def from_fold(data: object) -> CreasePattern:
    """Return the crease pattern of a FOLD object, points and edges in its order.

    Numbers may be int, float (read as the decimal it is written with) or Fraction. Edges without a
    role are "other", or "border" where they are labelled B. FoldError says what is wrong.
    """
    if not isinstance(data, dict):
        raise FoldFileError("The file does not hold a JSON object; save the crease pattern as FOLD 1.2.")
    _check_frame(data)
    vertices = _vertices(data)
    ends = _ends(data, len(vertices))
    labels = _labels(data, len(ends))
    roles = _roles(data, labels)
    edges = (Edge.joining(*pair, role, label) for pair, role, label in zip(ends, roles, labels, strict=True))
    return CreasePattern(vertices, tuple(edges))


def _check_frame(data: Mapping[str, object]) -> None:
    spec = data.get("file_spec", 1)
    if isinstance(spec, bool) or not isinstance(spec, (int, float, Fraction)) or not 1 <= spec < 2:
        raise FoldFileError("file_spec is not a version from 1 up to 2; save the file as FOLD 1.2.")
    if data.get("file_frames"):
        raise FoldFileError("The file has several frames; save the crease pattern alone.")
    classes = data.get("frame_classes")
    if isinstance(classes, list) and "foldedForm" in classes:
        raise FoldFileError("The file holds the folded model; save the crease pattern instead.")


def _vertices(data: Mapping[str, object]) -> tuple[Point, ...]:
    rows = rows_of(data, "vertices_coords", MOST_VERTICES)
    points = tuple(_point(row, f"vertices_coords[{index}]") for index, row in enumerate(rows))
    if EXACT in data:
        points = exact_points(data, points)
    first: dict[Point, int] = {}
    for index, point in enumerate(points):
        if first.setdefault(point, index) != index:
            raise FoldFileError(
                f"Vertices {first[point]} and {index} are the same point; join them into one."
            )
    return points


def _point(row: object, place: str) -> Point:
    if not isinstance(row, list) or len(row) not in (2, 3):
        raise FoldFileError(f"{place} is not a point; give it as two numbers.")
    x, y, *rest = (coordinate(value, place) for value in row)
    if any(rest):
        raise FoldFileError(f"{place} lies off the flat sheet; give every point of the pattern z = 0.")
    return Point(x, y)


def _ends(data: Mapping[str, object], vertices: int) -> list[tuple[int, int]]:
    ends: dict[tuple[int, int], int] = {}
    for index, row in enumerate(rows_of(data, "edges_vertices", MOST_EDGES)):
        one, two = pair_of(row, vertices, "edges_vertices", index)
        pair = min(one, two), max(one, two)
        if ends.setdefault(pair, index) != index:
            raise FoldFileError(f"Edges {ends[pair]} and {index} join the same two vertices; leave one out.")
    return list(ends)


def _labels(data: Mapping[str, object], edges: int) -> list[Label]:
    rows = rows_of(data, "edges_assignment", MOST_EDGES, edges)
    for index, label in enumerate(rows):
        if label == "C" or label == "J":
            raise FoldFileError(f"edges_assignment[{index}] is a cut or a join; use B, M, V, F or U.")
        if not isinstance(label, str) or label not in _LABELS:
            raise FoldFileError(f"edges_assignment[{index}] is not a label; use B, M, V, F or U.")
    return cast("list[Label]", rows)


def _roles(data: Mapping[str, object], labels: list[Label]) -> list[Role]:
    if _ROLE not in data:
        return ["border" if label == "B" else "other" for label in labels]
    rows = rows_of(data, _ROLE, MOST_EDGES, len(labels))
    for index, role in enumerate(rows):
        if not isinstance(role, str) or role not in _ROLES:
            raise FoldFileError(f"{_ROLE}[{index}] is not a role; correct it or leave {_ROLE} out.")
    return cast("list[Role]", rows)
