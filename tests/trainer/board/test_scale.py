from __future__ import annotations

from fractions import Fraction

import pytest

from drills.geometry import Point
from drills.pattern import CreasePattern, Paper, build
from tests.trainer.board.sheets import fitted, stretch
from trainer.board import Cell, Dot, Scale, TooSmall, scale_for
from trainer.board.scale import scale_around


def blank(width: int, height: int) -> CreasePattern:
    """Return a sheet without creases."""
    return build([], Paper(0, 0, width, height))


@pytest.mark.parametrize(
    ("squares", "room", "dots", "cells"),
    [
        ((8, 8), (44, 21), 10, (41, 21)),
        ((16, 16), (44, 21), 5, (41, 21)),
        ((16, 16), (80, 37), 9, (73, 37)),
        ((24, 24), (80, 37), 6, (73, 37)),
        ((14, 12), (44, 19), 6, (43, 19)),
    ],
)
def test_the_largest_scale_that_fits_is_taken(
    squares: tuple[int, int], room: tuple[int, int], dots: int, cells: tuple[int, int]
) -> None:
    """So many squares take squares * dots + 1 dots, two to a column and four to a row (counted by hand)."""
    scale = fitted(blank(*squares), *room)
    assert (scale.dots, (scale.columns, scale.rows)) == (dots, cells)


def test_below_five_dots_a_square_the_size_needed_is_said() -> None:
    """24 squares at 5 dots are 121 dots: 61 columns and 31 rows."""
    assert scale_for(blank(24, 24), 44, 19) == TooSmall(61, 31)
    assert isinstance(scale_for(blank(24, 24), 61, 31), Scale)


def test_the_top_left_corner_is_the_first_dot_and_y_turns_round() -> None:
    """Grid points count upward, dots and cells downward."""
    scale = fitted(blank(8, 8), 41, 21)
    assert scale.dot(Point(0, 8)) == Dot(0, 0)
    assert scale.dot(Point(1, 6)) == Dot(10, 20)
    assert scale.cell(Point(1, 6)) == Cell(5, 5)
    assert scale.dot(Point(Fraction(1, 3), 8)) == Dot(3, 0)


def test_every_crossing_is_found_again_from_the_middle_of_its_dot() -> None:
    """Cells lead back to the grid point they came from."""
    scale = fitted(stretch(2), 44, 19)
    for point in scale.crossings():
        dot = scale.dot(point)
        assert scale.crossing_near((dot.x + 0.5) / 2, (dot.y + 0.5) / 4) == point


def test_positions_off_the_sheet_lead_to_its_edge() -> None:
    """No click leads to a crossing that the sheet does not have."""
    scale = fitted(blank(8, 8), 41, 21)
    assert scale.crossing_near(-3, -3) == Point(0, 8)
    assert scale.crossing_near(99, 99) == Point(8, 0)


def test_a_window_shows_its_centre_and_stays_on_the_sheet() -> None:
    """A sheet larger than the room is shown in part, at 8 dots a square."""
    sheet = blank(40, 40)
    for centre in (Point(0, 0), Point(20, 20), Point(40, 40), Point(0, 40)):
        scale = scale_around(sheet, 44, 19, centre)
        assert (scale.dots, scale.columns, scale.rows) == (8, 44, 19)
        assert scale.shows(centre)
    assert scale_around(sheet, 44, 19, Point(0, 40)).cell(Point(0, 40)) == Cell(0, 0)
    assert not scale_around(sheet, 44, 19, Point(0, 40)).shows(Point(40, 0))


def test_a_point_can_be_kept_at_its_cell() -> None:
    """As far as the sheet goes: at a corner the window stays on the paper."""
    sheet = blank(40, 40)
    scale = scale_around(sheet, 44, 19, Point(20, 20), 12, Cell(3, 4))
    assert scale.cell(Point(20, 20)) == Cell(3, 4)
    assert scale_around(sheet, 44, 19, Point(0, 40), 12, Cell(3, 4)).cell(Point(0, 40)) == Cell(0, 0)


def test_a_window_knows_where_the_sheet_goes_on() -> None:
    """To its left, above, to its right, below; nowhere where the sheet is whole."""
    sheet = blank(40, 4)
    assert scale_around(sheet, 44, 19, Point(0, 0)).goes_on == (False, False, True, False)
    assert scale_around(sheet, 44, 19, Point(20, 0)).goes_on == (True, False, True, False)
    assert fitted(blank(8, 8), 44, 21).goes_on == (False, False, False, False)
    assert (fitted(blank(8, 8), 44, 21).is_whole, scale_around(sheet, 44, 19, Point(0, 0)).is_whole) == (
        True,
        False,
    )


def test_what_is_shown_is_said_in_squares() -> None:
    """44 columns are 88 dots, 11 squares at 8 dots less the last dot."""
    scale = scale_around(blank(40, 4), 44, 19, Point(0, 0))
    assert scale.shown == (0, 0, Fraction(87, 8), 4)
    assert fitted(blank(8, 8), 44, 21).shown == (0, 0, 8, 8)


def test_crossings_are_those_of_the_window() -> None:
    """And those that touch it: a tick of the paper's edge reaches a dot to either side."""
    scale = scale_around(blank(40, 40), 16, 8, Point(20, 20))
    inside = {point for point in fitted_crossings(blank(40, 40)) if scale.shows(point)}
    assert inside <= set(scale.crossings())
    assert len(scale.crossings()) <= 6 * 6


def fitted_crossings(sheet: CreasePattern) -> list[Point]:
    """Return all crossings of a sheet."""
    return fitted(sheet, 999, 999).crossings()
