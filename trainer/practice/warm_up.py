"""Two minutes, then I fold: only what is known, rising to what will be folded."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from drills.pattern import CreasePattern
from drills.questions import KINDS, SEVERAL, Code, kind_of, skill_names, skill_of, skills_at
from drills.structures import TRIANGLE_345, find_stretches
from progress_store import State, Store
from trainer.clock import Clock
from trainer.practice.choosing import History
from trainer.practice.fresh_codes import has_triangle, levels_with
from trainer.practice.reason_words import MET_BEFORE, SIMPLEST, WILL_BE_FOLDED
from trainer.practice.session import Planned, PracticeSession

MINUTES = 2
TURNS_TO_IT = 0.5
"""From this part of the time on a warm-up for a triangle shows that triangle."""


class Target(NamedTuple):
    """What is folded afterwards: a level (None: the person's own), and a triangle where it is not 3-4-5."""

    level: int | None = None
    triangle: str = ""


MY_LEVEL = Target()


def warm_up(store: Store, clock: Clock, target: Target = MY_LEVEL) -> PracticeSession:
    """Return two minutes of what is known, rising to the target; it never moves the schedule."""

    def plan(session: PracticeSession) -> Planned:
        code = _code(session, store.state, target)
        return Planned(code, _why(code, store.state, target))

    return PracticeSession(store, clock, "warm-up", plan, 60 * MINUTES)


def target_of(pattern: CreasePattern) -> Target:
    """Return what a person's own pattern asks for: its triangle, how many stretches, their sides.

    ValueError where there is no slanted stretch on it.
    """
    found = find_stretches(pattern)
    if not found:
        raise ValueError("There is no slanted stretch in this pattern; choose a level or a triangle.")
    others = [each.triangle.name for each in found if each.triangle != TRIANGLE_345]
    if others:
        return Target(levels_with(others[0])[0], others[0])
    if len(found) > 1:
        return Target(SEVERAL)
    pleats = {pleats for each in found for pleats in each.units if pleats is not None}
    return Target(3 if len(pleats) == 1 and max(pleats) > 1 else 2 if pleats == {1} else 4)


def _why(code: Code, state: State, target: Target) -> str:
    if target.triangle and has_triangle(code, target.triangle):
        return WILL_BE_FOLDED.format(target.triangle)
    return MET_BEFORE if skill_of(code) in state.skills else SIMPLEST


def _code(session: PracticeSession, state: State, target: Target) -> Code:
    levels = {kind: _level(session.part_gone, kind, target.level or state.level(kind)) for kind in KINDS}
    skill = _skill(state, session.history, levels)
    kind, form = kind_of(skill)
    if target.triangle and session.part_gone >= TURNS_TO_IT and kind != "find":
        having = levels_with(target.triangle, kind)
        for level in sorted(having, key=lambda level: abs(level - (target.level or level)))[:1]:
            if code := session.fresh.of_triangle(target.triangle, kind, form, level):
                return code
    return session.fresh.of_skill(skill, levels[kind])


def _level(part_gone: float, kind: str, top: int) -> int:
    """Return the level of a kind in this part of the time, from its lowest up to the top one."""
    row = KINDS[kind]
    return row.lowest + round(part_gone * (row.nearest_level(top) - row.lowest))


def _skill(state: State, history: History, levels: Mapping[str, int]) -> str:
    """Return the known skill least met in this session, the surest first; the first there is where none is.

    Those that the levels train come before others.
    """
    known = [skill for skill in state.skills if skill in skill_names()]
    sure = [skill for skill in known if state.skills[skill].word != "new"] or known
    trained = [skill for skill in sure if skill in skills_at(*kind_of(skill), levels[kind_of(skill)[0]])]
    barred = history.kinds_running()
    free = [skill for skill in trained if kind_of(skill)[0] != barred] or trained or sure

    def order(skill: str) -> tuple[int, int, str]:
        return history.times(skill), state.skills[skill].results.count("miss"), skill

    return min(free, key=order, default=next(iter(skill_names())))
