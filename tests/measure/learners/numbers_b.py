"""Every number of model B, each with its source or marked as an assumption.

Settled before any rule was run on it. "memory": cited from memory, not looked up again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace


@dataclass(frozen=True, slots=True)
class NumbersB:
    """Parts learnt each by its own error, look-alikes, difficulty, and forgetting on many time scales."""

    # a skill is the sum of parts that it shares with others: its kind's, its form's and its own. Knowledge
    # components as in B. Choffin, F. Popineau, Y. Bourda, J.-J. Vie, EDM 2019 (arXiv 1905.06873); the shares
    # are assumptions
    share_kind: float = 0.30
    share_form: float = 0.20
    share_skill: float = 0.50

    # the part of what is missing that a drill takes away, of the skill's own part as in model A; shared parts
    # are met more often and learn less by each (assumptions)
    rate: float = 0.12
    rate_form: float = 0.5
    rate_kind: float = 0.3
    rate_level: float = 0.6
    rate_spread: float = 0.4
    rate_spread_by_skill: float = 0.4
    highest_rate: float = 0.6

    # how much a drill teaches depends on the chance p of a right answer. R. C. Wilson, A. Shenhav,
    # M. Straccia, J. D. Cohen, Nature Communications 10 (2019) 4646: most at 84 %. Theirs is a choice of
    # two, here answers are open: p^a (1 - p)^b with its top at 0.84; b is an assumption
    best_at: float = 0.84
    flank: float = 0.5
    # the part that does not depend on p, every answer being explained (assumption)
    floor: float = 0.25
    # examples teach beginners (J. Sweller; S. Kalyuga 2003; A. Renkl, memory); how much is an assumption
    worked: float = 0.6
    half: float = 0.8
    # corrected errors teach more: J. Metcalfe, Annual Review of Psychology 68 (2017); by how much: assumption
    after_miss: float = 1.5

    # similarity choice: p(right | read) = 1 / (1 + sum over look-alikes of exp(-distance)). R. D. Luce
    # 1963; R. N. Shepard 1987; R. M. Nosofsky 1986: distance grows with practice (memory). One look-alike is
    # taken in 25 % at first and in 2 % when learnt (assumptions)
    distance_at_first: float = 1.1
    distance_to_learn: float = 2.8
    rate_pair: float = 0.03
    # so many times as much is learnt of the pair when the other was among the two drills before: set so that
    # mixing is worth g = 0.42 in a simulated laboratory (M. Brunmair, T. Richter, Psychological Bulletin
    # 145, 2019). Side by side and not spacing makes it: S. Kang, H. Pashler, Applied Cognitive Psychology 26
    # (2012) 97-103
    contrast: float = 4.5

    # leaky stores on many scales, each learning what it and the quicker ones leave: M. Mozer, H. Pashler,
    # N. Cepeda, R. Lindsey, E. Vul, NIPS 22 (2009). From 10 minutes by factors of 5 to 540 days, equal
    # weights: assumptions. Spacing follows from the structure
    scales: int = 8
    shortest_minutes: float = 10.0
    factor: float = 5.0
    forgetting_spread: float = 0.5

    # answers as in model A, but each level is a part to be learnt (assumptions: 0.8 logits, 0.2 when learnt)
    logit_at_first: float = 0.0
    logits_to_learn: float = 4.5
    level_unlearnt: float = 0.8
    level_learnt: float = 0.2
    ability_spread: float = 0.7
    difficulty_spread_by_skill: float = 0.7
    slips: float = 0.03

    # the time falls with what runs by itself, to which each drill adds, half as much when wrong: G. D. Logan,
    # Psychological Review 95 (1988) (memory); the half is an assumption, and so are the sizes, as in model A
    quick_when_wrong: float = 0.5
    seconds_when_learnt: Mapping[str, float] = field(
        default_factory=lambda: {"steps": 3.0, "sinks": 4.0, "labels": 8.0, "find": 4.0}
    )
    times_as_long_at_first: float = 4.0
    times_as_long_a_level: float = 1.12
    speed_spread: float = 0.25
    time_spread: float = 0.35

    # as in model A (assumptions)
    tires_logits_a_minute: float = 0.04
    tires_times_a_minute: float = 0.02
    seconds_after_right: float = 0.8
    seconds_after_miss: float = 6.0

    days: int = 60
    comes: str = "every day"
    seconds_a_day: float = 300.0
    tested_on: tuple[int, ...] = (30, 60, 90)
    tested_at_level: int = 4


NUMBERS_B = NumbersB()

VARIANTS_B: Mapping[str, NumbersB] = {
    "half the rate of learning": replace(NUMBERS_B, rate=0.06, rate_pair=0.015),
    "twice the rate of learning": replace(NUMBERS_B, rate=0.24, rate_pair=0.06),
    "nothing shared between skills": replace(NUMBERS_B, share_kind=0, share_form=0, share_skill=1),
    "every difficulty teaches alike": replace(NUMBERS_B, floor=1),
    "only fair difficulty teaches": replace(NUMBERS_B, floor=0),
    "nothing gained by contrast": replace(NUMBERS_B, contrast=1),
    "misses teach no more": replace(NUMBERS_B, after_miss=1),
    "people and skills all alike": replace(
        NUMBERS_B,
        rate_spread=0,
        rate_spread_by_skill=0,
        ability_spread=0,
        difficulty_spread_by_skill=0,
        speed_spread=0,
        forgetting_spread=0,
    ),
    "skills twice as uneven": replace(NUMBERS_B, difficulty_spread_by_skill=1.4),
    "levels teach nothing of their own": replace(NUMBERS_B, level_unlearnt=0.5, level_learnt=0.5),
    "the same, and all difficulties alike": replace(NUMBERS_B, level_unlearnt=0.5, level_learnt=0.5, floor=1),
    "able beginners": replace(NUMBERS_B, logit_at_first=2),
    "two minutes a day": replace(NUMBERS_B, seconds_a_day=120),
    "four days of seven": replace(NUMBERS_B, comes="four days of seven"),
    "two weeks off": replace(NUMBERS_B, comes="two weeks off"),
}
"""What else model B might be: one assumption changed at a time."""
