"""Sixty days of five minutes by one rule, and what tests find."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from math import exp
from random import Random

from drills.questions import skill_names
from tests.measure.learners.former import Asked
from tests.measure.learners.learner import MINUTES_A_DAY, Drilled, Learner, drawn, normal
from tests.measure.learners.likeness import likeness
from tests.measure.learners.numbers import Numbers
from tests.measure.learners.numbers_b import NumbersB
from tests.measure.learners.parts import LearnerB, drawn_b
from tests.measure.learners.rules import Answer, Moment, Rule, level_of_drill
from trainer.practice.attempts import levels

START = datetime(2026, 3, 2, 18, tzinfo=UTC)
WELL_PLACED = (0.75, 0.92)
OFF = range(21, 35)
"""The days without practice of who takes two weeks off."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of practice: right a minute by day of test, drills, part well placed, minutes not filled."""

    right_a_minute: dict[int, float]
    drills: int
    right: float
    well_placed: float
    skills_met: int
    levels: float
    minutes_unfilled: float


def learner_of(numbers: Numbers | NumbersB, seed: str) -> Learner | LearnerB:
    """Return the person of a seed, before any practice."""
    if isinstance(numbers, NumbersB):
        return LearnerB(drawn_b(numbers, seed), numbers)
    return Learner(drawn(numbers, seed), numbers, likeness(numbers))


class Practice:
    """One person's practice by one rule; the same seed gives every rule the same luck drill by drill."""

    def __init__(self, learner: Learner | LearnerB, rule: Rule, seed: str) -> None:
        self.learner, self.numbers, self.chances = learner, learner.numbers, list[float]()
        self.drills, self.unfilled = 0, 0.0
        self.rule, self._seed = rule, seed
        self._right = 0

    def outcome(self) -> Outcome:
        """Practise all the days, and test on the days of test."""
        found = {}
        for day in range(max(self.numbers.tested_on) + 1):
            if day in self.numbers.tested_on:
                self.learner.wake(day * MINUTES_A_DAY)
                found[day] = right_a_minute(self.learner, day * MINUTES_A_DAY)
            if day < self.numbers.days and self._comes(day):
                self.sit(day)
        well = sum(WELL_PLACED[0] <= chance <= WELL_PLACED[1] for chance in self.chances)
        reached = [self.rule.level(kind) for kind in levels()]
        return Outcome(
            found,
            self.drills,
            self._right / len(self.chances),
            well / len(self.chances),
            self.rule.met,
            sum(reached) / len(reached),
            self.unfilled,
        )

    def _comes(self, day: int) -> bool:
        """Whether the person practises on a day, the first one always."""
        if self.numbers.comes == "two weeks off":
            return day not in OFF
        often = 4 / 7 if self.numbers.comes == "four days of seven" else 1
        return day == 0 or Random(f"{self._seed} comes {day}").random() < often

    def sit(self, day: int) -> None:
        """Practise until the minutes are over; the drill in hand is finished."""
        self.learner.wake(day * MINUTES_A_DAY)
        self.rule.begin()
        chooses, before, seconds = Random(f"{self._seed} chooses {day}"), list[str](), 0.0
        today = (START + timedelta(days=day)).date()
        while seconds < self.numbers.seconds_a_day:
            minute = day * MINUTES_A_DAY + seconds / 60
            asked = self.rule.choose(Moment(today, chooses, self.learner, minute))
            seconds += self._drill(asked, day, seconds, before)
            before.append(asked.skill)
        self.unfilled += max(0.0, self.numbers.seconds_a_day - seconds) / 60

    def _drill(self, asked: Asked, day: int, seconds: float, before: list[str]) -> float:
        """Do one drill; return its seconds with what is shown after it."""
        luck = Random(f"{self._seed} {day} {len(before)}")
        level, minutes_in = level_of_drill(asked.skill, asked.level), seconds / 60
        minute = day * MINUTES_A_DAY + minutes_in
        chance = self.learner.chance_of_right(asked.skill, level, minute, minutes_in)
        right = luck.random() < chance
        took = self.learner.usual_seconds(asked.skill, level, minute, minutes_in)
        took *= exp(self.numbers.time_spread * normal(luck))
        taken_for = "" if right else self.learner.taken_for(asked.skill, level, minutes_in, luck.random())
        at = START + timedelta(days=day, milliseconds=round(1000 * (seconds + took)))
        result = self.rule.take(asked, Answer(level, right, round(1000 * took), taken_for, at))
        if asked.stage == "alone":
            self.chances.append(chance)
            self._right += right
        self.drills += 1
        drilled = Drilled(asked.skill, level, chance, right, taken_for, asked.stage, tuple(before[-2:]))
        self.learner.learn(drilled, minute + took / 60)
        after = self.numbers.seconds_after_right if result != "miss" else self.numbers.seconds_after_miss
        return took + after


def right_a_minute(learner: Learner | LearnerB, minute: float) -> float:
    """Return right answers a minute over all skills at one level, rested, with nothing learnt from it.

    A skill that the level does not train is tested at the nearest that does, as the app would.
    """
    right = seconds = 0.0
    for skill in skill_names():
        level = level_of_drill(skill, learner.numbers.tested_at_level)
        right += learner.chance_of_right(skill, level, minute)
        # the mean of a lognormal time from its median
        seconds += learner.usual_seconds(skill, level, minute) * exp(learner.numbers.time_spread**2 / 2)
    return 60 * right / seconds
