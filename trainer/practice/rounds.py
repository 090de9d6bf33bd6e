"""The sessions there are: of the day, of a picked drill, to find a level, and two minutes before folding."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from drills.pattern import CreasePattern
from drills.questions import KINDS, SEVERAL, WHOLE, Code, kind_of, skill_names, skill_of, skills_at
from drills.structures import TRIANGLE_345, find_stretches
from progress_store import State, Store
from trainer.given import Clock
from trainer.practice.choosing import History, next_selection
from trainer.practice.drill_source import has_triangle, levels_with
from trainer.practice.resuming import seconds_left_today, take_up
from trainer.practice.session import Moment, Planned, PracticeSession
from trainer.practice.words import MET_BEFORE, NOT_CHOSEN, SIMPLEST, WILL_BE_FOLDED, because

WARM_UP_MINUTES = 2
SECONDS_OF_MINUTE = 60
MINUTE_BEGINS = "As many right as you can in a minute. How each went is told at the end."
TURNS_TO_IT = 0.5
"""From this part of the time on a warm-up for a triangle shows that triangle."""


def today(store: Store, clock: Clock) -> PracticeSession:
    """Return the session of the day: the minutes the person set, or what was left of them; always full."""

    def plan(now: Moment) -> Planned:
        selection = next_selection(now.state, now.today, now.history)
        why = because(selection, now.state, now.today, now.history)
        return Planned(now.fresh.of_skill(selection.skill, selection.level), why, selection)

    left = seconds_left_today(store)
    session = PracticeSession(store, clock, "today", plan, left or 60 * store.settings.minutes_a_day)
    if left and store.settings.left:
        take_up(session, store.settings.left)
    return session


def picked(store: Store, clock: Clock, code: Code, triangle: str = "") -> PracticeSession:
    """Return a session that begins with one code and goes on with fresh ones of its kind, form and level.

    With a triangle all are lone stretches of it.
    """

    def plan(now: Moment) -> Planned:
        fresh, chosen = now.fresh, code
        if now.history.done:
            form = code.form or KINDS[code.kind].first_form
            of_triangle = fresh.of_triangle(triangle, code.kind, form, code.level) if triangle else None
            chosen = of_triangle or fresh.of_form(code.kind, form, code.level)
        return Planned(chosen, NOT_CHOSEN["picked"])

    session = PracticeSession(store, clock, "picked", plan)
    session.fresh.was_shown(code)
    return session


BASES = 5
BASES_SECONDS = 60 * BASES


def five_bases(store: Store, clock: Clock, by_the_clock: bool) -> PracticeSession:
    """Return the round in which five whole bases are looked through, in five minutes or in any time."""

    def plan(now: Moment) -> Planned | None:
        if len(now.history.done) == BASES:
            return None
        return Planned(now.fresh.of_form("find", KINDS["find"].first_form, WHOLE), NOT_CHOSEN["picked"])

    seconds = BASES_SECONDS if by_the_clock else None
    return PracticeSession(store, clock, "picked", plan, seconds, BASES, "Five bases")


def one_minute(store: Store, clock: Clock, kind: str, form: str, level: int) -> PracticeSession:
    """Return a minute by the clock of fresh drills of one form and level, without a verdict in between."""

    def plan(now: Moment) -> Planned:
        begins = "" if now.history.done else MINUTE_BEGINS
        return Planned(now.fresh.of_form(kind, form, level), NOT_CHOSEN["minute"], tells=begins)

    return PracticeSession(store, clock, "minute", plan, SECONDS_OF_MINUTE)


class Target(NamedTuple):
    """What is folded afterwards: a level (None: the person's own), and a triangle where it is not 3-4-5."""

    level: int | None = None
    triangle: str = ""


MY_LEVEL = Target()


def warm_up(store: Store, clock: Clock, target: Target = MY_LEVEL) -> PracticeSession:
    """Return two minutes of what is known, rising to the target; it never moves the schedule."""

    def plan(now: Moment) -> Planned:
        code = _code(now, target)
        return Planned(code, _why(code, now.state, target))

    return PracticeSession(store, clock, "warm-up", plan, 60 * WARM_UP_MINUTES)


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


def _code(now: Moment, target: Target) -> Code:
    levels = {kind: _level(now.part_gone, kind, target.level or now.state.level(kind)) for kind in KINDS}
    skill = _skill(now.state, now.history, levels)
    kind, form = kind_of(skill)
    if target.triangle and now.part_gone >= TURNS_TO_IT and KINDS[kind].stretch_is_given:
        having = levels_with(target.triangle, kind)
        for level in sorted(having, key=lambda level: abs(level - (target.level or level)))[:1]:
            if code := now.fresh.of_triangle(target.triangle, kind, form, level):
                return code
    return now.fresh.of_skill(skill, levels[kind])


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
