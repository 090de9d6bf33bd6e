"""Sixty days of five minutes by one rule, and what tests find."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from math import exp
from random import Random

from drills.questions import kind_of, partners_of, skill_names
from progress_store import Attempt, Result, Rules, State
from tests.measure.learners.learner import MINUTES_A_DAY, Learner, Person, normal
from tests.measure.learners.likeness import likeness
from tests.measure.learners.numbers import Numbers
from tests.measure.learners.rules import Moment, Rule, level_of_drill
from trainer.practice.attempts import floors, levels
from trainer.practice.choosing import Done, History, Selection

START = datetime(2026, 3, 2, 18, tzinfo=UTC)
WELL_PLACED = (0.75, 0.92)


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


class Practice:
    """One person's practice by one rule; the same seed gives every rule the same luck drill by drill."""

    def __init__(self, person: Person, rule: Rule, numbers: Numbers, seed: str) -> None:
        self.learner = Learner(person, numbers, likeness(numbers))
        self.state = State(Rules(floors(), levels()))
        self.numbers, self.chances = numbers, list[float]()
        self.drills, self.unfilled = 0, 0.0
        self._rule, self._seed = rule, seed
        self._right = 0

    def outcome(self) -> Outcome:
        """Practise all the days, and test on the days of test."""
        found = {}
        for day in range(max(self.numbers.tested_on) + 1):
            if day in self.numbers.tested_on:
                self.learner.wake(day * MINUTES_A_DAY)
                found[day] = right_a_minute(self.learner, day * MINUTES_A_DAY)
            if day < self.numbers.days:
                self.sit(day)
        well = sum(WELL_PLACED[0] <= chance <= WELL_PLACED[1] for chance in self.chances)
        reached = [self.state.level(kind) for kind in levels()]
        return Outcome(
            found,
            self.drills,
            self._right / len(self.chances),
            well / len(self.chances),
            len(self.state.skills),
            sum(reached) / len(reached),
            self.unfilled,
        )

    def sit(self, day: int) -> None:
        """Practise until the minutes are over; the drill in hand is finished."""
        self.learner.wake(day * MINUTES_A_DAY)
        chooses = Random(f"{self._seed} chooses {day}")
        today = (START + timedelta(days=day)).date()
        session, seconds = History(), 0.0
        while seconds < self.numbers.seconds_a_day:
            minute = day * MINUTES_A_DAY + seconds / 60
            choice = self._rule(Moment(self.state, today, session, chooses, self.learner, minute))
            done, took = self._drill(choice, day, seconds, session)
            session, seconds = session.with_drill(done), seconds + took
        self.unfilled += max(0.0, self.numbers.seconds_a_day - seconds) / 60

    def _drill(self, choice: Selection, day: int, seconds: float, session: History) -> tuple[Done, float]:
        """Do one drill; return it and its seconds with what is shown after it."""
        luck = Random(f"{self._seed} {day} {len(session.done)}")
        level, minutes_in = level_of_drill(choice.skill, choice.level), seconds / 60
        minute = day * MINUTES_A_DAY + minutes_in
        chance = self.learner.chance_of_right(choice.skill, level, minute, minutes_in)
        right = luck.random() < chance
        took = self.learner.usual_seconds(choice.skill, level, minute, minutes_in)
        took *= exp(self.numbers.time_spread * normal(luck))
        result = self._kept(choice, level, right, took, day, seconds)
        if choice.stage == "alone":
            self.chances.append(chance)
            self._right += right
        self.drills += 1
        contrasted = any(done.skill in partners_of(choice.skill) for done in session.done[-2:])
        self.learner.practise(choice.skill, minute + took / 60, contrasted)
        after = self.numbers.seconds_after_right if result != "miss" else self.numbers.seconds_after_miss
        return Done(choice.skill, choice.kind, result, stage=choice.stage), took + after

    def _kept(
        self, choice: Selection, level: int, right: bool, took: float, day: int, seconds: float
    ) -> Result:
        """Take an answer into the state, as the app does; a worked drill has none."""
        if choice.stage == "worked":
            return "clean"
        half = choice.stage == "half"
        at = START + timedelta(days=day, milliseconds=round(1000 * (seconds + took)))
        self.state, judged = self.state.step(
            Attempt(
                id="simulated",
                at=at,
                offset_minutes=0,
                code="simulated",
                kind=choice.kind,
                form=kind_of(choice.skill)[1],
                level=level,
                marks=1,
                skill=choice.skill,
                right=right,
                helped=half,
                milliseconds=round(1000 * took),
                inputs=1,
                purpose="walk" if half else "today",
            )
        )
        return judged.result


def right_a_minute(learner: Learner, minute: float) -> float:
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
