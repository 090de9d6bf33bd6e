"""Stretches whose pleats are wider or narrower than the triangle's own, or differ from each other."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from drills.flatfold import check_angles, failing, folds, solve_layers
from drills.geometry import Point, is_whole
from drills.structures import (
    TRIANGLE_345,
    TRIANGLES,
    Side,
    Stretch,
    Triangle,
    block_of,
    draw,
    faces_inside,
    find_stretches,
    outline,
    parts_that_go_in,
    sheet_of,
    with_pleats_around,
)
from tests.drills.flatfold.assorted import folds_anew
from tests.drills.sheets import HINGES, SIDES, figure
from tests.drills.structures.test_finder import bare, seen, shown
from tests.drills.structures.test_stretch import lines, turning_points

BY_NAME = {triangle.name: triangle for triangle in TRIANGLES}
Widths = tuple[int, int, int]
Case = tuple[str, tuple[int, int], Widths]


def test_one_wide_pleat_round_b() -> None:
    """Two pleats round A, one twice as wide round B, one of three squares around: point by point, by hand."""
    stretch = Stretch((2, 2), widths=(1, 2, 3))
    bare_one = draw(Stretch((2, 2), pleats=0, widths=(1, 2, 3)))
    assert lines(bare_one, "inside") == {((0, 0), (8, 6)), ((3, 1), (7, 4))}
    assert turning_points(bare_one) == {(3, 1), (7, 4)}
    assert (stretch.turned, stretch.inside_lines) == ((2, 1), 2)
    assert (stretch.size, outline(stretch)) == ((14, 12), ((3, 3), (9, 5), (11, 9), (5, 7)))
    assert parts_that_go_in(stretch) == (((9, 5), (3, 3), (11, 9)), ((5, 7), (11, 9), (3, 3)))


UNIFORM: dict[str, list[tuple[tuple[int, int], tuple[int, ...]]]] = {
    "3-4-5": [((6, 6), (1, 2, 3)), ((2, 2), (1, 2)), ((2, 4), (1, 2)), ((6, 3), (1, 3)), ((4, 2), (2,))],
    "5-12-13": [((1, 1), (1, 2)), ((2, 1), (1, 2)), ((2, 2), (1, 4)), ((1, 2), (1,))],
    "8-15-17": [((1, 1), (1, 3)), ((2, 1), (1, 3)), ((1, 2), (1, 3))],
    "7-24-25": [((1, 1), (1, 3)), ((2, 1), (1, 3)), ((1, 2), (3,))],
    "20-21-29": [((1, 1), (1, 2, 3, 6)), ((2, 1), (3, 6)), ((1, 2), (2, 6))],
}
ALL_ALIKE: list[Case] = [
    (name, units, (width, width, width))
    for name, cases in UNIFORM.items()
    for units, widths in cases
    for width in widths
]
FREE: list[Widths] = list(product((1, 2, 3), (1, 2, 3), (1, 2, 3)))


def folds_flat(stretch: Stretch) -> bool:
    """Whether the drawn labels pass at each point and have a layer order."""
    pattern = draw(stretch)
    locally = not check_angles(pattern) and not failing(pattern, pattern.labels(), folds)
    return locally and solve_layers(pattern).folds is True


@pytest.mark.parametrize(("name", "units", "widths"), ALL_ALIKE)
def test_pleats_of_another_width_fold(name: str, units: tuple[int, int], widths: Widths) -> None:
    """Labels by rank have layers, proven by the search, whatever width divides the sides."""
    for hinges in (HINGES[0], HINGES[2]):
        stretch = Stretch(units, hinges, 1, triangle=BY_NAME[name], widths=widths)
        assert folds_flat(stretch)


@pytest.mark.parametrize("widths", FREE)
def test_the_three_widths_of_equal_sides_are_free(widths: Widths) -> None:
    """Six units a side, widths from 1 to 3 round A, round B and outside: 27 cases have layers."""
    hinges = HINGES[sum(widths) % 4]
    assert folds_flat(Stretch((6, 6), hinges, 1, widths=widths))


@pytest.mark.parametrize("hinges", HINGES)
@pytest.mark.parametrize("widths", [(1, 2, 1), (2, 1, 1), (1, 1, 2), (2, 2, 1), (1, 2, 3), (2, 1, 2)])
def test_the_widths_are_free_with_all_hinges(widths: Widths, hinges: tuple[Side, Side]) -> None:
    """Two units a side, no to two pleats around, hinges every way."""
    for pleats in range(3):
        assert folds_flat(Stretch((2, 2), hinges, pleats, widths=widths))


@pytest.mark.parametrize("widths", [(1, 2, 1), (2, 1, 1), (1, 1, 2), (2, 2, 1)])
@pytest.mark.parametrize("name", ["5-12-13", "20-21-29"])
def test_the_widths_of_other_triangles_are_free(name: str, widths: Widths) -> None:
    """One unit a side."""
    assert folds_flat(Stretch((1, 1), HINGES[1], 1, triangle=BY_NAME[name], widths=widths))


@pytest.mark.parametrize(
    ("name", "units", "widths"),
    [("3-4-5", (2, 2), (1, 2, 3)), ("3-4-5", (2, 4), (2, 2, 2)), ("5-12-13", (1, 1), (1, 1, 1))],
)
def test_they_fold_for_another_solver(name: str, units: tuple[int, int], widths: Widths) -> None:
    """The independent clauses and solver find layers for the labels by rank too."""
    assert folds_anew(draw(Stretch(units, HINGES[3], 1, triangle=BY_NAME[name], widths=widths)))


def cases() -> list[Stretch]:
    """Return a stretch for each case above, with no and one pleat around, facings taking turns."""
    free: list[Case] = [("3-4-5", (6, 6), widths) for widths in FREE]
    named = [*ALL_ALIKE, *free]
    return [
        Stretch(units, HINGES[place % 4], pleats, place % 4, triangle=BY_NAME[name], widths=widths)
        for pleats in (0, 1)
        for place, (name, units, widths) in enumerate(named)
    ]


def test_each_is_found_once_and_as_it_was_drawn() -> None:
    """Corners, lines and points; the units found are the pleats turned at A and at B."""
    for stretch in cases():
        (found,) = find_stretches(bare(draw(stretch)))
        assert seen([found]) == [shown(stretch)]
        assert (found.corners, found.facing) == (outline(stretch), stretch.facing)
        assert found.units == stretch.turned


def test_corners_are_whole_and_the_numbers_said_are_drawn() -> None:
    """Size, inside lines, turning points; the faces that go in fill two triangles."""
    for stretch in cases():
        pattern = draw(stretch)
        assert pattern.box == (0, 0, *stretch.size)
        assert len(lines(pattern, "inside")) == stretch.inside_lines == sum(stretch.turned) - 1
        assert all(is_whole(corner) for corner in outline(stretch))
        assert set(outline(stretch)) <= set(pattern.vertices)
        first, second = (faces_inside(pattern, part) for part in parts_that_go_in(stretch))
        assert not set(first) & set(second)
        assert min(len(first), len(second)) > 0


def test_narrow_pleats_turn_on_halves_and_thirds_of_squares() -> None:
    """5-12-13 with pleats one square wide: the steep side (2, 3) turns a pleat at (1, 3/2)."""
    pattern = draw(Stretch((1, 1), pleats=0, triangle=BY_NAME["5-12-13"], widths=(1, 1, 1)))
    off = {point for point in pattern.vertices if not is_whole(point)}
    assert {point.y.denominator for point in off} == {2}
    assert Point(1, Fraction(3, 2)) in off


@pytest.mark.parametrize("triangle", TRIANGLES, ids=lambda triangle: triangle.name)
def test_the_triangles_own_width_changes_nothing(triangle: Triangle) -> None:
    """Said or not said: the same pattern."""
    for units in ((1, 1), (2, 1)):
        own = (triangle.width,) * 3
        assert draw(Stretch(units, triangle=triangle, widths=(own[0], own[1], own[2]))) == draw(
            Stretch(units, triangle=triangle)
        )


@pytest.mark.parametrize("widths", [(1, 1, 1), (1, 2, 1), (2, 1, 3), (2, 2, 2)])
@pytest.mark.parametrize("side", SIDES)
def test_the_block_of_such_a_stretch(widths: Widths, side: Side) -> None:
    """Pleats around the block, each as wide as the outer ones, give what the stretch is with them."""
    for pleats in range(3):
        stretch = Stretch((2, 2), (side, "steep"), pleats, widths=widths)
        block = block_of(stretch)
        assert block.pleat == widths[2]
        around = with_pleats_around(block, pleats)
        drawn = figure(draw(stretch))
        made = figure(sheet_of(around))
        assert {(ends, role) for ends, role, _ in made} == {(ends, role) for ends, role, _ in drawn}
        assert made == drawn


@pytest.mark.parametrize(
    ("units", "triangle", "widths", "reason"),
    [
        ((1, 1), TRIANGLE_345, (2, 1, 1), "must fill the 1 and 1"),
        ((3, 3), TRIANGLE_345, (3, 2, 1), "must fill the 3 and 3"),
        ((2, 4), TRIANGLE_345, (2, 2, 1), "one width"),
        ((2, 4), TRIANGLE_345, (1, 2, 1), "one width"),
        ((3, 4), TRIANGLE_345, (2, 2, 2), "must fill the 3 and 4"),
        ((1, 1), TRIANGLES[4], (4, 4, 4), "must fill the 6 and 6"),
        ((1, 1), TRIANGLE_345, (0, 1, 1), "must fill"),
        ((1, 1), TRIANGLE_345, (1, 1, -1), "must fill"),
    ],
)
def test_widths_that_do_not_go_are_refused(
    units: tuple[int, int], triangle: Triangle, widths: Widths, reason: str
) -> None:
    """They must divide the sides, and be one width where the sides are unequal."""
    with pytest.raises(ValueError, match=reason):
        Stretch(units, triangle=triangle, widths=widths)
