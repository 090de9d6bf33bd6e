"""The first fortnight of a strong and of a weak learner by script: their levels, and what they were told."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import NamedTuple, cast

import pytest

from drills.geometry import Chance
from drills.questions import Code, Drill, Verdict, kind_of, skill_of
from progress_store import Store
from tests.trainer.practice.making import START, WRONG, Hands, measured, store
from trainer.practice.making import Wanted
from trainer.practice.placing import kinds_placed, placing
from trainer.practice.rounds import today
from trainer.practice.session import PracticeSession
from trainer.practice.words import RECENT, Promise, drills_in, promise

DAYS = (1, 2, 4, 7, 14)
RIGHT = Verdict(True, "", "", "")


class Learner(NamedTuple):
    """How many of a hundred are right, up to which level, and after how many seconds."""

    right: int
    up_to: int
    seconds: float


STRONG, WEAK = Learner(100, 5, 15), Learner(45, 2, 45)


class Day(NamedTuple):
    """What was said before a round and what came: new skills, and skills that were owed."""

    said: Promise
    new: int
    again: int
    levels: dict[str, int]


def practised(folder: Path, learner: Learner) -> list[Day]:
    """Let a learner be placed and practise on some days; what is chosen needs no sheet to be made."""
    hands, chance, days = Hands(), Chance(f"first days {learner}"), list[Day]()
    with store(folder, hands) as kept:
        for day in DAYS:
            hands.now = START + timedelta(days=day - 1)
            if day == 1:
                _goes_through(placing(kept, hands.clock), hands, learner, chance)
            days.append(_day(kept, hands, learner, chance))
    return days


def _day(kept: Store, hands: Hands, learner: Learner, chance: Chance) -> Day:
    before = kept.state
    number = drills_in(kept.settings.minutes_a_day, kept.latest(RECENT))
    said = promise(before, kept.today, number)
    came = _goes_through(today(kept, hands.clock), hands, learner, chance)
    owed = {skill for skill, known in before.skills.items() if known.owed}
    return Day(
        said,
        len(set(came) - before.skills.keys()),
        len(owed & set(came)),
        {kind: kept.state.level(kind) for kind in kinds_placed()},
    )


def _goes_through(session: PracticeSession, hands: Hands, learner: Learner, chance: Chance) -> list[str]:
    came = list[str]()
    while drill := session.next_drill(_named):
        came.append(drill.skill)
        is_right = drill.level <= learner.up_to and chance.below(100) < learner.right
        hands.wait(learner.seconds)
        if session.stage == "worked":
            session.looked_at(drill)
        else:
            session.keep(drill, RIGHT if is_right else WRONG, measured(round(1000 * learner.seconds)), False)
    return came


def _named(code: Wanted) -> Drill:
    """Return what is kept of a drill, without its sheet."""
    assert isinstance(code, Code)
    skill = skill_of(code)
    kind, form = kind_of(skill)
    named = {"code": str(code), "kind": kind, "form": form, "level": code.level, "skill": skill}
    return cast("Drill", SimpleNamespace(**named, question=SimpleNamespace(marks=1)))


@pytest.fixture(scope="module")
def strong(tmp_path_factory: pytest.TempPathFactory) -> list[Day]:
    """Return the days of one who reads well."""
    return practised(tmp_path_factory.mktemp("strong"), STRONG)


@pytest.fixture(scope="module")
def weak(tmp_path_factory: pytest.TempPathFactory) -> list[Day]:
    """Return the days of one who is slow and misses the most."""
    return practised(tmp_path_factory.mktemp("weak"), WEAK)


def test_what_is_said_before_a_round_comes(strong: list[Day], weak: list[Day]) -> None:
    """On every day as many new skills and returns as were said, however few drills there is time for."""
    for days in (strong, weak):
        assert any(day.said.new for day in days)
        assert all(day.new >= day.said.new for day in days)
        assert all(day.again >= day.said.again for day in days)
    assert any(day.said.again for day in weak)


def test_a_strong_learner_is_at_level_4_by_the_second_day(strong: list[Day]) -> None:
    """In every kind that is placed."""
    assert min(strong[1].levels.values()) >= 4


def test_a_weak_learner_stays_near_what_goes_right(weak: list[Day]) -> None:
    """Never above level 3 where nothing above 2 is right."""
    assert all(max(day.levels.values()) <= 3 for day in weak)
