from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.geometry import Chance


def test_a_seed_draws_the_same_numbers_on_every_system() -> None:
    """The first draws of three seeds are pinned; another value would change every drill."""
    chance = Chance("a")
    assert [chance.below(100) for _ in range(5)] == PINNED
    assert [Chance("labels-3-41").below(1000), Chance("").below(1000)] == PINNED_FIRST


PINNED = [2, 41, 22, 44, 93]
PINNED_FIRST = [110, 651]


def test_words_that_would_favour_small_numbers_are_drawn_anew() -> None:
    """With a bound just above half of all 64-bit words, two of the first three words are passed over."""
    assert Chance("a").below(2**63 + 1) == 1121445756018291422


seeds = st.text(max_size=12)
bounds = st.integers(min_value=1, max_value=2**64)


@given(seeds, st.lists(bounds, max_size=8))
def test_draws_stay_below_their_bound_and_come_again(seed: str, limits: list[int]) -> None:
    """Each draw is from 0 to its bound less 1, and the same seed repeats them all."""
    one, two = Chance(seed), Chance(seed)
    drawn = [one.below(limit) for limit in limits]
    assert all(0 <= number < limit for number, limit in zip(drawn, limits, strict=True))
    assert drawn == [two.below(limit) for limit in limits]


@given(seeds, st.lists(st.integers(), max_size=12))
def test_shuffling_keeps_the_items(seed: str, items: list[int]) -> None:
    """A shuffled list holds the same items as often, and the list given is left alone."""
    before = list(items)
    assert Counter(Chance(seed).shuffled(items)) == Counter(items)
    assert items == before


def test_every_order_is_about_equally_likely() -> None:
    """Of 6000 shuffles of three items each of the six orders comes 1000 times, give or take 120."""
    chance = Chance("orders")
    seen = Counter(tuple(chance.shuffled("abc")) for _ in range(6000))
    assert len(seen) == 6
    assert all(abs(number - 1000) < 120 for number in seen.values())


def test_one_in_and_pick_are_about_as_often_as_they_say() -> None:
    """One in five is a fifth of 5000 draws within 150, and each of four items a quarter."""
    chance = Chance("often")
    assert abs(sum(chance.one_in(5) for _ in range(5000)) - 1000) < 150
    assert all(abs(n - 1250) < 150 for n in Counter(chance.pick("abcd") for _ in range(5000)).values())


def test_a_branch_neither_shifts_nor_follows_its_parent() -> None:
    """Branching takes no draw, and a branch is the same however far its parent has drawn."""
    one, two = Chance("root"), Chance("root")
    early = one.branch("leaf").below(10**9)
    assert one.below(10**9) == two.below(10**9)
    assert two.branch("leaf").below(10**9) == early
    assert one.branch("other").below(10**9) != early


def test_nothing_can_be_picked_from_nothing() -> None:
    """It is refused in words."""
    with pytest.raises(ValueError, match="nothing to pick from"):
        Chance("none").pick(())
