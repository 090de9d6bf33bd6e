from __future__ import annotations

from itertools import combinations
from math import atan2, degrees, pi

import pytest

from drills.flatfold import check_angles, is_kawasaki, turns_around, valid_at
from drills.geometry import Direction, counterclockwise
from tests.drills.flatfold.counting import count_labellings
from tests.drills.sheets import star, ways


def test_the_slope_that_halves_the_345_angle_makes_a_point_that_folds() -> None:
    """(1,0) and (3,4) enclose 53.13 degrees, which (2,1) halves; with (-2,-1) the point folds."""
    assert is_kawasaki(ways((1, 0), (2, 1), (3, 4), (-2, -1)))


# Directions, the product z (Re, Im), the angles in degrees, the number of labellings: own exact values.
FLAT = [
    (ways((1, 0), (2, 1), (0, 1), (-1, -2)), (-5, 0), [26.565, 63.435, 153.435, 116.565], 4),
    (ways((1, 0), (3, 1), (0, 1), (-1, -3)), (-10, 0), [18.435, 71.565, 161.565, 108.435], 4),
    (ways((1, 0), (2, 1), (1, 1), (-3, -1)), (-10, 0), [26.565, 18.435, 153.435, 161.565], 4),
    (ways((1, 0), (3, 4), (0, 1), (-4, -3)), (-25, 0), [53.130, 36.870, 126.870, 143.130], 4),
    (ways((1, 0), (2, 1), (3, 4), (-2, -1)), (-25, 0), [26.565, 26.565, 153.435, 153.435], 6),
    (ways((1, 0), (3, 1), (4, 3), (-3, -1)), (-50, 0), [18.435, 18.435, 161.565, 161.565], 6),
    (ways((2, 1), (0, 1), (-2, 1), (0, -1)), (-5, 0), [63.435, 63.435, 116.565, 116.565], 6),
    (
        ways((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (0, -1)),
        (-2, 0),
        [45, 45, 45, 45, 90, 90],
        20,
    ),
]
NOT_FLAT = [
    (ways((1, 0), (1, 1), (-1, 0), (0, -1)), (-1, 1)),
    (ways((1, 0), (3, 4), (-1, 0), (-2, -1)), (2, 11)),
]


def product_of(directions: list[Direction]) -> tuple[int, int]:
    """Return conj(d1) d2 conj(d3) d4 ..., multiplied out without the code under test."""
    x, y = 1, 0
    for index, way in enumerate(directions):
        dy = way.dy if index % 2 else -way.dy
        x, y = x * way.dx - y * dy, x * dy + y * way.dx
    return x, y


@pytest.mark.parametrize(("directions", "z", "angles", "count"), FLAT)
def test_exact_points_that_fold(
    directions: list[Direction], z: tuple[int, int], angles: list[float], count: int
) -> None:
    """Their product is real and negative, their angles and their number of labellings are as listed."""
    assert is_kawasaki(directions)
    assert product_of(directions) == z
    turns = turns_around(directions)
    assert [round(degrees(atan2(turn.y, turn.x)), 3) for turn in turns] == angles
    assert count_labellings(turns) == count == len(valid_at(tuple(directions)))


@pytest.mark.parametrize(("directions", "z"), NOT_FLAT)
def test_exact_points_that_do_not_fold(directions: list[Direction], z: tuple[int, int]) -> None:
    """Their product is not real, or not negative."""
    assert product_of(directions) == z
    assert not is_kawasaki(directions)


@pytest.mark.parametrize("directions", [flat[0] for flat in FLAT if len(flat[0]) == 4])
def test_three_directions_have_one_fourth(directions: list[Direction]) -> None:
    """The fourth direction is -d1 d3 conj(d2): the only one that completes the point."""
    d1, d2, d3, d4 = (complex(*way) for way in directions)
    fourth = -d1 * d3 * d2.conjugate()
    assert fourth / d4 == abs(fourth) / abs(d4)


WINDS = ways((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1))


def with_slopes(*ratios: tuple[int, int]) -> list[Direction]:
    """Return the eight 45-degree directions and those of the given ratios, counterclockwise."""
    slanted = [
        Direction(a * x, b * y)
        for p, q in ratios
        for x, y in ((p, q), (q, p))
        for a in (-1, 1)
        for b in (-1, 1)
    ]
    return counterclockwise(WINDS + slanted, lambda way: way)


def how_many(directions: list[Direction], degree: int) -> int:
    """Return how many sets of so many of these directions meet the angle condition."""
    return sum(is_kawasaki(chosen) for chosen in combinations(directions, degree))


@pytest.mark.parametrize(
    ("directions", "fours", "sixes"),
    [
        (WINDS, 18, 12),
        (with_slopes((1, 2)), 92, 456),
        pytest.param(with_slopes((1, 2), (1, 3)), 470, 6244, marks=pytest.mark.long),
    ],
)
def test_how_many_sets_of_directions_meet_the_angle_condition(
    directions: list[Direction], fours: int, sixes: int
) -> None:
    """Own values, found by other code: 18/12 at 45 degrees, 92/456 with slope 1/2, 470/6244 with 1/3 too."""
    assert (how_many(directions, 4), how_many(directions, 6)) == (fours, sixes)


def test_the_exact_condition_agrees_with_angles_in_floats() -> None:
    """For all sets of four of the 24 directions, every second angle adds up to half a turn or it does not."""
    for chosen in combinations(with_slopes((1, 2), (1, 3)), 4):
        a, b, c, d = (atan2(way.dy, way.dx) % (2 * pi) for way in chosen)
        assert is_kawasaki(chosen) == (abs(b - a + d - c - pi) < 1e-9)


def test_an_odd_number_of_creases_never_folds() -> None:
    """Three creases at 120 degrees or so, and none at all, fail."""
    assert not is_kawasaki(ways((1, 0), (-1, 2), (-1, -2)))
    assert not is_kawasaki([])


def test_check_names_the_points_that_fail() -> None:
    """A bad star's only interior point is named, a good star's is not."""
    bad, good = star(NOT_FLAT[0][0]), star(FLAT[0][0])
    assert check_angles(bad) == bad.interior
    assert check_angles(good) == ()
