from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drills.geometry import Direction, Point, Step, ratio_of, step_between


def test_a_step_is_the_smallest_whole_move_and_how_often_it_repeats() -> None:
    """From (0, 6) to (6, 4) is 3 across 1 down, twice; from (2, 0) to (0, 4) is 1 left 2 up, twice."""
    assert step_between(Point(0, 6), Point(6, 4)) == Step(3, 1, 2)
    assert step_between(Point(2, 0), Point(0, 4)) == Step(-1, -2, 2)


numbers = st.integers(min_value=-40, max_value=40)
places = st.builds(Point, numbers, numbers)


@given(places, places)
def test_a_step_leads_back_to_where_it_was_read(start: Point, end: Point) -> None:
    """The step between two crossings, repeated, ends on the second, and is its own smallest form."""
    assume(start != end)
    step = step_between(start, end)
    assert step.end_from(start) == end
    assert step.smallest() == step


@given(numbers, numbers, st.integers(min_value=1, max_value=9), places)
def test_reducing_a_step_keeps_its_way(across: int, down: int, times: int, start: Point) -> None:
    """A step not reduced leads to the same point as its smallest form."""
    assume((across, down) != (0, 0))
    step = Step(across, down, times)
    assert step.smallest().end_from(start) == step.end_from(start)
    assert step.smallest().times % times == 0


def test_the_same_way_in_larger_steps_has_one_smallest_form() -> None:
    """(2, 4) once is (1, 2) twice."""
    assert Step(2, 4).smallest() == Step(1, 2, 2)


def test_a_step_off_the_grid_is_refused() -> None:
    """A step is read between crossings of the grid only."""
    with pytest.raises(ValueError, match="crossing of the grid"):
        step_between(Point(0, 0), Point(Fraction(1, 3), 1))


def test_ratio_forgets_facing() -> None:
    """All eight directions of ratio 1:3 share it."""
    ways = [Direction(a * x, b * y) for a in (-1, 1) for b in (-1, 1) for x, y in ((1, 3), (3, 1))]
    assert {ratio_of(way) for way in ways} == {(1, 3)}
