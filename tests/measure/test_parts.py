"""What model B must show before it is believed."""

from dataclasses import replace
from random import Random
from statistics import mean, variance

import pytest

from drills.questions import partners_of, skill_names
from tests.measure.learners.learner import Drilled
from tests.measure.learners.numbers_b import NUMBERS_B, NumbersB
from tests.measure.learners.parts import LearnerB, drawn_b, taught

ALIKE = replace(
    NUMBERS_B,
    rate_spread=0,
    rate_spread_by_skill=0,
    ability_spread=0,
    difficulty_spread_by_skill=0,
    speed_spread=0,
    forgetting_spread=0,
)
READ = "steps read 1:2"
PAIRS = (("steps read 1:2", "steps read 1:3"), ("sinks mark equal few", "sinks mark unequal"))


def learner(numbers: NumbersB = ALIKE, seed: str = "one") -> LearnerB:
    """Return somebody who has not practised."""
    return LearnerB(drawn_b(numbers, seed), numbers)


def drilled(skill: str = READ, *, right: bool = True, before: tuple[str, ...] = (), **other: str) -> Drilled:
    """Return a drill of level 1 at a fair chance."""
    return Drilled(skill, 1, 0.84, right, other.get("taken_for", ""), "alone", before)


def test_a_drill_teaches_most_at_84_percent_and_little_at_the_ends() -> None:
    """R. C. Wilson and others, Nature Communications 10 (2019) 4646."""
    at = {percent: taught(NUMBERS_B, percent / 100) for percent in range(1, 100)}
    assert max(at, key=at.__getitem__) == 84
    assert at[84] == pytest.approx(1)
    assert at[1] < 0.3
    assert at[99] < 0.6


def test_all_pairs_are_known_to_both_sides() -> None:
    """A pair is one part, whichever of the two is asked."""
    assert all(skill in partners_of(other) for skill in skill_names() for other in partners_of(skill))


def test_a_look_alike_is_taken_in_a_quarter_at_first_and_in_two_percent_when_learnt() -> None:
    """1 / (1 + e^1.1) = 0.25 and 1 / (1 + e^3.9) = 0.02, by hand."""
    found, other = learner(), partners_of(READ)[0]
    assert found.alike(READ, other) / (1 + found.alike(READ, other)) == pytest.approx(0.25, abs=0.001)
    for minute in range(4000):
        found.learn(drilled(before=(other,)), minute / 100)
    assert found.alike(READ, other) / (1 + found.alike(READ, other)) < 0.03


def test_wrong_answers_are_look_alikes_as_often_as_the_model_says() -> None:
    """Over all lucks: the part of what was read and drawn away, among all wrong answers."""
    found, lucks = learner(), [(number + 0.5) / 1000 for number in range(1000)]
    reads, right = found.chance_of_reading(READ, 1), found.chance_of_right(READ, 1, 0)
    taken = [found.taken_for(READ, 1, 0, luck) for luck in lucks]
    assert set(taken) == {"", *partners_of(READ)}
    assert sum(map(bool, taken)) / 1000 == pytest.approx((reads - right) / (1 - right), abs=0.002)


def test_the_best_gap_grows_with_the_delay_and_is_a_smaller_part_of_it() -> None:
    """N. J. Cepeda and others, Psychological Science 19 (2008): 20 to 40 % of a week, 5 to 10 % of a year.

    From memory; nothing here is fitted to it.
    """
    gaps, delays = (0.02, 0.25, 1, 2, 4, 7, 11, 14, 21, 35, 70, 105), (7, 35, 70, 350)
    best = [max(gaps, key=lambda gap, delay=delay: _after(gap, delay)) for delay in delays]  # type: ignore[misc]
    parts = [gap / delay for gap, delay in zip(best, delays, strict=True)]
    assert best == sorted(best)
    assert parts == sorted(parts, reverse=True)
    assert 0.05 <= parts[-1] <= 0.12


def _after(gap: float, delay: float) -> float:
    """Return what is there of a skill's own part after eight drills, a gap, eight more, a delay; in days."""
    found = learner()
    for day in (0.0, gap):
        for _ in range(8):
            found.learn(drilled(), 1440 * day)
    found.come_to(1440 * (gap + delay))
    return found.there("by itself", READ)


@pytest.mark.long
def test_mixing_look_alikes_is_worth_what_the_meta_analysis_says() -> None:
    """A mean of 0.42 spreads: M. Brunmair, T. Richter, Psychological Bulletin 145 (2019) 1029-1052.

    Six drills each of three pairs, mixed or in blocks; a test of 24 questions 15 minutes later.
    """
    pairs = [*PAIRS, ("find pleats", "find roof")]
    blocked = [skill for pair in pairs for skill in pair for _ in range(6)]
    mixed = [skill for _ in range(6) for pair in pairs for skill in pair]
    scores = [[_score(order, number) for number in range(600)] for order in (mixed, blocked)]
    spread = (sum(map(variance, scores)) / 2) ** 0.5
    assert (mean(scores[0]) - mean(scores[1])) / spread == pytest.approx(0.42, abs=0.12)


def _score(order: list[str], number: int) -> float:
    found, luck = learner(NUMBERS_B, f"person {number}"), Random(f"laboratory {number}")
    for place, skill in enumerate(order):
        minute = 0.2 * place
        chance = found.chance_of_right(skill, 1, minute)
        right = luck.random() < chance
        taken_for = "" if right else found.taken_for(skill, 1, 0, luck.random())
        before = tuple(order[max(0, place - 2) : place])
        found.learn(Drilled(skill, 1, chance, right, taken_for, "alone", before), minute)
    found.come_to(0.2 * len(order) + 15)
    asked = [skill for skill in dict.fromkeys(order) for _ in range(4)]
    told = [luck.random() < 1 / (1 + sum(found.alike(s, other) for other in partners_of(s))) for s in asked]
    return mean(told)
