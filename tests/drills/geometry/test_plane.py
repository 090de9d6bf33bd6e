from __future__ import annotations

from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from drills.geometry import (
    Direction,
    Move,
    Point,
    as_int,
    cross,
    direction_of,
    dot,
    is_whole,
    move_between,
    moved,
    on_segment,
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
