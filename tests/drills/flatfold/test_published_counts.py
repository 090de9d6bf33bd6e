"""Numbers of mountain-valley labellings of one point, against print.

T. C. Hull, "Counting Mountain-Valley Assignments for Flat Folds", Ars Combinatoria 67 (2003)
175-188, arXiv:1410.5022; "The Combinatorics of Flat Folds: a Survey", Origami^3 (2002) 29-38,
arXiv:1307.1065; the number of different values: OEIS A156209.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise, product
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.drills.flatfold.counting import count_of_degrees


def test_four_right_angles_can_be_labelled_in_eight_ways() -> None:
    """One of four creases differs from the other three: 2 * 4 = 8 (Hull's survey)."""
    assert count_of_degrees([90, 90, 90, 90]) == 8


@pytest.mark.parametrize(
    ("half", "count"), [(2, 8), (3, 30), (4, 112), (5, 420), (6, 1584), (7, 6006), (8, 22880)]
)
def test_equal_angles_have_twice_a_binomial(half: int, count: int) -> None:
    """2n equal angles can be labelled in 2 * binom(2n, n - 1) ways (Hull's survey)."""
    assert count_of_degrees([Fraction(180, half)] * (2 * half)) == count == 2 * comb(2 * half, half - 1)


@pytest.mark.parametrize(
    ("angles", "count"),
    [
        ([45, 135, 135, 45], 6),  # bird-foot; Hull's survey
        ([60, 60, 120, 120], 6),  # Miura; Hull's survey
        ([100, 110, 80, 70], 4),  # Hull's survey
        ([45, 90, 135, 90], 4),  # Hull's survey
        ([100, 70, 50, 40, 30, 70], 8),  # 2^n is attained: Hull's survey
        ([20, 10, 40, 50, 60, 60, 60, 60], 48),  # the survey's worked example, from memory
        ([80, 60, 60, 60, 40, 60], 12),  # in A156209's values; the angles: own value
        ([90, 45, 45, 90, 45, 45], 18),  # in A156209's values; the angles: own value
        ([45, 45, 45, 45, 90, 90], 20),  # in A156209's values; the angles: own value
    ],
)
def test_points_with_a_known_number_of_labellings(angles: list[int], count: int) -> None:
    """Each list of angles has its known number."""
    assert count_of_degrees(angles) == count


@pytest.mark.parametrize("angles", [[45, 135, 90, 90], [120, 120, 120], [80, 80, 100, 100, 0]])
def test_a_point_that_breaks_the_angle_condition_has_none(angles: list[int]) -> None:
    """An odd number of creases, or sums that differ, fold under no labels (Kawasaki-Justin)."""
    assert count_of_degrees(angles) == 0


def compositions(total: int, parts: int) -> Iterator[tuple[int, ...]]:
    """Yield the ways to write a total as so many positive numbers in order."""
    for cuts in combinations(range(1, total), parts - 1):
        yield tuple(b - a for a, b in pairwise((0, *cuts, total)))


def values(half: int, units: tuple[int, ...]) -> set[int]:
    """Return the numbers of labellings of all points of 2 * half angles in units of 180/unit degrees."""
    sums = [both for unit in units for both in product(compositions(unit, half), repeat=2)]
    return {count_of_degrees([angle for pair in zip(*both, strict=True) for angle in pair]) for both in sums}


PUBLISHED_VALUES = [
    (1, (1,), {2}),
    (2, (4,), {4, 6, 8}),
    (3, (9,), {8, 12, 16, 18, 20, 24, 30}),
    (4, (8, 10), {16, 24, 32, 36, 40, 48, 54, 60, 70, 72, 80, 90, 112}),
]


@pytest.mark.parametrize(("half", "units", "published"), PUBLISHED_VALUES)
def test_the_numbers_that_occur_are_the_published_ones(
    half: int, units: tuple[int, ...], published: set[int]
) -> None:
    """Degree 2, 4, 6: the published sets; degree 8: own values; the sizes 1, 3, 7, 13 are A156209."""
    assert values(half, units) == published


@pytest.mark.long
def test_the_published_number_of_values_at_degree_ten() -> None:
    """24 different numbers occur at degree 10 (A156209)."""
    assert len(values(5, (10, 13))) == 24


def angle_lists() -> st.SearchStrategy[list[int]]:
    """Draw lists of 2 to 10 whole angles whose every second one adds up to the same."""

    def joined(cuts: tuple[list[int], list[int]]) -> list[int]:
        one, two = ([b - a for a, b in pairwise([0, *sorted(each), 30])] for each in cuts)
        return [angle for pair in zip(one, two, strict=True) for angle in pair]

    def cut_in(pieces: int) -> st.SearchStrategy[list[int]]:
        return st.lists(st.integers(1, 29), min_size=pieces - 1, max_size=pieces - 1, unique=True)

    return st.integers(1, 5).flatmap(lambda n: st.tuples(cut_in(n), cut_in(n)).map(joined))


@given(angle_lists(), st.integers(0, 9))
def test_the_number_is_even_within_bounds_and_the_same_from_wherever_one_counts(
    angles: list[int], start: int
) -> None:
    """2^n <= C <= 2 binom(2n, n-1) (T. C. Hull, "Configuration Spaces for Flat Vertex Folds", Origami^4).

    Beginning with another angle, or going round the other way, changes nothing.
    """
    count, half = count_of_degrees(angles), len(angles) // 2
    assert count % 2 == 0
    assert 2**half <= count <= 2 * comb(2 * half, half - 1)
    turned = angles[start % len(angles) :] + angles[: start % len(angles)]
    assert count_of_degrees(turned) == count_of_degrees(angles[::-1]) == count
