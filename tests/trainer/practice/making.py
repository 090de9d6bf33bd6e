"""A clock that tests turn on by hand, stores, states and rounds for the tests of practice."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from drills.questions import KINDS, Drill, Verdict, kind_of
from progress_store import Attempt, Judged, Rules, State, Store, open_store
from tests.drills.questions.codes import right_answer
from trainer.given import Clock
from trainer.practice.attempts import Measured, floors, levels
from trainer.practice.session import PracticeSession

RULES = Rules(floors(), levels())
START = datetime(2026, 3, 2, 18, 30, tzinfo=timezone(timedelta(hours=1)))
TODAY = START.date()
WRONG = Verdict(False, "You answered.", "It is not so.", "Because.", misses=1)


FOUR = ("steps", "sinks", "labels", "find")
"""The kinds that tests reckon with which count them or their skills."""


@pytest.fixture
def four_kinds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave out every kind but four, whatever else there is."""
    for kind in KINDS.keys() - set(FOUR):
        monkeypatch.delitem(KINDS, kind)


class Hands:
    """The hands of a clock: seconds pass only when they are moved."""

    def __init__(self, now: datetime = START) -> None:
        self.now, self.ticks = now, 1000.0

    @property
    def clock(self) -> Clock:
        """The clock with these hands."""
        return Clock(lambda: self.now, lambda: self.ticks)

    def wait(self, seconds: float) -> None:
        """Let seconds pass."""
        self.now += timedelta(seconds=seconds)
        self.ticks += seconds


def store(folder: Path, hands: Hands) -> Store:
    """Return the store of a folder."""
    return open_store(folder, lambda: hands.now, floors(), levels())


def measured(milliseconds: int | None = 4000) -> Measured:
    """Return what the watch saw of an answer given with one key."""
    return Measured(milliseconds, 1, (), "keys")


def answer(
    session: PracticeSession, hands: Hands, drill: Drill, right: bool = True, seconds: float = 4
) -> Judged:
    """Answer a drill after some seconds."""
    hands.wait(seconds)
    verdict = drill.judge(right_answer(drill)) if right else WRONG
    return session.keep(drill, verdict, measured(round(1000 * seconds)), helped=False)


def go_through(
    session: PracticeSession, hands: Hands, drill: Drill, right: bool = True, seconds: float = 4
) -> None:
    """Answer a drill after some seconds, or look so long at one that is worked."""
    if session.stage == "worked":
        hands.wait(seconds)
        session.looked_at(drill)
    else:
        answer(session, hands, drill, right, seconds)


def played(
    session: PracticeSession,
    hands: Hands,
    seconds: float = 20,
    is_right: Callable[[int, Drill], bool] = lambda *_: True,
) -> list[Drill]:
    """Answer drills until the round is over, each after so many seconds; return them."""
    drills: list[Drill] = []
    while (drill := session.next_drill()) is not None:
        go_through(session, hands, drill, is_right(len(drills), drill), seconds)
        drills.append(drill)
        assert len(drills) < 200
    return drills


def attempt(skill: str, day: date, number: int = 0, level: int = 0, **changes: Any) -> Attempt:
    """Return a right answer to a drill of a skill, `number` minutes after noon UTC of a day.

    Level 0 stands for the lowest of the kind.
    """
    kind, form = kind_of(skill)
    level = level or KINDS[kind].lowest
    usual: dict[str, Any] = {
        "id": f"{day}-{number:04}",
        "at": datetime(day.year, day.month, day.day, 12, tzinfo=UTC) + timedelta(minutes=number),
        "offset_minutes": 0,
        "code": f"{kind}-{level}-{number}",
        "kind": kind,
        "form": form,
        "level": level,
        "marks": 1,
        "skill": skill,
        "right": True,
        "milliseconds": 4000,
        "inputs": 1,
    }
    return Attempt(**(usual | changes))


def state_of(attempts: Iterable[Attempt]) -> State:
    """Return the state after attempts."""
    return State.of(attempts, RULES)


def skills_of_every_form() -> list[str]:
    """Return the first skill of each form of each kind, kind after kind."""
    first = {kind_of(skill): skill for kind in KINDS for skill in reversed(list(KINDS[kind].skills))}
    return [first[kind, form] for kind, entry in KINDS.items() for form in entry.forms]


def first_skills(*kinds: str) -> list[str]:
    """Return the first skill of each kind."""
    return [next(iter(KINDS[kind].skills)) for kind in kinds or KINDS]
