from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.flatfold import (
    Rule,
    balances,
    completions,
    failing,
    folds,
    is_only_repair,
    is_settled_by_counting,
    is_settled_in_full,
    smallest_repairs,
)
from drills.geometry import Chance
from drills.pattern import CreasePattern
from drills.structures import Side, Stretch, draw
from tests.drills.sheets import HINGES, map_sheet, miura, small_stretches, square_twist, star, ways


@given(small_stretches())
def test_one_wrong_label_breaks_the_count_at_exactly_the_interior_ends(stretch: Stretch) -> None:
    """Switching a label moves M - V from 2 to 0 or 4 at each interior end and nowhere else (Maekawa)."""
    pattern = draw(stretch)
    for edge in pattern.creases:
        wrong = pattern.switched([edge])
        assert set(failing(wrong, wrong.labels(), balances)) == set(pattern.interior_ends[edge])


def labelled(pattern: CreasePattern) -> Iterator[CreasePattern]:
    """Yield the pattern with each of its labellings that folds at every point."""
    yield from (pattern.with_labels(labels) for labels in completions(pattern, pattern.labels()))


def single_switches_that_restore(pattern: CreasePattern) -> set[tuple[int, int]]:
    """Return how many single switches restore a sheet with one wrong label, and in how many cases."""
    numbers = []
    for sheet in labelled(pattern):
        for edge in sheet.creases:
            wrong = sheet.switched([edge])
            repairs = smallest_repairs(wrong, wrong.labels(), folds, 1)
            assert frozenset({edge}) in repairs
            numbers.append(len(repairs))
    return {(number, numbers.count(number)) for number in numbers}


PRELIMINARY = star(ways((1, 0), (1, 1), (0, 1), (-1, 0), (-1, -1), (0, -1)))


@pytest.mark.parametrize(
    ("pattern", "numbers"),
    [
        (square_twist(), {(1, 192)}),
        (PRELIMINARY, {(3, 36), (4, 72)}),
        (map_sheet(2, 2), {(4, 32)}),
        pytest.param(map_sheet(3, 3), {(1, 1024), (2, 2048)}, marks=pytest.mark.long),
    ],
)
def test_how_many_single_switches_restore_a_sheet_with_one_wrong_label(
    pattern: CreasePattern, numbers: set[tuple[int, int]]
) -> None:
    """Own values: a square twist names its wrong crease, a map of 2 x 2 never does."""
    assert single_switches_that_restore(pattern) == numbers


def by_trying_all(pattern: CreasePattern, rule: Rule, at_most: int) -> frozenset[frozenset[int]]:
    """Return the smallest repairs found by switching every set of creases up to a size."""
    for size in range(at_most + 1):
        tried = (frozenset(chosen) for chosen in combinations(pattern.creases, size))
        found = frozenset(s for s in tried if not failing(pattern, pattern.switched(s).labels(), rule))
        if found:
            return found
    return frozenset()


SMALL = [draw(Stretch((1, 1))), draw(Stretch((1, 1), pleats=0)), draw(Stretch((2, 1), pleats=0))]
SMALL += [next(labelled(pattern)) for pattern in (map_sheet(3, 3), miura(3, 3), square_twist())]


@pytest.mark.parametrize("rule", [balances, folds])
@pytest.mark.parametrize("pattern", SMALL)
def test_the_smallest_repairs_are_those_that_trying_all_sets_finds(
    pattern: CreasePattern, rule: Rule
) -> None:
    """With one, two and three wrong labels, up to two switches, by counting and by the full test."""
    chance = Chance(f"repairs-{len(pattern.edges)}-{rule.__name__}")
    for number in (0, 1, 1, 1, 2, 2, 2, 3, 3):
        wrong = pattern.switched(chance.shuffled(pattern.creases)[:number])
        assert smallest_repairs(wrong, wrong.labels(), rule, 2) == by_trying_all(wrong, rule, 2)


@given(small_stretches(), st.data())
def test_repairs_repair_and_are_no_larger_than_what_was_switched(
    stretch: Stretch, data: st.DataObject
) -> None:
    """Each smallest repair leaves no failing point, all are of one size, at most that of the switch."""
    pattern = draw(stretch)
    switch = data.draw(st.frozensets(st.sampled_from(pattern.creases), max_size=3))
    wrong = pattern.switched(switch)
    repairs = smallest_repairs(wrong, wrong.labels(), folds, 3)
    sizes = {len(repair) for repair in repairs}
    assert len(sizes) == 1
    assert max(sizes) <= len(switch)
    assert all(not failing(wrong, wrong.switched(repair).labels(), folds) for repair in repairs)


def test_a_sheet_that_folds_needs_no_switch() -> None:
    """The one smallest repair of a sheet that folds is the empty one."""
    pattern = draw(Stretch((2, 2)))
    assert smallest_repairs(pattern, pattern.labels(), folds, 3) == {frozenset()}


def test_without_a_repair_of_the_size_allowed_there_is_none() -> None:
    """Two wrong labels far apart cannot be put right with one switch."""
    pattern = draw(Stretch((2, 2)))
    far_apart = [pattern.around[pattern.interior[0]][0], pattern.around[pattern.interior[-1]][0]]
    wrong = pattern.switched(far_apart)
    assert smallest_repairs(wrong, wrong.labels(), folds, 1) == frozenset()


@pytest.mark.long
@given(small_stretches().filter(lambda stretch: stretch.pleats > 0))
def test_for_one_wrong_label_counting_settles_what_the_full_test_settles(stretch: Stretch) -> None:
    """With pleats around, whichever label is wrong, both rules leave it alone or neither does."""
    pattern = draw(stretch)
    for edge in pattern.creases:
        if pattern.interior_ends[edge]:
            wrong, switched = pattern.switched([edge]), frozenset({edge})
            assert is_settled_by_counting(wrong, switched) == is_settled_in_full(wrong, switched)


@pytest.mark.parametrize("hinges", HINGES)
def test_each_single_wrong_label_of_the_smallest_stretch_is_settled_with_a_pleat_around(
    hinges: tuple[Side, Side],
) -> None:
    """With one pleat around all 21 creases with an interior end are, without none of 9 (own values)."""
    framed, bare = draw(Stretch((1, 1), hinges)), draw(Stretch((1, 1), hinges, pleats=0))
    ended = [edge for edge in framed.creases if framed.interior_ends[edge]]
    assert (len(ended), len(bare.creases)) == (21, 9)
    assert all(is_settled_in_full(framed.switched([edge]), frozenset({edge})) for edge in ended)
    assert not any(is_settled_in_full(bare.switched([edge]), frozenset({edge})) for edge in bare.creases)


@pytest.mark.parametrize("hinges", HINGES)
def test_an_exchanged_mountain_and_valley_is_settled_by_the_full_test_more_often(
    hinges: tuple[Side, Side],
) -> None:
    """Of 34 such pairs on the smallest stretch 22 are their own only repair, 4 by counting (own values)."""
    pattern = draw(Stretch((1, 1), hinges))
    pairs = exchanged_pairs(pattern)
    assert len(pairs) == 34
    assert sum(is_settled_in_full(pattern.switched(pair), pair) for pair in pairs) == 22
    assert sum(is_settled_by_counting(pattern.switched(pair), pair) for pair in pairs) == 4


@pytest.mark.parametrize("rule", [balances, folds])
def test_settled_means_being_the_only_smallest_repair(rule: Rule) -> None:
    """One wrong label of a square twist is; of a 2 x 2 map it is not, nor is a set that is too large."""
    twist, sheet = next(labelled(square_twist())), next(labelled(map_sheet(2, 2)))
    one, two = twist.creases[:2]
    assert is_only_repair(twist.switched([one]), frozenset({one}), folds)
    assert not is_only_repair(twist.switched([one]), frozenset({one, two}), rule)
    assert not is_only_repair(sheet.switched(sheet.creases[:1]), frozenset(sheet.creases[:1]), rule)


def exchanged_pairs(pattern: CreasePattern) -> set[frozenset[int]]:
    """Return the pairs of a mountain and a valley that meet at an interior point."""
    labels = pattern.labels()
    return {
        frozenset(pair)
        for vertex in pattern.interior
        for pair in combinations(pattern.around[vertex], 2)
        if labels[pair[0]] != labels[pair[1]]
    }
