"""A month and more of practice by script: late nights, a journey west, 25 days away, two yardsticks."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta, timezone
from pathlib import Path
from random import Random
from typing import NamedTuple

from drills.questions import Drill, Verdict
from progress_store import Store
from tests.trainer.practice.making import Hands, store
from trainer.practice import rounds
from trainer.practice.attempts import Measured
from trainer.practice.placing import placing
from trainer.practice.session import PracticeSession
from trainer.practice.yardstick import yardstick

HOME, WEST = timezone(timedelta(hours=1)), timezone(timedelta(hours=-5))
FIRST = datetime(2026, 3, 2, 20, tzinfo=HOME)
LAST_DAY = 39


class Sit(NamedTuple):
    """One session: on which day counted from 0, at which local hour and minute, and what is done."""

    day: int
    hour: int
    minute: int
    done: str
    most: int = 999


SCRIPT = (
    Sit(0, 20, 0, "placing"),
    Sit(0, 20, 10, "today"),
    Sit(1, 20, 0, "today"),
    Sit(2, 23, 58, "today"),
    Sit(4, 3, 57, "today"),  # the night after day 3, running past 04:00 into day 4
    Sit(4, 20, 0, "today"),
    Sit(5, 20, 0, "yardstick"),
    Sit(6, 2, 30, "today"),  # still day 5
    Sit(7, 20, 0, "today"),
    Sit(8, 20, 0, "today"),
    Sit(9, 20, 0, "today"),
    Sit(10, 7, 0, "today"),
    Sit(11, 21, 0, "today"),
    Sit(36, 20, 0, "today"),  # 25 days later, six hours west
    Sit(37, 9, 0, "yardstick", 7),
    Sit(37, 20, 0, "today"),
    Sit(37, 22, 0, "yardstick"),  # what was left of it
    Sit(38, 20, 0, "today"),
    Sit(39, 3, 0, "today"),  # still day 38
    Sit(LAST_DAY, 20, 0, "today"),
)


def practise(folder: Path, script: tuple[Sit, ...] = SCRIPT) -> Hands:
    """Practise by the script on a data folder and return the hands of the clock."""
    hands, chance = Hands(FIRST), Random(3)
    with store(folder, hands) as kept:
        for sit in script:
            hands.now = _at(sit)
            _sit(_round(sit.done)(kept, hands.clock), kept, hands, chance, sit.most)
    return hands


def _at(sit: Sit) -> datetime:
    zone = HOME if sit.day < 30 else WEST
    return datetime(2026, 3, 2, sit.hour, sit.minute, tzinfo=zone) + timedelta(days=sit.day)


def _round(done: str) -> Callable[..., PracticeSession]:
    return {"placing": placing, "today": rounds.today, "yardstick": yardstick}[done]


def _sit(session: PracticeSession, kept: Store, hands: Hands, chance: Random, most: int) -> None:
    answered = 0
    while answered < most and (drill := session.next_drill()) is not None:
        if session.stage == "worked":
            session.looked_at(drill)
            continue
        milliseconds = chance.randrange(3000, 25_000)
        hands.wait(milliseconds / 1000)
        measured = Measured(None if chance.random() < 0.05 else milliseconds, 1, (), "keys")
        session.keep(drill, _verdict(drill, kept, chance), measured, helped=chance.random() < 0.05)
        answered += 1


def _verdict(drill: Drill, kept: Store, chance: Random) -> Verdict:
    """Return mostly right verdicts; every third wrong one is the answer of another skill of the kind."""
    if chance.random() < 0.8:
        slips = drill.kind == "steps" and chance.random() < 0.2
        return (
            Verdict(True, "", "", "", slip="not smallest")
            if slips
            else drill.judge(drill.question.right_answer(drill))
        )
    marked = ((1, 0), (2, 0), (0, 1), (1, 1))
    missed, wrongly = (1, 0) if drill.kind == "steps" else chance.choice(marked)
    others = [skill for skill, known in kept.state.skills.items() if known.kind == drill.kind]
    other = chance.choice(others) if len(others) > 1 and chance.random() < 1 / 3 else ""
    return Verdict(False, "", "", "", missed, wrongly, taken_for="" if other == drill.skill else other)
