"""Reading a crease pattern from FOLD 1.2 (github.com/edemaine/fold, doc/spec.md).

What is written exactly is read exactly; nothing is rounded, and creases that cross are not split.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import Final, cast, get_args

from drills.exact.plane import Point
from drills.files.numbers_in import coordinate, decimal_of, exact_coordinate, no_constant, whole_of
from drills.files.refusals import FoldError
from drills.pattern.crease_pattern import CreasePattern, Edge, Label, Role

MOST_BYTES: Final = 4 * 1024 * 1024
MOST_VERTICES: Final = 20_000
MOST_EDGES: Final = 60_000

_EXACT, _ROLE = "slantwise:vertices_exact", "slantwise:edges_role"
_LABELS, _ROLES = frozenset(get_args(Label)), frozenset(get_args(Role))
_NEAR = Fraction(1, 1_000_000)


def read_fold(text: str | bytes) -> CreasePattern:
    """Return the crease pattern of a FOLD file's text; FoldError says in one sentence what is wrong."""
    if len(text) > MOST_BYTES:
        raise FoldError("The file is larger than 4 MiB; save the crease pattern alone, without other frames.")
    try:
        plain_text = text.decode("utf-8-sig") if isinstance(text, bytes) else text
        data = json.loads(plain_text, parse_int=whole_of, parse_float=decimal_of, parse_constant=no_constant)
    except RecursionError:
        raise FoldError("The file nests its lists too deeply; save the crease pattern as FOLD 1.2.") from None
    except UnicodeDecodeError:
        raise FoldError("The file is not UTF-8 text; save it as FOLD 1.2, which is JSON in UTF-8.") from None
    except json.JSONDecodeError as fault:
        raise FoldError(f"The file is not JSON from line {fault.lineno} on; save it as FOLD 1.2.") from None
    return from_fold(data)


def from_fold(data: object) -> CreasePattern:
    """Return the crease pattern of a FOLD object, points and edges in its order.

    Numbers may be int, float (read as the decimal it is written with) or Fraction. Edges without a
    role are "other", or "border" where they are labelled B. FoldError says what is wrong.
    """
    if not isinstance(data, dict):
        raise FoldError("The file does not hold a JSON object; save the crease pattern as FOLD 1.2.")
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
        raise FoldError("file_spec is not a version from 1 up to 2; save the file as FOLD 1.2.")
    if data.get("file_frames"):
        raise FoldError("The file has several frames; save the crease pattern alone.")
    classes = data.get("frame_classes")
    if isinstance(classes, list) and "foldedForm" in classes:
        raise FoldError("The file holds the folded model; save the crease pattern instead.")


def _vertices(data: Mapping[str, object]) -> tuple[Point, ...]:
    rows = _rows(data, "vertices_coords", MOST_VERTICES)
    points = tuple(_point(row, f"vertices_coords[{index}]") for index, row in enumerate(rows))
    if _EXACT in data:
        points = _exact(data, points)
    first: dict[Point, int] = {}
    for index, point in enumerate(points):
        if first.setdefault(point, index) != index:
            raise FoldError(f"Vertices {first[point]} and {index} are the same point; join them into one.")
    return points


def _point(row: object, place: str) -> Point:
    if not isinstance(row, list) or len(row) not in (2, 3):
        raise FoldError(f"{place} is not a point; give it as two numbers.")
    x, y, *rest = (coordinate(value, place) for value in row)
    if any(rest):
        raise FoldError(f"{place} lies off the flat sheet; give every point of the pattern z = 0.")
    return Point(x, y)


def _exact(data: Mapping[str, object], points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return the exact points, which must be those of vertices_coords up to rounding."""
    rows = _rows(data, _EXACT, MOST_VERTICES, len(points))
    exact = []
    for index, (row, rounded) in enumerate(zip(rows, points, strict=True)):
        place = f"{_EXACT}[{index}]"
        if not isinstance(row, list) or len(row) != 2:
            raise FoldError(f"{place} is not a point; give it as two fractions in text.")
        point = Point(*(exact_coordinate(value, place) for value in row))
        if not all(-_NEAR <= one - two <= _NEAR for one, two in zip(point, rounded, strict=True)):
            raise FoldError(f"{place} is not the point of vertices_coords; correct it or leave {_EXACT} out.")
        exact.append(point)
    return tuple(exact)


def _ends(data: Mapping[str, object], vertices: int) -> list[tuple[int, int]]:
    ends: dict[tuple[int, int], int] = {}
    for index, row in enumerate(_rows(data, "edges_vertices", MOST_EDGES)):
        pair = _pair(row, vertices, f"edges_vertices[{index}]")
        if ends.setdefault(pair, index) != index:
            raise FoldError(f"Edges {ends[pair]} and {index} join the same two vertices; leave one out.")
    return list(ends)


def _pair(row: object, vertices: int, place: str) -> tuple[int, int]:
    if not isinstance(row, list) or len(row) != 2:
        raise FoldError(f"{place} is not a pair; give the two vertices that the edge joins.")
    for vertex in row:
        if isinstance(vertex, bool) or not isinstance(vertex, int):
            raise FoldError(f"{place} holds something that is no whole number; give vertices by their index.")
        if not 0 <= vertex < vertices:
            raise FoldError(f"{place} names a vertex that is not there; use 0 to {vertices - 1}.")
    if row[0] == row[1]:
        raise FoldError(f"{place} joins a vertex to itself; give it two different ends.")
    return min(row), max(row)


def _labels(data: Mapping[str, object], edges: int) -> list[Label]:
    rows = _rows(data, "edges_assignment", MOST_EDGES, edges)
    for index, label in enumerate(rows):
        if label == "C" or label == "J":
            raise FoldError(f"edges_assignment[{index}] is a cut or a join; use B, M, V, F or U.")
        if not isinstance(label, str) or label not in _LABELS:
            raise FoldError(f"edges_assignment[{index}] is not a label; use B, M, V, F or U.")
    return cast("list[Label]", rows)


def _roles(data: Mapping[str, object], labels: list[Label]) -> list[Role]:
    if _ROLE not in data:
        return ["border" if label == "B" else "other" for label in labels]
    rows = _rows(data, _ROLE, MOST_EDGES, len(labels))
    for index, role in enumerate(rows):
        if not isinstance(role, str) or role not in _ROLES:
            raise FoldError(f"{_ROLE}[{index}] is not a role; correct it or leave {_ROLE} out.")
    return cast("list[Role]", rows)


def _rows(data: Mapping[str, object], key: str, most: int, length: int | None = None) -> list[object]:
    """Return a list of the file, of the given length if one is given, not empty and not too long."""
    rows = data.get(key)
    if not isinstance(rows, list) or not rows:
        raise FoldError(f"The file has no list {key}; save it as FOLD 1.2 with this list.")
    if len(rows) > most:
        raise FoldError(f"{key} has more than {most} entries; save a smaller part of the pattern.")
    if length is not None and len(rows) != length:
        raise FoldError(f"{key} has {len(rows)} entries and should have {length}; give one for each.")
    return rows
