from __future__ import annotations

from fractions import Fraction

import pytest

from drills.geometry import Exact, Point
from drills.pattern import Line, Paper, across_down, build, mixed, place, place_of, shifted


def test_places_are_counted_from_the_top_left_corner() -> None:
    """On a sheet 4 wide and 3 high the point (3, 2), y up, is 3 across, 1 down."""
    sheet = build([Line(Point(3, 2), Point(4, 2), "other", "U")], Paper(0, 0, 4, 3))
    assert place_of(sheet, sheet.vertices.index(Point(3, 2))) == "(3; 1)"
    assert place_of(sheet, sheet.vertices.index(Point(4, 0))) == "(4; 3)"
    assert place(sheet, Point(0, 3)) == "(0; 0)"
    assert place(sheet, Point(Fraction(1, 2), Fraction(2, 3))) == "(1/2; 2 1/3)"


def test_a_place_does_not_depend_on_where_the_sheet_lies() -> None:
    """Away from the origin the same point has the same place, thirds included."""
    sheet = build([Line(Point(1, Fraction(1, 3)), Point(4, 2), "other", "U")], Paper(0, 0, 4, 3))
    away = shifted(sheet, -7, Fraction(5, 2))
    for one, other in zip(range(len(sheet.vertices)), range(len(away.vertices)), strict=True):
        assert place_of(sheet, one) == place_of(away, other)
    assert across_down(away, Point(-6, Fraction(17, 6))) == (1, Fraction(8, 3))
    assert place(away, Point(-6, Fraction(17, 6))) == "(1; 2 2/3)"


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (0, "0"),
        (7, "7"),
        (Fraction(14, 2), "7"),
        (Fraction(1, 2), "1/2"),
        (Fraction(5, 2), "2 1/2"),
        (Fraction(11, 3), "3 2/3"),
        (Fraction(2, 3), "2/3"),
    ],
)
def test_numbers_are_said_as_folders_say_them(number: Exact, said: str) -> None:
    """Whole, a bare fraction, or whole and fraction."""
    assert mixed(number) == said
