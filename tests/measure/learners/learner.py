"""One simulated learner: learns by each drill, forgets between them, answers right or not, in a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import exp
from random import Random
from statistics import NormalDist
from typing import NamedTuple

from drills.questions import kind_of, partners_of, skill_names
from tests.measure.learners.forgetting import kept
from tests.measure.learners.numbers import Numbers
from trainer.practice.choosing import Stage

MINUTES_A_DAY = 1440


class Drilled(NamedTuple):
    """A drill as it was met: the chance of a right answer, and the skills of the two drills before.

    `taken_for` is the look-alike whose answer was given, empty where there was none.
    """

    skill: str
    level: int
    chance: float
    right: bool
    taken_for: str
    stage: Stage
    before: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Person:
    """What one learner is like: forgetting, speed (1: usual), and for each skill rate and ease (logits)."""

    k: float
    speed: float
    rates: Mapping[str, float]
    ease: Mapping[str, float]


def drawn(numbers: Numbers, seed: str) -> Person:
    """Return the person of a seed."""
    chance = Random(seed)
    k = numbers.k * exp(numbers.k_spread * normal(chance))
    speed = exp(numbers.speed_spread * normal(chance))
    rate = numbers.rate * exp(numbers.rate_spread * normal(chance))
    ability = numbers.ability_spread * normal(chance)
    rates = {s: min(1.0, rate * exp(numbers.rate_spread_by_skill * normal(chance))) for s in skill_names()}
    ease = {s: ability + numbers.difficulty_spread_by_skill * normal(chance) for s in skill_names()}
    return Person(k, speed, rates, ease)


def normal(chance: Random) -> float:
    """Return a standard normal draw, the same on every Python."""
    return NormalDist().inv_cdf(chance.random() or 0.5)


class Learner:
    """A person in the course of practice; times in minutes from the first day on.

    What a drill adds is forgotten on its own curve; a skill's strength, 0 to 1, is the sum of what is
    left. The drills of one day are one addition to all later days, which saves time and changes nothing
    that is seen.
    """

    def __init__(self, person: Person, numbers: Numbers, carried: Mapping[str, Mapping[str, float]]) -> None:
        self.person, self.numbers = person, numbers
        self._carried = carried
        self._before: dict[str, list[tuple[float, float]]] = {skill: [] for skill in skill_names()}
        self._today: list[tuple[float, Mapping[str, float]]] = []
        self._shares: tuple[float, list[float]] = (0.0, [])
        self._left: dict[str, float] = dict.fromkeys(skill_names(), 0.0)

    def wake(self, minute: float) -> None:
        """Begin a day."""
        for skill in skill_names() if self._today else ():
            amount = sum(added.get(skill, 0.0) for _, added in self._today)
            self._before[skill].append((self._today[-1][0], amount))
        self._today.clear()
        self._shares = (minute, [])
        self._left = {skill: self._sum(added, minute) for skill, added in self._before.items()}

    def strength(self, skill: str, minute: float) -> float:
        """Return from 0 to 1 how much of a skill is there, on the day begun last."""
        if self._shares[0] != minute or len(self._shares[1]) != len(self._today):
            k, c = self.person.k, self.numbers.c
            self._shares = (minute, [kept(minute - at, k, c) for at, _ in self._today])
        today = zip(self._shares[1], self._today, strict=True)
        return self._left[skill] + sum(share * added.get(skill, 0.0) for share, (_, added) in today)

    def gains(self, skill: str, minute: float) -> dict[str, float]:
        """Return what a drill adds: a part of what is left to learn, of this skill and of those like it."""
        rates = self.person.rates
        return {
            other: part * rates[other] * (1 - self.strength(other, minute))
            for other, part in self._carried[skill].items()
        }

    def practise(self, skill: str, minute: float, contrasted: bool = False) -> None:
        """Learn from a drill, right or not: the app tells what is true and why."""
        times = self.numbers.contrast if contrasted else 1.0
        added = {other: times * amount for other, amount in self.gains(skill, minute).items()}
        self._today.append((minute, added))

    def learn(self, drill: Drilled, minute: float) -> None:
        """Learn from a drill; of a partner met just before more is learnt, if the numbers say so."""
        self.practise(drill.skill, minute, any(other in partners_of(drill.skill) for other in drill.before))

    def taken_for(self, skill: str, level: int, minutes_in: float, luck: float) -> str:
        """Return nothing: in this model nobody takes one skill for another."""
        return ""

    def chance_of_right(self, skill: str, level: int, minute: float, minutes_in: float = 0.0) -> float:
        """Return the chance of a right answer so many minutes into a sitting."""
        numbers = self.numbers
        logit = numbers.logit_at_first + numbers.logits_to_learn * self.strength(skill, minute)
        logit += self.person.ease[skill] - numbers.logits_a_level * (level - 1)
        logit -= numbers.tires_logits_a_minute * minutes_in
        return (1 - numbers.slips) / (1 + exp(-logit))

    def usual_seconds(self, skill: str, level: int, minute: float, minutes_in: float = 0.0) -> float:
        """Return the median time of an answer in seconds."""
        numbers = self.numbers
        to_learn = 1 - self.strength(skill, minute)
        seconds = numbers.seconds_when_learnt[kind_of(skill)[0]] * self.person.speed
        seconds *= 1 + (numbers.times_as_long_at_first - 1) * to_learn
        seconds *= numbers.times_as_long_a_level ** (level - 1)
        return seconds * (1 + numbers.tires_times_a_minute * minutes_in)

    def _sum(self, added: list[tuple[float, float]], minute: float) -> float:
        k, c = self.person.k, self.numbers.c
        return sum(amount * kept(minute - at, k, c) for at, amount in added)
