from __future__ import annotations

import json
from fractions import Fraction

from hypothesis import given

from drills.fold_file import to_fold
from drills.geometry import Point
from drills.pattern import Line, Paper, build
from drills.structures import Stretch, draw
from tests.drills.sheets import small_stretches


def test_a_small_sheet_as_fold() -> None:
    """One crease across a sheet of 2 x 1, with the keys and letters of FOLD 1.2 (edemaine/fold, spec.md)."""
    crease = Line(Point(0, Fraction(1, 2)), Point(2, Fraction(1, 2)), "pleat", "V")
    assert to_fold(build([crease], Paper(0, 0, 2, 1))) == {
        "file_spec": 1.2,
        "file_creator": "Slantwise",
        "file_classes": ["singleModel"],
        "frame_classes": ["creasePattern"],
        "frame_attributes": ["2D"],
        "vertices_coords": [[0, 0], [0, 0.5], [0, 1], [2, 0], [2, 0.5], [2, 1]],
        "edges_vertices": [[0, 1], [0, 3], [1, 2], [1, 4], [2, 5], [3, 4], [4, 5]],
        "edges_assignment": ["B", "B", "B", "V", "B", "B", "B"],
        "slantwise:edges_role": ["border", "border", "border", "pleat", "border", "border", "border"],
    }


@given(small_stretches())
def test_lists_of_one_kind_are_of_one_length_and_indices_are_in_range(stretch: Stretch) -> None:
    """Each edge has its two vertices, a letter and a role; each vertex its whole coordinates."""
    pattern = draw(stretch)
    fold = json.loads(json.dumps(to_fold(pattern)))
    assert [tuple(point) for point in fold["vertices_coords"]] == list(pattern.vertices)
    assert all(isinstance(value, int) for point in fold["vertices_coords"] for value in point)
    edges = len(pattern.edges)
    assert len(fold["edges_assignment"]) == len(fold["slantwise:edges_role"]) == edges
    assert {tuple(pair) for pair in fold["edges_vertices"]} == {edge[:2] for edge in pattern.edges}
    assert set(fold["edges_assignment"]) == {"B", "M", "V"}


def exact_of(x: Fraction) -> object:
    """Return the exact coordinates written for a sheet with a crease that ends at (x, 1)."""
    crease = Line(Point(0, 0), Point(x, 1), "other", "M")
    return to_fold(build([crease], Paper(0, 0, 2, 1))).get("slantwise:vertices_exact")


def test_exact_coordinates_are_added_only_where_decimals_cannot_hold_one() -> None:
    """1/3 and 2/7 do not survive as decimals, and neither does 1 + 10^-20; 1/8 and 1/10 do."""
    assert exact_of(Fraction(1, 8)) is None
    assert exact_of(Fraction(1, 10)) is None
    assert exact_of(Fraction(1, 3)) == [["0", "0"], ["0", "1"], ["1/3", "1"], ["2", "0"], ["2", "1"]]
    assert exact_of(Fraction(2, 7)) is not None
    assert exact_of(1 + Fraction(1, 10**20)) is not None
