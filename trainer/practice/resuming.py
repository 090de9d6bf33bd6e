"""A round of the day that was left: what is remembered of it, and how it is gone on with.

What is remembered comes back from a file, so that every field of it is looked at before it is used.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, get_args

from drills.questions import KINDS, kind_of, read_code, skill_names
from progress_store import MOST_MINUTES, Result, Store
from trainer.practice.choosing import Done, History, Reason, Selection, Stage
from trainer.practice.session import Planned, PracticeSession

LEAST_SECONDS = 10
"""A session with less time left than this is over."""
RESULTS: tuple[Result, ...] = get_args(Result)
STAGES: tuple[Stage, ...] = get_args(Stage)
REASONS: tuple[Reason, ...] = get_args(Reason)
Name = TypeVar("Name", bound=str)


def left_of(session: PracticeSession) -> dict[str, object] | None:
    """Return what to remember of a session of the day, as JSON fields; None where it is over."""
    seconds = session.seconds_left
    if session.purpose != "today" or seconds is None or seconds < LEAST_SECONDS:
        return None
    planned = session.in_hand
    return {
        "day": session.store.today.isoformat(),
        "seconds": seconds,
        "sitting": session.sitting,
        "done": [list(done) for done in session.history.done],
        "code": str(planned.code) if planned else None,
        "why": planned.why if planned else "",
        "choice": list(planned.selection) if planned and planned.selection else None,
    }


def seconds_left_today(store: Store) -> int | None:
    """Return the seconds left of today's session, None where none was left today."""
    left = store.settings.left
    if left is None or left.get("day") != store.today.isoformat():
        return None
    seconds = left.get("seconds")
    if type(seconds) is not int or not LEAST_SECONDS <= seconds <= 60 * MOST_MINUTES:
        return None
    return seconds


def take_up(session: PracticeSession, left: Mapping[str, Any]) -> None:
    """Bring a fresh session to where another one was left; one whose fields do not fit begins anew."""
    sitting = left.get("sitting")
    try:
        done = tuple(_done(*fields) for fields in left["done"])
        planned = _planned(left["code"], left["why"], left["choice"]) if left["code"] else None
    except (LookupError, TypeError, ValueError):
        return
    session.take_up(History(done), planned, sitting if isinstance(sitting, str) else "")


def _done(skill: object, kind: object, result: object, taken_for: object, stage: object) -> Done:
    """Return a drill that was done; ValueError where a field is none that is written."""
    if not isinstance(skill, str) or skill not in skill_names() or kind != kind_of(skill)[0]:
        raise ValueError("no skill")
    if not isinstance(taken_for, str):
        raise ValueError("taken for no skill")
    return Done(skill, kind_of(skill)[0], _one_of(RESULTS, result), taken_for, _one_of(STAGES, stage))


def _planned(code: object, why: object, choice: object) -> Planned:
    """Return what was in hand; ValueError where a field is none that is written."""
    if not isinstance(code, str) or not isinstance(why, str):
        raise ValueError("no code or no reason")
    return Planned(read_code(code), why, _selection(*choice) if isinstance(choice, list) else None)


def _selection(skill: object, level: object, reason: object, stage: object) -> Selection:
    if not isinstance(skill, str) or skill not in skill_names():
        raise ValueError("no skill")
    if type(level) is not int or level not in KINDS[kind_of(skill)[0]].levels:
        raise ValueError("no level of the kind")
    return Selection(skill, level, _one_of(REASONS, reason), _one_of(STAGES, stage))


def _one_of(names: tuple[Name, ...], name: object) -> Name:
    """Return one of some names; ValueError where it is none of them."""
    return names[names.index(name)]
