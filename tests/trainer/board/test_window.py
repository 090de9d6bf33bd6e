from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.geometry import Point
from drills.pattern import Paper, build
from trainer.board import Cell, Room, Window, scale_for
from trainer.board.scale import PANNED_DOTS, SCAN_DOTS
from trainer.board.window import CLOSE_DOTS, MARGIN, STEPS, window_on

ROOM, WIDE_ROOM = Room(47, 20), Room(87, 36)
LARGE = build([], Paper(0, 0, 64, 20))
SMALL = build([], Paper(0, 0, 8, 8))

moves = st.lists(st.tuples(st.integers(-80, 80), st.integers(-30, 30)), max_size=4)
places = st.builds(Point, st.integers(0, 64), st.integers(0, 20))


def test_a_sheet_that_fits_is_shown_whole_and_another_at_eight_dots() -> None:
    """The whole one at the largest scale that fits, as ever; the other one about its middle."""
    assert window_on(SMALL, ROOM).scale == scale_for(SMALL, *ROOM)
    part = window_on(LARGE, ROOM).scale
    assert (part.dots, part.columns, part.rows) == (PANNED_DOTS, *ROOM)
    assert part.shows(Point(32, 10))


@pytest.mark.parametrize("sides", [(24, 12), (12, 24), (24, 24), (48, 16), (64, 20), (20, 64)])
@pytest.mark.parametrize("room", [ROOM, WIDE_ROOM, Room(39, 16)])
def test_no_sheet_is_too_large(sides: tuple[int, int], room: Room) -> None:
    """At every step of zooming it has three dots a square at least and stays in its room."""
    window = window_on(build([], Paper(0, 0, *sides)), room)
    for closer in (False,) * 9 + (True,) * 9:
        window = window.zoomed(closer)
        assert window.scale.dots >= SCAN_DOTS
        assert window.scale.columns <= room.columns
        assert window.scale.rows <= room.rows


@given(moves)
def test_a_window_moved_off_the_sheet_stays_at_its_edge(moves: list[tuple[int, int]]) -> None:
    """And comes back at the first step the other way."""
    window = window_on(LARGE, ROOM)
    for move in moves:
        before, window = window.scale.shift, window.panned(*move)
        wanted = before.x // 2 + move[0], before.y // 4 + move[1]
        limits = 64 * 4 + 1 - 47, 20 * 2 + 1 - 20
        assert (window.scale.shift.x // 2, window.scale.shift.y // 4) == tuple(
            min(max(at, 0), limit) for at, limit in zip(wanted, limits, strict=True)
        )


def test_a_whole_sheet_does_not_move() -> None:
    """There is nowhere to go."""
    window = window_on(SMALL, ROOM)
    assert window.panned(5, 5).scale == window.centred(Point(0, 0)).scale == window.scale


def test_zooming_goes_through_the_steps_and_ends_at_the_whole_sheet() -> None:
    """Eight squares fit the room at 9 dots: after that come 10, 12, 16, 20 and 24, and back."""
    window, dots = window_on(SMALL, ROOM), []
    for closer in (True,) * 6 + (False,) * 7:
        dots.append(window.scale.dots)
        window = window.zoomed(closer)
    assert dots == [9, 10, 12, 16, 20, 24, 24, 20, 16, 12, 10, 9, 9]
    assert window.scale == scale_for(SMALL, *ROOM)
    assert window.dots is None


def test_a_large_sheet_is_zoomed_out_to_three_dots() -> None:
    """And no farther; back at eight it is as if it had not been zoomed."""
    windows = [window_on(LARGE, ROOM)]
    for closer in (False, False, False, False, True, True, True):
        windows.append(windows[-1].zoomed(closer))
    assert [window.scale.dots for window in windows] == [8, 6, 5, 3, 3, 5, 6, 8]
    assert windows[-1].dots is None


def test_one_key_goes_between_whole_and_close() -> None:
    """From a part to all that can be looked over, and back to a place close by; a small sheet is enlarged."""
    sheet = build([], Paper(0, 0, 28, 20))
    whole = window_on(sheet, ROOM).whole_or_close()
    assert (whole.scale.is_whole, whole.scale.dots) == (True, 3)
    close = whole.whole_or_close(Point(3, 4))
    assert close.scale.dots == CLOSE_DOTS
    assert close.scale.shows(Point(3, 4))
    assert close.whole_or_close().scale == whole.scale
    assert window_on(LARGE, ROOM).whole_or_close().scale.dots == SCAN_DOTS
    small = window_on(SMALL, ROOM)
    assert small.whole_or_close().scale.dots > small.scale.dots
    assert small.whole_or_close().whole_or_close().scale == small.scale


@given(places, st.booleans())
def test_zooming_keeps_what_is_under_the_pointer(place: Point, closer: bool) -> None:
    """In its cell, as far as the sheet's edges allow: in the middle of a large sheet they do not matter."""
    sheet = build([], Paper(-100, -100, 200, 200))
    window = window_on(sheet, ROOM).centred(place).panned(7, -3)
    at = window.scale.cell(place)
    assert window.zoomed(closer, at).scale.cell(place) == at


@given(places, places)
def test_a_held_point_is_inside_the_margin_or_the_window_at_the_edge(start: Point, place: Point) -> None:
    """Two squares from the rim, or a quarter of the window; less only where the paper ends."""
    window = window_on(LARGE, ROOM).centred(start).holding(place)
    column, row = window.scale.cell(place)
    left, above, right, below = window.scale.goes_on
    across, down = min(MARGIN * 4, 47 // 4), min(MARGIN * 2, 20 // 4)
    assert column >= (across if left else 0)
    assert row >= (down if above else 0)
    assert column < 47 - (across if right else 0)
    assert row < 20 - (down if below else 0)


@given(places)
def test_a_held_point_that_is_well_inside_moves_nothing(place: Point) -> None:
    """The window stays where it is until the point nears its rim."""
    window = window_on(LARGE, ROOM).centred(place)
    assert window.holding(place).scale == window.scale


def test_a_window_in_another_room_keeps_its_middle_and_the_watched_point() -> None:
    """A larger terminal may show all of the sheet; a watched point that was in view stays so."""
    window = window_on(LARGE, ROOM).centred(Point(20, 10))
    smaller = window.resized(Room(39, 16))
    assert smaller.scale.cell(Point(20, 10)) == Cell(19, 8)
    assert window.resized(Room(400, 100)).scale.is_whole
    rim = Point(16, 10)
    assert window.scale.shows(rim)
    assert window.resized(Room(20, 8), rim).scale.shows(rim)
    assert not window.resized(Room(20, 8)).scale.shows(rim)
    assert window.resized(Room(20, 8), Point(60, 10)) == window.resized(Room(20, 8))


def test_a_key_moves_the_window_by_whole_squares() -> None:
    """About a quarter of what is shown, so that the grid keeps its place on the screen."""
    window = window_on(LARGE, ROOM)
    assert window.cells_a_square == (4, 2)
    assert window.key_step == (8, 4)
    assert window_on(LARGE, Room(9, 4)).key_step == (4, 2)


def test_the_same_moves_give_the_same_window() -> None:
    """A window is its sheet, room, middle and scale, nothing else."""
    first, second = (window_on(LARGE, ROOM).panned(9, 3).zoomed(True) for _ in range(2))
    assert first == second
    assert isinstance(first, Window)
    assert all(a < b for a, b in pairwise(STEPS))
