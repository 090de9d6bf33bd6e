from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import product

import pytest

from drills.flatfold import Run, folds_flat, smallest_run, without_run
from drills.geometry import Chance
from tests.drills.flatfold.assorted import KINDS
from tests.drills.flatfold.counting import Degrees, count_of_degrees
from tests.drills.flatfold.stacks import labellings, stacks


def test_eight_equal_angles_have_112_labellings_and_336_stacks() -> None:
    """112: Hull's survey (arXiv:1307.1065); 336 orders of the layers: own value by two methods."""
    assert len(labellings([45] * 8)) == 112
    assert sum(1 for _ in stacks([45] * 8)) == 336


def degrees(angles: Sequence[int]) -> list[Degrees]:
    """Return whole numbers of degrees as angles."""
    return [Degrees(Fraction(angle)) for angle in angles]


def accepted(angles: Sequence[int]) -> frozenset[tuple[bool, ...]]:
    """Return the labellings with which crimping says the point folds."""
    tried = product(KINDS, repeat=len(angles))
    folding = (labels for labels in tried if folds_flat(degrees(angles), labels))
    return frozenset(tuple(label == "M" for label in labels) for labels in folding)


def random_angles(seed: str, half: int, total: int) -> list[int]:
    """Return 2 * half angles that meet the angle condition, each half adding up to the total."""
    chance = Chance(seed)
    sums = []
    for _ in range(2):
        cuts = sorted(chance.shuffled(range(1, total))[: half - 1])
        sums.append([b - a for a, b in zip([0, *cuts], [*cuts, total], strict=True)])
    return [angle for pair in zip(*sums, strict=True) for angle in pair]


KNOWN = [
    [90, 90, 90, 90],
    [45, 135, 135, 45],
    [45, 90, 135, 90],
    [60, 60, 60, 60, 60, 60],
    [100, 70, 50, 40, 30, 70],
    [80, 60, 60, 60, 40, 60],
    [90, 45, 45, 90, 45, 45],
    [45, 45, 45, 45, 90, 90],
]


@pytest.mark.parametrize("angles", KNOWN)
def test_crimping_accepts_what_some_order_of_the_layers_shows(angles: list[int]) -> None:
    """Accepted are the labellings of all orders of the layers without a tear, as many as counted."""
    assert accepted(angles) == labellings(angles)
    assert len(accepted(angles)) == count_of_degrees(angles)


@pytest.mark.parametrize("total", [5, 9, 30])
def test_crimping_agrees_with_all_orders_of_the_layers_at_random_points(total: int) -> None:
    """70 points of degree 6 and 35 of degree 4 for each coarseness of angles; coarse ones have equal runs."""
    for number in range(105):
        angles = random_angles(f"layers-{total}-{number}", 2 if number % 3 == 0 else 3, total)
        assert accepted(angles) == labellings(angles), angles
        assert len(accepted(angles)) == count_of_degrees(angles), angles


@pytest.mark.parametrize("total", [6, 8, 30])
def test_the_recursion_counts_what_crimping_accepts(total: int) -> None:
    """The number found by Hull's recursion is that of all labellings accepted one by one, degree 8."""
    for number in range(12):
        angles = random_angles(f"count-{total}-{number}", 4, total)
        assert len(accepted(angles)) == count_of_degrees(angles), angles


def test_a_smaller_angle_between_larger_ones_has_a_mountain_and_a_valley() -> None:
    """Big-little-big: 45 between 90 and 90 is never accepted with two creases of one kind."""
    assert {labels[0] != labels[1] for labels in accepted([45, 90, 135, 90])} == {True}


def test_the_smallest_run_is_found_across_the_place_where_counting_begins() -> None:
    """Angles 1 and 1 at the end and at the start make one run of three with the next."""
    assert smallest_run(degrees([1, 1, 5, 4, 1])) == Run(4, 3)
    assert smallest_run(degrees([2, 2, 2, 2])) is None


def test_folding_a_run_away_joins_its_neighbours_if_it_is_odd() -> None:
    """20, 50, 60, 30: the 20 goes and 50 + 30 - 20 = 60 stays; two equal angles simply go."""
    assert without_run(degrees([20, 50, 60, 30]), 1) == degrees([60, 60])
    assert without_run(degrees([20, 20, 60, 60]), 2) == degrees([60, 60])
