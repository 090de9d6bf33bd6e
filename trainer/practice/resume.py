"""A round of the day that was left: what is remembered, so that it can be taken up the same day."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drills.questions import read_code, skill_names
from progress_store import Store
from trainer.practice.choosing import Done, History, Selection
from trainer.practice.session import Planned, PracticeSession

LEAST_SECONDS = 10
"""A round with less time left than this is over."""


def left_of(round_: PracticeSession) -> dict[str, object] | None:
    """Return what to remember of a round of the day, as JSON fields; None where it is over."""
    seconds = round_.seconds_left
    if round_.purpose != "today" or seconds is None or seconds < LEAST_SECONDS:
        return None
    planned = round_.in_hand
    return {
        "day": round_.store.today.isoformat(),
        "seconds": seconds,
        "done": [list(done) for done in round_.session.done],
        "code": str(planned.code) if planned else None,
        "why": planned.why if planned else "",
        "choice": list(planned.choice) if planned and planned.choice else None,
    }


def seconds_left_today(store: Store) -> int | None:
    """Return the seconds left of today's round, None where none was left today."""
    left = store.settings.left
    if left is None or left.get("day") != store.today.isoformat():
        return None
    seconds = left.get("seconds")
    return seconds if isinstance(seconds, int) and seconds >= LEAST_SECONDS else None


def take_up(round_: PracticeSession, left: Mapping[str, Any]) -> None:
    """Bring a fresh round to where another one was left; one whose fields do not fit begins anew."""
    try:
        done = tuple(Done(*fields) for fields in left["done"])
        planned = _planned(left) if left["code"] else None
    except (KeyError, TypeError, ValueError):
        return
    if skill_names().keys() >= {each.skill for each in done}:
        round_.take_up(History(done), planned)


def _planned(left: Mapping[str, Any]) -> Planned:
    choice = Selection(*left["choice"]) if left["choice"] else None
    return Planned(read_code(left["code"]), str(left["why"]), choice)
