"""A learner of model B: parts that skills share, pairs taken for each other, many scales of time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import exp
from random import Random

import numpy as np
from numpy.typing import NDArray

from drills.questions import kind_of, partners_of, skill_names, top_level
from tests.measure.learners.learner import Drilled, normal
from tests.measure.learners.numbers_b import NumbersB

_RATE_USUAL = 0.12
"""The rate that the numbers of pairs are given for."""


@dataclass(frozen=True, slots=True)
class PersonB:
    """What one learner is like: speed and time scales (1: usual); for each skill rate and ease (logits)."""

    speed: float
    scales: float
    rates: Mapping[str, float]
    ease: Mapping[str, float]


def drawn_b(numbers: NumbersB, seed: str) -> PersonB:
    """Return the person of a seed."""
    chance = Random(f"B {seed}")
    scales = exp(numbers.forgetting_spread * normal(chance))
    speed = exp(numbers.speed_spread * normal(chance))
    rate = numbers.rate * exp(numbers.rate_spread * normal(chance))
    ability = numbers.ability_spread * normal(chance)
    by_skill = numbers.rate_spread_by_skill
    rates = {s: min(numbers.highest_rate, rate * exp(by_skill * normal(chance))) for s in skill_names()}
    ease = {s: ability + numbers.difficulty_spread_by_skill * normal(chance) for s in skill_names()}
    return PersonB(speed, scales, rates, ease)


class LearnerB:
    """A person in the course of practice; times in minutes from the first day on.

    Each part is a row of stores, one a time scale: for reading and for what runs by itself by kind, form and
    skill; for each level of a kind; for each pair that is taken for each other.
    """

    def __init__(self, person: PersonB, numbers: NumbersB) -> None:
        self.person, self.numbers = person, numbers
        self._rows = rows()
        scales = np.arange(numbers.scales)
        self._tau = numbers.shortest_minutes * numbers.factor**scales * person.scales
        self._stores = np.zeros((len(self._rows), numbers.scales))
        self._places = scales + 1
        self._minute = 0.0
        self._there: NDArray[np.float64] | None = None

    def wake(self, minute: float) -> None:
        """Begin a day."""
        self.come_to(minute)

    def come_to(self, minute: float) -> None:
        """Let time pass."""
        if minute > self._minute:
            self._stores *= np.exp(-(minute - self._minute) / self._tau)
            self._minute, self._there = minute, None

    def there(self, *row: object) -> float:
        """Return from 0 to 1 how much of a part is there."""
        if self._there is None:
            self._there = (self._stores.sum(axis=1) / self.numbers.scales).clip(0, 1)
        return float(self._there[self._rows[row]])

    def strength(self, skill: str, store: str = "read") -> float:
        """Return from 0 to 1 how much of a skill is there, to be read or by itself."""
        numbers, (kind, form) = self.numbers, kind_of(skill)
        return (
            numbers.share_kind * self.there(store, kind)
            + numbers.share_form * self.there(store, kind, form)
            + numbers.share_skill * self.there(store, skill)
        )

    def chance_of_reading(self, skill: str, level: int, minutes_in: float = 0.0) -> float:
        """Return the chance that all but the choice among look-alikes goes right."""
        numbers, (kind, _) = self.numbers, kind_of(skill)
        logit = numbers.logit_at_first + self.person.ease[skill]
        logit += numbers.logits_to_learn * self.strength(skill)
        for each in range(2, level + 1):
            learnt = self.there("level", kind, each)
            logit -= numbers.level_unlearnt + (numbers.level_learnt - numbers.level_unlearnt) * learnt
        logit -= numbers.tires_logits_a_minute * minutes_in
        return (1 - numbers.slips) / (1 + exp(-logit))

    def alike(self, skill: str, other: str) -> float:
        """Return how much a look-alike draws an answer away; 1 is as much as the right one does."""
        numbers = self.numbers
        learnt = self.there("pair", *sorted((skill, other)))
        return exp(-numbers.distance_at_first - numbers.distance_to_learn * learnt)

    def chance_of_right(self, skill: str, level: int, minute: float, minutes_in: float = 0.0) -> float:
        """Return the chance of a right answer so many minutes into a sitting."""
        self.come_to(minute)
        drawn_away = sum(self.alike(skill, other) for other in partners_of(skill))
        return self.chance_of_reading(skill, level, minutes_in) / (1 + drawn_away)

    def usual_seconds(self, skill: str, level: int, minute: float, minutes_in: float = 0.0) -> float:
        """Return the median time of an answer in seconds."""
        self.come_to(minute)
        numbers = self.numbers
        seconds = numbers.seconds_when_learnt[kind_of(skill)[0]] * self.person.speed
        seconds *= 1 + (numbers.times_as_long_at_first - 1) * (1 - self.strength(skill, "by itself"))
        seconds *= numbers.times_as_long_a_level ** (level - 1)
        return seconds * (1 + numbers.tires_times_a_minute * minutes_in)

    def taken_for(self, skill: str, level: int, minutes_in: float, luck: float) -> str:
        """Return what is answered in place of a skill in a wrong answer, empty where it is no look-alike."""
        others = {other: self.alike(skill, other) for other in partners_of(skill)}
        reads = self.chance_of_reading(skill, level, minutes_in)
        right = reads / (1 + sum(others.values()))
        left = luck * (1 - right)
        for other, alike in others.items():
            left -= right * alike
            if left < 0:
                return other
        return ""

    def learn(self, drill: Drilled, minute: float) -> None:
        """Learn from a drill: each part takes away of what it lacks itself."""
        self.come_to(minute)
        numbers, rate = self.numbers, self.person.rates[drill.skill]
        read = rate * self._teaches(drill)
        by_itself = {"worked": 0.0, "half": 0.5}.get(
            drill.stage, 1.0 if drill.right else numbers.quick_when_wrong
        )
        kind, form = kind_of(drill.skill)
        for store, amount in (("read", read), ("by itself", rate * by_itself)):
            self._add(amount * numbers.rate_kind, store, kind)
            self._add(amount * numbers.rate_form, store, kind, form)
            self._add(amount, store, drill.skill)
        for level in range(2, drill.level + 1):
            self._add(read * numbers.rate_level, "level", kind, level)
        for other in partners_of(drill.skill):
            amount = numbers.rate_pair * rate / _RATE_USUAL
            amount *= numbers.contrast if other in drill.before else 1
            amount *= numbers.after_miss if other == drill.taken_for else 1
            self._add(amount, "pair", *sorted((drill.skill, other)))
        self._there = None

    def _teaches(self, drill: Drilled) -> float:
        numbers = self.numbers
        if drill.stage != "alone":
            return numbers.worked if drill.stage == "worked" else numbers.half
        return taught(numbers, drill.chance) * (1 if drill.right else numbers.after_miss)

    def _add(self, amount: float, *row: object) -> None:
        """Add to a row as the multiscale context model does: each scale what it and the quicker ones lack."""
        stores = self._stores[self._rows[row]]
        stores += min(1.0, amount) * (1 - stores.cumsum() / self._places)

    def kept(self, days: float, *row: object) -> float:
        """Return how much of what one more drill would add to a row is there days later, at rate 1."""
        stores = self._stores[self._rows[row]]
        left = np.exp(-1440 * days / self._tau) / self.numbers.scales
        return max(0.0, float(left @ (1 - stores.cumsum() / self._places)))


def taught(numbers: NumbersB, chance: float) -> float:
    """Return how much a drill teaches at a chance of a right answer, against one at the best chance."""
    up, down = numbers.flank * numbers.best_at / (1 - numbers.best_at), numbers.flank
    chance = min(max(chance, 1e-6), 1 - 1e-6)
    top: float = numbers.best_at**up * (1 - numbers.best_at) ** down
    at_chance: float = chance**up * (1 - chance) ** down
    return numbers.floor + (1 - numbers.floor) * at_chance / top


@cache
def rows() -> Mapping[tuple[object, ...], int]:
    """Return the place of each part's row."""
    kinds = {kind_of(skill)[0] for skill in skill_names()}
    forms = {kind_of(skill) for skill in skill_names()}
    parts = [*((kind,) for kind in sorted(kinds)), *sorted(forms), *((skill,) for skill in skill_names())]
    pairs = {tuple(sorted((skill, other))) for skill in skill_names() for other in partners_of(skill)}
    names: list[tuple[object, ...]] = [(store, *part) for store in ("read", "by itself") for part in parts]
    names += [("level", kind, level) for kind in sorted(kinds) for level in range(2, top_level() + 1)]
    names += [("pair", *pair) for pair in sorted(pairs)]
    return {name: place for place, name in enumerate(names)}
