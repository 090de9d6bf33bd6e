"""The rounds there are: of the day, before folding, of a picked drill, and to find a level."""

from __future__ import annotations

from typing import NamedTuple

from drills.questions.code import Code
from drills.questions.kinds import KINDS, SKILL_NAMES, kind_of
from progress_store import State, Store
from trainer.practice.choosing import next_choice
from trainer.practice.clock import Clock
from trainer.practice.round import Round
from trainer.practice.session import Session


def today(store: Store, clock: Clock) -> Round:
    """Return the round of the day: as many minutes as the person set, always full."""

    def following(sitting: Round) -> Code:
        choice = sitting.choice = next_choice(store.state, store.today, sitting.session)
        return sitting.fresh(choice.skill, choice.level)

    return Round(store, clock, "today", following, store.settings.minutes_a_day)


WARM_UP_MINUTES = 2


def warm_up(store: Store, clock: Clock) -> Round:
    """Return two minutes of what is known, rising to the person's level; it never moves the schedule."""

    def following(sitting: Round) -> Code:
        skill = _warm_skill(store.state, sitting.session)
        kind = kind_of(skill)[0]
        low, top = KINDS[kind].lowest, store.state.level(kind)
        return sitting.fresh(skill, low + round(sitting.part_gone * (top - low)))

    return Round(store, clock, "warm-up", following, WARM_UP_MINUTES)


def _warm_skill(state: State, session: Session) -> str:
    """Return the known skill least met in this sitting, the surest first; reading a step where none is."""
    known = [skill for skill in state.skills if skill in SKILL_NAMES]
    sure = [skill for skill in known if state.skills[skill].word != "new"] or known
    barred = session.kinds_running()
    free = [skill for skill in sure if kind_of(skill)[0] != barred] or sure

    def order(skill: str) -> tuple[int, int, str]:
        return session.times(skill), state.skills[skill].results.count("miss"), skill

    return min(free, key=order, default=next(iter(KINDS["steps"].skills)))


def picked(store: Store, clock: Clock, code: Code) -> Round:
    """Return a round that begins with one code and goes on with fresh ones of its kind, form and level."""

    def following(sitting: Round) -> Code:
        if not sitting.session.done:
            return code
        return sitting.fresh_of(code.kind, code.form, code.level)

    return Round(store, clock, "picked", following)


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


def placing(store: Store, clock: Clock) -> Round:
    """Return the six drills that place a person at a level of each kind."""

    def following(sitting: Round) -> Code | None:
        done = sitting.session.done
        if len(done) == len(PLACING):
            return None
        step = PLACING[len(done)]
        missed = any(d.kind == step.kind and d.result == "miss" for d in done)
        level = step.after_miss if missed else step.after_right
        return sitting.fresh_of(step.kind, KINDS[step.kind].forms[0], level)

    return Round(store, clock, "placing", following, of=len(PLACING))
