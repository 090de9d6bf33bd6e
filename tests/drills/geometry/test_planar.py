from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon  # type: ignore[import-untyped]
from shapely import Point as ShapelyPoint

from drills.geometry import (
    Direction,
    Exact,
    HalfEdge,
    HalfPlane,
    Leaving,
    Point,
    Segment,
    crossing_parts,
    divided,
    double_area,
    face_walk,
    half_planes,
    lies_within,
    meeting,
    meetings,
    on_segment,
    scaled_to_integers,
    straight_on,
)

small = st.integers(min_value=-4, max_value=4)
points = st.builds(Point, small, small)
segments = st.tuples(points, points).filter(lambda ends: ends[0] != ends[1])


def through_shapely(one: Segment, two: Segment) -> list[tuple[float, float]]:
    """Return the ends of what two segments share, as the library shapely (GEOS) finds it in floats."""
    shared = LineString(one).intersection(LineString(two))
    return sorted(set(shared.coords))


@given(segments, segments)
def test_segments_meet_where_a_general_library_says(one: Segment, two: Segment) -> None:
    """Source: shapely (GEOS). No point, one, or the two ends of an overlap, whichever comes first."""
    found = meeting(one, two)
    assert found == tuple(sorted(meeting(two, one)))
    expected = through_shapely(one, two)
    assert len(found) == len(expected)
    assert [(float(p.x), float(p.y)) for p in found] == [pytest.approx(point) for point in expected]


@given(segments, segments)
def test_what_segments_share_lies_exactly_on_both(one: Segment, two: Segment) -> None:
    """No rounding: the point is on each of the two by the exact test, and whole numbers come as ints."""
    for point in meeting(one, two):
        assert on_segment(point, Point(*one[0]), Point(*one[1]))
        assert on_segment(point, Point(*two[0]), Point(*two[1]))
        assert all(isinstance(number, int) or number.denominator > 1 for number in point)


def test_a_crossing_between_grid_points_is_an_exact_fraction() -> None:
    """(0,0)-(3,1) and (0,1)-(1,0) cross at (3/4, 1/4), by hand."""
    assert meeting(((0, 0), (3, 1)), ((0, 1), (1, 0))) == ((Fraction(3, 4), Fraction(1, 4)),)


@given(segments, segments)
def test_the_parts_lead_along_each_line_to_one_point(one: Segment, two: Segment) -> None:
    """Going along / area of the first and across / area of the second arrives at the same place."""
    area, along, across = crossing_parts(one, two)
    assert area >= 0
    assume(area)
    assert at_part(one, Fraction(along) / area) == at_part(two, Fraction(across) / area)


def at_part(segment: Segment, part: Fraction) -> tuple[Exact, Exact]:
    """Return the point so far along the line of a segment."""
    (x, y), (end_x, end_y) = segment
    return x + (end_x - x) * part, y + (end_y - y) * part


@given(st.lists(segments, max_size=8))
def test_the_sweep_finds_every_pair_that_meets_once(drawn: list[Segment]) -> None:
    """The same pairs and points as when each is compared with each."""
    swept = [(min(i, j), max(i, j), sorted(shared)) for i, j, shared in meetings(drawn)]
    compared = [(i, j, sorted(meeting(drawn[i], drawn[j]))) for i, j in combinations(range(len(drawn)), 2)]
    assert sorted(swept) == [each for each in compared if each[2]]


@given(st.fractions(), st.fractions().filter(bool))
def test_a_quotient_is_exact_and_an_int_where_it_is_whole(top: Fraction, bottom: Fraction) -> None:
    """As Fraction divides; the type says whether a division was left over."""
    quotient = divided(top, bottom)
    assert quotient == top / bottom
    assert isinstance(quotient, int) == ((top / bottom).denominator == 1)


@given(st.lists(st.builds(Point, st.fractions(max_denominator=60), st.fractions(max_denominator=60))))
def test_points_on_integers_are_the_same_points_in_a_smaller_unit(drawn: list[Point]) -> None:
    """Divided by the unit they are the points again, and no larger unit would make all of them whole."""
    unit, whole = scaled_to_integers(drawn)
    assert [(Fraction(x, unit), Fraction(y, unit)) for x, y in whole] == drawn
    numbers = [number for point in drawn for number in point]
    primes = [p for p in range(2, 60) if unit % p == 0]
    assert all(any((number * (unit // p)).denominator > 1 for number in numbers) for p in primes)


def test_a_walk_round_a_face_ends_where_it_began() -> None:
    """Four vertices on a ring, walked one way and then the other, each half edge once."""
    seen: set[HalfEdge] = set()
    forward = list(face_walk((0, 1), lambda last, here: (2 * here - last) % 4, seen))
    assert forward == [(0, 1), (1, 2), (2, 3), (3, 0)]
    assert list(face_walk((2, 3), lambda last, here: 0, seen)) == []
    backward = list(face_walk((0, 3), lambda last, here: (2 * here - last) % 4, seen))
    assert [(end, start) for start, end in backward] == [(3, 0), (2, 3), (1, 2), (0, 1)]


def test_a_line_is_followed_straight_on_and_round_no_bend() -> None:
    """East of vertex 0 come 1 and 2; at 2 the only way on turns north."""
    east, north = Direction(1, 0), Direction(0, 1)
    leaving: list[Leaving] = [{east: (10, 1)}, {east: (11, 2), north: (12, 0)}, {north: (13, 0)}]
    assert list(straight_on(leaving, 0, east)) == [(10, 1), (11, 2)]
    assert list(straight_on(leaving, 2, east)) == []


@given(st.lists(points, min_size=3, max_size=6))
def test_the_area_of_a_polygon_is_signed_by_its_sense(corners: list[Point]) -> None:
    """The other way round it is the opposite; a triangle fan from the first corner adds up to it."""
    assert double_area(corners) == -double_area(corners[::-1])
    fan = sum(double_area([corners[0], one, two]) for one, two in pairwise(corners[1:]))
    assert double_area(corners) == fan


@given(st.lists(points, min_size=4, max_size=4), points)
def test_inside_a_convex_figure_is_what_a_general_library_says(spread: list[Point], point: Point) -> None:
    """Source: shapely (GEOS). Sides and corners count as inside, whichever way round the corners come."""
    hull = Polygon(spread).convex_hull
    assume(hull.geom_type == "Polygon")
    corners = [Point(int(x), int(y)) for x, y in hull.exterior.coords[:-1]]
    expected = hull.covers(ShapelyPoint(*point))
    assert lies_within(point, half_planes(corners)) == expected
    assert lies_within(point, half_planes(corners[::-1])) == expected


@given(segments, points)
def test_a_half_plane_faces_the_point_it_is_asked_to(line: Segment, point: Point) -> None:
    """The point is inside or on the line, and the line's ends stay on it."""
    bound = HalfPlane.at_left(*line).facing(point)
    assert bound.height(point) >= 0
    assert heights(bound, line) == [0, 0]


def heights(bound: HalfPlane, corners: Sequence[tuple[Exact, Exact]]) -> list[Exact]:
    """Return the heights of some points."""
    return [bound.height(corner) for corner in corners]


def test_a_unit_that_would_be_too_large_is_refused() -> None:
    """The least common multiple of 2 to 6 is 60: a bound of 60 allows it, one of 59 does not."""
    drawn = [Point(Fraction(1, bottom), 0) for bottom in range(2, 7)]
    assert scaled_to_integers(drawn, most=60).unit == 60
    with pytest.raises(OverflowError):
        scaled_to_integers(drawn, most=59)
