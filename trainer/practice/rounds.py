"""The sessions there are: of the day, which goes on where it was left, of a picked drill, to find a level."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from drills.questions import KINDS, Code, read_code, skill_names
from progress_store import Store
from trainer.clock import Clock
from trainer.practice.choosing import Done, History, Selection, next_selection
from trainer.practice.reason_words import NOT_CHOSEN, because
from trainer.practice.session import Planned, PracticeSession

LEAST_SECONDS = 10
"""A session with less time left than this is over."""


def today(store: Store, clock: Clock) -> PracticeSession:
    """Return the session of the day: the minutes the person set, or what was left of them; always full."""

    def plan(session: PracticeSession) -> Planned:
        selection = next_selection(store.state, store.today, session.history)
        why = because(selection, store.state, store.today, session.history)
        return Planned(session.fresh.of_skill(selection.skill, selection.level), why, selection)

    left = seconds_left_today(store)
    session = PracticeSession(store, clock, "today", plan, left or 60 * store.settings.minutes_a_day)
    if left and store.settings.left:
        take_up(session, store.settings.left)
    return session


def picked(store: Store, clock: Clock, code: Code, triangle: str = "") -> PracticeSession:
    """Return a session that begins with one code and goes on with fresh ones of its kind, form and level.

    With a triangle all are lone stretches of it.
    """

    def plan(session: PracticeSession) -> Planned:
        fresh, chosen = session.fresh, code
        if session.history.done:
            form = code.form or KINDS[code.kind].first_form
            of_triangle = fresh.of_triangle(triangle, code.kind, form, code.level) if triangle else None
            chosen = of_triangle or fresh.of_form(code.kind, form, code.level)
        return Planned(chosen, NOT_CHOSEN["picked"])

    return PracticeSession(store, clock, "picked", plan)


class PlacingStep(NamedTuple):
    """One placing drill: its kind, and the level it is asked at after the last answer of that kind."""

    kind: str
    after_right: int
    after_miss: int


def placing_steps() -> tuple[PlacingStep, ...]:
    """Return two drills of each kind that is in the placing: at level 2, then at 3, or at 1 after a miss."""
    rows = {kind: row for kind, row in KINDS.items() if row.in_placing}
    first = [PlacingStep(kind, row.nearest_level(2), row.nearest_level(2)) for kind, row in rows.items()]
    then = [PlacingStep(kind, row.nearest_level(3), row.nearest_level(1)) for kind, row in rows.items()]
    return (*first, *then)


def placing(store: Store, clock: Clock) -> PracticeSession:
    """Return the drills that place a person at a level of each kind."""
    steps = placing_steps()

    def plan(session: PracticeSession) -> Planned | None:
        done = session.history.done
        if len(done) == len(steps):
            return None
        step = steps[len(done)]
        missed = any(each.kind == step.kind and each.result == "miss" for each in done)
        level = step.after_miss if missed else step.after_right
        code = session.fresh.of_form(step.kind, KINDS[step.kind].first_form, level)
        return Planned(code, NOT_CHOSEN["placing"])

    return PracticeSession(store, clock, "placing", plan, of=len(steps))


def left_of(session: PracticeSession) -> dict[str, object] | None:
    """Return what to remember of a session of the day, as JSON fields; None where it is over."""
    seconds = session.seconds_left
    if session.purpose != "today" or seconds is None or seconds < LEAST_SECONDS:
        return None
    planned = session.in_hand
    return {
        "day": session.store.today.isoformat(),
        "seconds": seconds,
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
    return seconds if isinstance(seconds, int) and seconds >= LEAST_SECONDS else None


def take_up(session: PracticeSession, left: Mapping[str, Any]) -> None:
    """Bring a fresh session to where another one was left; one whose fields do not fit begins anew."""
    try:
        done = tuple(Done(*fields) for fields in left["done"])
        planned = _planned(left) if left["code"] else None
    except (KeyError, TypeError, ValueError):
        return
    if skill_names().keys() >= {each.skill for each in done}:
        session.take_up(History(done), planned)


def _planned(left: Mapping[str, Any]) -> Planned:
    selection = Selection(*left["choice"]) if left["choice"] else None
    return Planned(read_code(left["code"]), str(left["why"]), selection)
