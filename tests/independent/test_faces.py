"""Patterns against networkx: their graphs are planar, and the faces are those of the planar embedding."""

from __future__ import annotations

import pytest

from drills.geometry import Direction
from drills.pattern import CreasePattern, faces
from drills.structures import Stretch, Triangle, draw
from tests.drills.flatfold.assorted import assorted, plain
from tests.drills.sheets import map_sheet, miura, square_twist
from tests.independent.faces import faces_of, is_planar, turned

SHEETS = [square_twist(), map_sheet(3, 4), miura(3, 3), draw(Stretch((3, 3), pleats=8))]


def test_a_map_of_twelve_has_twelve_faces() -> None:
    """Four columns of three squares."""
    assert same_faces(map_sheet(3, 4)) == 12


def same_faces(pattern: CreasePattern) -> int:
    """Return the number of faces, which must be those that networkx walks round."""
    sheet = plain(pattern)
    assert is_planar(sheet)
    found = {turned(cycle) for cycle in faces(pattern)}
    assert found == set(faces_of(sheet))
    assert len(found) == len(pattern.edges) - len(pattern.vertices) + 1
    return len(found)


@pytest.mark.parametrize("pattern", SHEETS)
def test_known_sheets_are_planar_with_the_same_faces(pattern: CreasePattern) -> None:
    """Every edge meets others at its ends only; faces number edges - points + 1 (Euler)."""
    assert same_faces(pattern) > 8


def test_sheets_of_all_sorts_are_planar_with_the_same_faces() -> None:
    """The same for sheets of all sorts, crops among them."""
    assert sum(map(same_faces, assorted(32, "faces"))) > 200


OTHERS = [
    Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 2),
    Triangle("7-24-25", Direction(7, 1), Direction(3, 4), 1),
]


@pytest.mark.parametrize("triangle", OTHERS)
def test_stretches_of_other_triangles(triangle: Triangle) -> None:
    """Those whose points do not all lie on the grid are planar too."""
    assert same_faces(draw(Stretch((2, 3), triangle=triangle))) > 8
