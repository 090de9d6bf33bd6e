"""Every number of the learner model, each with its source or marked as an assumption."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import inf


@dataclass(frozen=True, slots=True)
class Numbers:
    """What a population of learners is drawn from and how drills go; settled before any rule was run."""

    # H. Ebbinghaus, Memory (1885; tr. 1913), section 29: b = 100 k / ((log10 t)^c + k), t in minutes
    k: float = 1.84
    c: float = 1.25
    # assumption: how far k differs from person to person, as a standard deviation of its logarithm
    k_spread: float = 0.3

    # the exponential law of practice: each drill takes away a constant part of what is left to learn.
    # A. Heathcote, S. Brown, D. J. K. Mewhort, Psychonomic Bulletin & Review 7 (2000) 185-207.
    # the size of that part and how far it differs by person and by skill (log) are assumptions
    rate: float = 0.12
    rate_spread: float = 0.4
    rate_spread_by_skill: float = 0.4

    # generalisation falls as exp(-distance): R. N. Shepard, Science 237 (1987) 1317-1323 (from memory).
    # the distances are assumptions; between kinds nothing is carried over
    distance_if_confusable: float = 1.0
    distance_if_same_but_for_form: float = 1.0
    distance_in_kind: float = 2.0

    # times as much is learnt when one of the two drills before was of a skill easily taken for this one.
    # 1: no such effect is assumed. Mixing is worth g = 0.42 over 59 studies, more where categories look
    # alike: M. Brunmair, T. Richter, Psychological Bulletin 145 (2019) 1029-1052; see VARIANTS
    contrast: float = 1.0

    # logistic in skill minus difficulty: G. Rasch, Probabilistic Models (1960) (from memory), with slips as
    # in A. T. Corbett, J. R. Anderson, User Modeling 4 (1995) 253-278 (from memory); values are assumptions
    logit_at_first: float = -0.5
    logits_to_learn: float = 4.5
    logits_a_level: float = 0.5
    ability_spread: float = 0.7
    difficulty_spread_by_skill: float = 0.7
    slips: float = 0.03

    # the time falls by the same exponential law; the values are assumptions, in seconds at level 1
    seconds_when_learnt: Mapping[str, float] = field(
        default_factory=lambda: {"steps": 3.0, "sinks": 4.0, "labels": 8.0, "find": 4.0}
    )
    times_as_long_at_first: float = 4.0
    times_as_long_a_level: float = 1.12
    speed_spread: float = 0.25
    time_spread: float = 0.35

    # assumption: what a minute of a sitting costs
    tires_logits_a_minute: float = 0.04
    tires_times_a_minute: float = 0.02

    # what the app shows after a right answer; after a miss it waits for a key (assumption)
    seconds_after_right: float = 0.8
    seconds_after_miss: float = 6.0

    days: int = 60
    comes: str = "every day"
    seconds_a_day: float = 300.0
    tested_on: tuple[int, ...] = (30, 60, 90)
    tested_at_level: int = 4


NUMBERS = Numbers()

VARIANTS: Mapping[str, Numbers] = {
    "half the rate of learning": replace(NUMBERS, rate=NUMBERS.rate / 2),
    "twice the rate of learning": replace(NUMBERS, rate=NUMBERS.rate * 2),
    "nothing carried over to other skills": replace(
        NUMBERS,
        distance_if_confusable=inf,
        distance_if_same_but_for_form=inf,
        distance_in_kind=inf,
    ),
    "half as much again learnt by contrast": replace(NUMBERS, contrast=1.5),
    "people and skills all alike": replace(
        NUMBERS,
        k_spread=0.0,
        rate_spread=0.0,
        rate_spread_by_skill=0.0,
        ability_spread=0.0,
        difficulty_spread_by_skill=0.0,
        speed_spread=0.0,
    ),
    "skills twice as uneven": replace(NUMBERS, difficulty_spread_by_skill=1.4),
    "two minutes a day": replace(NUMBERS, seconds_a_day=120.0),
    "four days of seven": replace(NUMBERS, comes="four days of seven"),
    "two weeks off": replace(NUMBERS, comes="two weeks off"),
}
"""What else the model might be: one assumption changed at a time."""
