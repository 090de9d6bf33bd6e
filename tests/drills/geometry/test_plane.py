from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import atan2, gcd, isclose, pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drills.geometry import (
    AS_IT_IS,
    FACINGS,
    HALF_TURN,
    MIRROR,
    QUARTER_TURN,
    SYMMETRIES,
    Chance,
    Direction,
    Move,
    Point,
    Step,
    Turn,
    as_int,
    counterclockwise,
    cross,
    direction_of,
    dot,
    is_half_turn,
    is_whole,
    move_between,
    moved,
    on_segment,
    ratio_of,
    step_between,
    turn_between,
)


def test_direction_of_a_move_is_the_shortest_whole_one_that_points_the_same_way() -> None:
    """(2/3, -1) points the way of (2, -3); (-6, -4) that of (-3, -2)."""
    assert direction_of(Move(Fraction(2, 3), -1)) == Direction(2, -3)
    assert direction_of(Move(-6, -4)) == Direction(-3, -2)
    assert direction_of(Move(0, Fraction(-5, 7))) == Direction(0, -1)


coordinates = st.fractions(min_value=-20, max_value=20, max_denominator=12)
points = st.builds(Point, coordinates, coordinates)


@given(points, points)
def test_the_move_between_two_points_leads_from_one_to_the_other(start: Point, end: Point) -> None:
    """Going the move once arrives, going it no times stays."""
    move = move_between(start, end)
    assert moved(start, move) == end
    assert moved(start, move, 0) == start


@given(points, points)
def test_direction_is_parallel_and_points_the_same_way(start: Point, end: Point) -> None:
    """The direction has no area with the move and a positive product with it."""
    assume(start != end)
    move = move_between(start, end)
    way = direction_of(move)
    assert cross(way, move) == 0
    assert dot(way, move) > 0
    assert direction_of(way) == way


@given(points, points, st.fractions(min_value=-1, max_value=2, max_denominator=9))
def test_a_point_is_on_the_segment_if_it_divides_it(start: Point, end: Point, part: Fraction) -> None:
    """Parts from 0 to 1 of the way are on the segment, others are not."""
    assume(start != end)
    assert on_segment(moved(start, move_between(start, end), part), start, end) == (0 <= part <= 1)


def test_a_point_beside_the_segment_is_not_on_it() -> None:
    """A point a seventh of a square off the line is off it."""
    assert not on_segment(Point(2, 1 + Fraction(1, 7)), Point(0, 0), Point(4, 2))


def test_whole_fractions_become_plain_ints() -> None:
    """6/3 is the int 2 and on the grid; 1/3 stays a fraction and is off it."""
    assert isinstance(as_int(Fraction(6, 3)), int)
    assert is_whole(Point(Fraction(6, 3), 5))
    assert not is_whole(Point(as_int(Fraction(1, 3)), 5))


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


def test_the_square_has_eight_symmetries_and_they_form_a_group() -> None:
    """All eight differ, and one after the other is again one of them."""
    assert len(set(SYMMETRIES)) == 8
    assert {one.then(two) for one, two in product(SYMMETRIES, repeat=2)} == set(SYMMETRIES)


def test_the_images_of_the_corner_three_one() -> None:
    """A quarter turn takes (3, 1) to (-1, 3), a half turn to (-3, -1), the mirror to (-3, 1)."""
    corner = Point(3, 1)
    assert [turn.of(corner) for turn in (AS_IT_IS, QUARTER_TURN, HALF_TURN, MIRROR)] == [
        (3, 1),
        (-1, 3),
        (-3, -1),
        (-3, 1),
    ]


def test_then_does_the_first_map_first() -> None:
    """The map put together agrees with the two maps done one after the other."""
    corner = Point(3, 1)
    for one, two in product(SYMMETRIES, repeat=2):
        assert one.then(two).of(corner) == two.of(one.of(corner))


def test_the_facings_and_their_half_turns_are_all_eight() -> None:
    """Each symmetry is one of the four facings, or that facing after a half turn."""
    assert {first.then(facing) for facing in FACINGS for first in (AS_IT_IS, HALF_TURN)} == set(SYMMETRIES)


WAYS = [Direction(x, y) for x, y in product(range(-4, 5), repeat=2) if (x, y) != (0, 0)]


def radians(turn: Turn) -> float:
    """Return the size of a turn."""
    return atan2(turn.y, turn.x)


def test_turns_are_sized_like_their_arguments() -> None:
    """For every two turns up to half a turn the exact comparison agrees with the float one."""
    turns = {turn for way in WAYS if radians(turn := turn_between(Direction(1, 0), way)) > 0}
    for one, two in product(turns, repeat=2):
        assert one.is_below(two) == (one != two and radians(one) < radians(two))


def test_the_turn_between_two_directions_is_the_counterclockwise_one() -> None:
    """It is the difference of their arguments, for all directions at most half a turn apart."""
    for first, second in product(WAYS, repeat=2):
        angle = (atan2(second.dy, second.dx) - atan2(first.dy, first.dx)) % (2 * pi)
        if 1e-9 < angle < pi + 1e-9:
            assert isclose(radians(turn_between(first, second)), angle, abs_tol=1e-9)


def test_adding_and_taking_away_turns() -> None:
    """90 + 45 - 26.57 degrees is 108.43 degrees, the argument of -1 + 3i."""
    assert Turn(0, 1).plus_minus(Turn(1, 1), Turn(2, 1)) == Turn(-1, 3)


def test_the_half_angles_of_the_345_triangle_are_an_eighth_of_a_turn_together() -> None:
    """(2 + i)(3 + i) = 5(1 + i), so four times both make half a turn."""
    assert is_half_turn([Turn(2, 1), Turn(3, 1)] * 4)
    assert not is_half_turn([Turn(2, 1), Turn(3, 1)] * 8)
    assert not is_half_turn([Turn(2, 1), Turn(2, 1)] * 4)


def test_the_eight_winds_come_counterclockwise_from_east() -> None:
    """East, north-east, north and so on to south-east."""
    winds = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)]
    ways = [Direction(*wind) for wind in winds]
    assert counterclockwise(ways[::3] + ways[1::3] + ways[2::3], lambda way: way) == ways


def test_the_order_is_that_of_the_arguments() -> None:
    """Shuffled directions come out sorted by their angle from 0 up to a full turn."""
    ways = [Direction(x, y) for x in range(-6, 7) for y in range(-6, 7) if gcd(x, y) == 1]
    sorted_ways = counterclockwise(Chance("around").shuffled(ways), lambda way: way)
    angles = [atan2(way.dy, way.dx) % (2 * pi) for way in sorted_ways]
    assert angles == sorted(angles)
