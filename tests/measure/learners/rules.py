"""The rules that are compared: the program's own, the one before, at random, in blocks at fixed intervals."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from datetime import date, datetime, timedelta
from functools import cache
from random import Random
from typing import NamedTuple

from drills.questions import KINDS, codes_for, kind_of, skill_names, skills_at
from progress_store import Attempt, Result, Rules, State
from tests.measure.learners.former import NEW_A_DAY, Asked, Former
from tests.measure.learners.learner import Learner
from tests.measure.learners.parts import LearnerB
from trainer.practice.attempts import floors, levels
from trainer.practice.choosing import Done, History, next_selection

FIXED_DAYS = (1, 3, 7, 14)
RUNNING = 3
"""So many drills of one skill after another fill a block."""


class Moment(NamedTuple):
    """When a drill is to be chosen; the learner, and the minute, are only for who can see into heads."""

    today: date
    chance: Random
    learner: Learner | LearnerB
    minute: float


class Answer(NamedTuple):
    """What was answered: the drill's own level, right or not, the time, and what it was taken for."""

    level: int
    right: bool
    milliseconds: int
    taken_for: str
    at: datetime


class Rule(ABC):
    """A rule with what it remembers of one person."""

    @abstractmethod
    def begin(self) -> None:
        """Begin a sitting."""

    @abstractmethod
    def choose(self, moment: Moment) -> Asked:
        """Return what is asked next."""

    @abstractmethod
    def take(self, asked: Asked, answer: Answer) -> Result:
        """Count an answer in and return how it went."""

    @abstractmethod
    def level(self, kind: str) -> int:
        """Return the level of a kind."""

    @property
    @abstractmethod
    def met(self) -> int:
        """How many skills were met."""

    def open(self) -> list[str]:
        """Return the skills of the person's levels."""
        return [s for s in skill_names() if s in skills_at(*kind_of(s), self.level(kind_of(s)[0]))]

    def at_level(self, skill: str) -> Asked:
        """Return a skill at the person's level."""
        return Asked(skill, self.level(kind_of(skill)[0]))


class Present(Rule):
    """What the program asks: its own choosing over its own state."""

    def __init__(self) -> None:
        self.state, self.history = State(Rules(floors(), levels())), History()

    def begin(self) -> None:
        """Begin a sitting."""
        self.history = History()

    def choose(self, moment: Moment) -> Asked:
        """Return what the program asks next."""
        chosen = next_selection(self.state, moment.today, self.history)
        return Asked(chosen.skill, chosen.level, chosen.stage)

    def take(self, asked: Asked, answer: Answer) -> Result:
        """Count an answer in as the program does; a worked drill has none."""
        result: Result = "clean"
        if asked.stage != "worked":
            self.state, judged = self.state.step(_attempt(asked, answer))
            result = judged.result
        done = Done(asked.skill, kind_of(asked.skill)[0], result, answer.taken_for, asked.stage)
        self.history = self.history.with_drill(done)
        return result

    def level(self, kind: str) -> int:
        """Return the level of a kind."""
        return self.state.level(kind)

    @property
    def met(self) -> int:
        """How many skills were met."""
        return len(self.state.skills)


class OfBefore(Rule):
    """The rule that the program had before."""

    def __init__(self) -> None:
        self.former = Former()

    def begin(self) -> None:
        """Begin a sitting."""
        self.former.begin()

    def choose(self, moment: Moment) -> Asked:
        """Return what it asks next."""
        return self.former.next(moment.today)

    def take(self, asked: Asked, answer: Answer) -> Result:
        """Count an answer in."""
        today = (answer.at - timedelta(hours=4)).date()
        return self.former.take(asked, answer.level, answer.right, answer.milliseconds, today)

    def level(self, kind: str) -> int:
        """Return the level of a kind."""
        return self.former.level(kind)

    @property
    def met(self) -> int:
        """How many skills were met."""
        return len(self.former.skills)


class AtRandom(OfBefore):
    """Any skill of the person's levels, which move as they did before."""

    def choose(self, moment: Moment) -> Asked:
        """Return any open skill."""
        return any_of(self, moment.chance)


class AtRandomNow(Present):
    """Any skill of the person's levels, which move as they do now."""

    def choose(self, moment: Moment) -> Asked:
        """Return any open skill."""
        return any_of(self, moment.chance)


class InBlocks(OfBefore):
    """What comes round today, kind after kind; then two new; then more of the kind in hand.

    The kinds are gone through one after the other; when all is met they take turns by day.
    """

    def choose(self, moment: Moment) -> Asked:
        """Return what comes next in the blocks."""
        today, known = moment.today, self.former.skills
        met = [skill for skill in skill_names() if skill in known and not self.former.times(skill)]
        round_again = [skill for skill in met if comes_round(known[skill].first_day, today)]
        if round_again:
            return self.at_level(round_again[0])
        new_today = sum(each.first_day == today for each in known.values())
        unmet = [skill for skill in self.open() if skill not in known]
        if unmet and new_today < NEW_A_DAY:
            return self.at_level(unmet[0])
        kind = list(KINDS)[today.toordinal() % len(KINDS)]
        if unmet or new_today:
            kind = kind_of(max(known, key=lambda skill: known[skill].first_day))[0]
        block = [skill for skill in skill_names() if skill in known and kind_of(skill)[0] == kind]
        return self.at_level(block[len(self.former.done) // RUNNING % len(block)])


def any_of(rule: Rule, chance: Random) -> Asked:
    """Return any skill of the person's levels."""
    among = rule.open()
    return rule.at_level(among[int(chance.random() * len(among))])


def comes_round(first: date, today: date) -> bool:
    """Whether a fixed interval ends today: of 1 day after the first day, then 3, 7, then 14 for ever."""
    left = (today - first).days
    for days in FIXED_DAYS[:-1]:
        left -= days
        if left <= 0:
            return left == 0
    return left % FIXED_DAYS[-1] == 0


@cache
def level_of_drill(skill: str, level: int) -> int:
    """Return the level of the drill that is made: the nearest that trains the skill."""
    return next(codes_for(skill, level, 0)).level


def _attempt(asked: Asked, answer: Answer) -> Attempt:
    kind, form = kind_of(asked.skill)
    half = asked.stage == "half"
    return Attempt(
        id="simulated",
        at=answer.at,
        offset_minutes=0,
        code="simulated",
        kind=kind,
        form=form,
        level=answer.level,
        marks=1,
        skill=asked.skill,
        right=answer.right,
        helped=half,
        milliseconds=answer.milliseconds,
        inputs=1,
        purpose="walk" if half else "today",
    )


RULES: Mapping[str, Callable[[], Rule]] = {
    "present rule": Present,
    "former rule": OfBefore,
    "at random": AtRandom,
    "at random, levels as now": AtRandomNow,
    "in blocks": InBlocks,
}
