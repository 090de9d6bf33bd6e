from __future__ import annotations

import pytest
from hypothesis import given

from drills.geometry import Exact, Point, double_area
from drills.pattern import CreasePattern, faces
from drills.structures import Stretch, draw, faces_inside, on_sheet, outline, parts_that_go_in
from tests.drills.sheets import small_stretches


def test_the_corners_of_a_known_sheet() -> None:
    """Two pleats a side, one around: S (1, 1), A (7, 3), T (9, 7), B (3, 5), by hand."""
    assert outline(Stretch((2, 2))) == ((1, 1), (7, 3), (9, 7), (3, 5))
    assert outline(Stretch((2, 2), pleats=0)) == ((0, 0), (6, 2), (8, 6), (2, 4))


@pytest.mark.parametrize(
    ("facing", "corners"),
    [
        (0, ((1, 1), (4, 2), (5, 4), (2, 3))),
        (1, ((4, 1), (3, 4), (1, 5), (2, 2))),
        (2, ((5, 1), (2, 2), (1, 4), (4, 3))),
        (3, ((4, 5), (3, 2), (1, 1), (2, 4))),
    ],
)
def test_the_corners_in_each_facing(facing: int, corners: tuple[tuple[int, int], ...]) -> None:
    """By hand: as it is, a quarter turn on, in the mirror, and the mirror image turned."""
    assert outline(Stretch((1, 1), facing=facing)) == corners


@given(small_stretches())
def test_the_outline_is_where_the_sheet_has_it(stretch: Stretch) -> None:
    """Each side of the drawn outline joins two corners, and each corner is a point of the sheet."""
    pattern = draw(stretch)
    corners = outline(stretch)
    assert set(corners) <= set(pattern.vertices)
    ends = [
        end for edge in pattern.creases if pattern.edges[edge].role == "outline" for end in pattern.ends(edge)
    ]
    odd = {end for end in ends if ends.count(end) == 2 and not straight_at(pattern, end)}
    assert odd == set(corners)


def straight_at(pattern: CreasePattern, point: Point) -> bool:
    """Whether the outline runs straight through a point."""
    at = pattern.vertices.index(point)
    edges = [edge for edge in pattern.around[at] if pattern.edges[edge].role == "outline"]
    (x, y), (u, v) = (pattern.direction(edge, at) for edge in edges)
    return (x, y) == (-u, -v)


def test_a_crop_does_not_move_the_corners_on_the_paper_that_is_left() -> None:
    """Two squares cut off at the left and one at the bottom: all lies so much further left and down."""
    stretch = Stretch((2, 2), pleats=1, crop=(2, 1, 0, 0))
    assert outline(stretch) == ((-1, 0), (5, 2), (7, 6), (1, 4))
    assert on_sheet(stretch, Point(0, 0)) == (-1, 0)
    assert {(5, 2), (7, 6), (1, 4)} <= set(draw(stretch).vertices)


def test_the_two_triangles_of_equal_sides_meet_in_the_middle_line() -> None:
    """S-T-A and S-T-B go in on either side of S-T."""
    first, second = parts_that_go_in(Stretch((2, 2)))
    assert set(first) == {(7, 3), (1, 1), (9, 7)}
    assert set(second) == {(3, 5), (1, 1), (9, 7)}
    assert (first[0], second[0]) == ((7, 3), (3, 5))


def test_the_two_triangles_of_unequal_sides_leave_a_strip() -> None:
    """Sides of three pleats and one: from A one unit back along either side, and the same from B."""
    first, second = parts_that_go_in(Stretch((3, 1)))
    assert set(first) == {(10, 4), (7, 3), (11, 6)}
    assert set(second) == {(2, 3), (5, 4), (1, 1)}


@given(small_stretches())
def test_the_faces_that_go_in_fill_their_triangles(stretch: Stretch) -> None:
    """Their areas add up to the triangle's, none lies in both, and together they never leave the outline."""
    pattern = draw(stretch)
    inside = [faces_inside(pattern, triangle) for triangle in parts_that_go_in(stretch)]
    for found, triangle in zip(inside, parts_that_go_in(stretch), strict=True):
        assert sum(double_area([pattern.vertices[v] for v in face]) for face in found) == abs(area(triangle))
    assert not set(inside[0]) & set(inside[1])
    assert set(inside[0]) | set(inside[1]) <= set(faces(pattern))


def area(corners: tuple[Point, Point, Point]) -> Exact:
    """Return twice the area of a triangle."""
    (x0, y0), (x1, y1), (x2, y2) = corners
    return (x1 - x0) * (y2 - y0) - (y1 - y0) * (x2 - x0)


def test_a_triangle_may_be_given_either_way_round() -> None:
    """Clockwise or counterclockwise, the same faces lie within."""
    pattern = draw(Stretch((2, 2)))
    triangle = parts_that_go_in(Stretch((2, 2)))[0]
    assert faces_inside(pattern, triangle) == faces_inside(pattern, triangle[::-1])
    assert len(faces_inside(pattern, triangle)) == 2
