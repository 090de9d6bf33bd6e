"""The layer verdict against a solver that shares no code with it, and the orders it returns."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import pytest

from drills.flatfold import failing, folds, solve_layers
from drills.pattern import CreasePattern
from drills.structures import Stretch, draw
from tests.drills.flatfold.assorted import SORTS, assorted, faults_of_order, folds_anew, plain
from tests.drills.sheets import HINGES
from tests.independent.layers import stacking


def test_both_solvers_let_the_smallest_stretch_fold() -> None:
    """The stretch of one pleat a side and one around folds; with all creases mountains it does not."""
    pattern = draw(Stretch((1, 1)))
    every_mountain = pattern.with_labels("B" if e.label == "B" else "M" for e in pattern.edges)
    assert verdicts(pattern) == (True, True)
    assert verdicts(every_mountain) == (False, False)


def verdicts(pattern: CreasePattern) -> tuple[bool | None, bool]:
    """Return both verdicts; an order that is returned is checked condition by condition."""
    found = solve_layers(pattern)
    if found.folds:
        assert faults_of_order(pattern, found) == []
        assert found.labels == pattern.labels()
    return found.folds, folds_anew(pattern)


def compared(patterns: Iterable[CreasePattern]) -> Counter[tuple[bool, bool]]:
    """Return how many sheets pass at every point, and fold; both solvers must agree on every one."""
    found: Counter[tuple[bool, bool]] = Counter()
    for pattern in patterns:
        ours, other = verdicts(pattern)
        assert ours is other
        found[not failing(pattern, pattern.labels(), folds), other] += 1
    return found


@pytest.mark.long
def test_sixty_sheets_of_all_sorts() -> None:
    """Stretches, maps, Miura patterns, twists, strips; labelled rightly, by chance, with labels switched."""
    found = compared(assorted(60))
    assert found[True, True] >= 25
    assert found[True, False] >= 10


@pytest.mark.long
def test_two_thousand_sheets_of_all_sorts() -> None:
    """At least 600 of them do not fold; at least 200 sheets with points fail in their layers alone."""
    found = compared(assorted(2000))
    assert found[True, False] + found[False, False] >= 600
    with_points = [pattern for pattern in assorted(2000) if pattern.interior and not folds_anew(pattern)]
    assert sum(not failing(pattern, pattern.labels(), folds) for pattern in with_points) >= 200


@pytest.mark.long
def test_every_facing_hinge_and_side_folds() -> None:
    """144 uncropped stretches of 3-4-5 with up to three pleats around fold, each order checked."""
    cases = [
        Stretch((shallow, steep), hinges, pleats, facing)
        for shallow in (1, 2, 3)
        for steep in (1, 2, 3)
        for facing, hinges in enumerate(HINGES)
        for pleats in (0, 1, 2, 3)
    ]
    assert len(cases) == 144
    assert compared(map(draw, cases)) == {(True, True): 144}


def test_an_order_with_one_pair_turned_over_is_found_out() -> None:
    """The check of orders sees each of the pairs of an order exchanged, so that it is no empty check."""
    pattern = draw(Stretch((1, 1)))
    found = solve_layers(pattern)
    again = stacking(plain(pattern))
    assert faults_of_order(pattern, found) == []
    turned = 0
    for upper, under in enumerate(found.below):
        for lower in range(len(found.below)):
            if under >> lower & 1:
                below = list(found.below)
                below[upper] ^= 1 << lower
                below[lower] |= 1 << upper
                turned += bool(faults_of_order(pattern, type(found)(True, tuple(below), found.labels)))
    assert turned == len(again.number)


def test_every_sort_is_drawn() -> None:
    """Eight sorts of sheets, in turn."""
    assert len(SORTS) == 8
    assert len({len(pattern.edges) for pattern in assorted(16)}) > 8
