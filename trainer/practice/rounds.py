"""The rounds there are: of the day, before folding, of a picked drill, and to find a level."""

from __future__ import annotations

from typing import NamedTuple

from drills.questions import KINDS, Code
from progress_store import Store
from trainer.clock import Clock
from trainer.practice.choosing import next_choice
from trainer.practice.reason_words import because
from trainer.practice.resume import seconds_left_today, take_up
from trainer.practice.session import NOT_CHOSEN, Planned, PracticeSession


def today(store: Store, clock: Clock) -> PracticeSession:
    """Return the round of the day: as many minutes as the person set, or what was left of it; always full."""

    def following(sitting: PracticeSession) -> Planned:
        choice = next_choice(store.state, store.today, sitting.session)
        why = because(choice, store.state, store.today, sitting.session)
        return Planned(sitting.fresh(choice.skill, choice.level), why, choice)

    left = seconds_left_today(store)
    round_ = PracticeSession(store, clock, "today", following, left or 60 * store.settings.minutes_a_day)
    if left and store.settings.left:
        take_up(round_, store.settings.left)
    return round_


def picked(store: Store, clock: Clock, code: Code, triangle: str = "") -> PracticeSession:
    """Return a round that begins with one code and goes on with fresh ones of its kind, form and level.

    With a triangle all are lone stretches of it.
    """

    def following(sitting: PracticeSession) -> Planned:
        chosen = code
        if sitting.session.done and triangle:
            form = code.form or KINDS[code.kind].first_form
            chosen = sitting.fresh_with(triangle, code.kind, form, code.level)
        elif sitting.session.done:
            chosen = sitting.fresh_of(code.kind, code.form, code.level)
        return Planned(chosen, NOT_CHOSEN["picked"])

    return PracticeSession(store, clock, "picked", following)


class Placing(NamedTuple):
    """One placing drill: its kind, and the level it is asked at after the last answer of that kind."""

    kind: str
    after_right: int
    after_miss: int


_PLACED = [kind for kind, entry in KINDS.items() if entry.lowest == 1]
PLACING = (
    *(Placing(kind, 2, 2) for kind in _PLACED),
    *(Placing(kind, 3, 1) for kind in _PLACED),
)
"""Two drills of each kind that begins at level 1: at 2, then at 3 if that was right, at 1 if not."""


def placing(store: Store, clock: Clock) -> PracticeSession:
    """Return the six drills that place a person at a level of each kind."""

    def following(sitting: PracticeSession) -> Planned | None:
        done = sitting.session.done
        if len(done) == len(PLACING):
            return None
        step = PLACING[len(done)]
        missed = any(d.kind == step.kind and d.result == "miss" for d in done)
        level = step.after_miss if missed else step.after_right
        code = sitting.fresh_of(step.kind, KINDS[step.kind].first_form, level)
        return Planned(code, NOT_CHOSEN["placing"])

    return PracticeSession(store, clock, "placing", following, of=len(PLACING))
