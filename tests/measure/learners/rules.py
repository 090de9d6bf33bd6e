"""The rules that are compared: ours, at random, and in blocks at fixed intervals."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache
from random import Random
from typing import NamedTuple

from drills.questions import KINDS, codes_for, kind_of, skill_names, skills_at
from progress_store import State
from tests.measure.learners.learner import Learner
from trainer.practice.choosing import NEW_A_DAY, History, Selection, next_selection

FIXED_DAYS = (1, 3, 7, 14)
RUNNING = 3
"""So many drills of one skill after another fill a block."""


class Moment(NamedTuple):
    """When a drill is to be chosen; the learner, and the minute, are only for who can see into heads."""

    state: State
    today: date
    session: History
    chance: Random
    learner: Learner
    minute: float


Rule = Callable[[Moment], Selection]


def ours(moment: Moment) -> Selection:
    """Return what the app asks next."""
    return next_selection(moment.state, moment.today, moment.session)


def at_random(moment: Moment) -> Selection:
    """Return any skill of the person's levels."""
    among = open_skills(moment.state)
    return at_level(moment.state, among[int(moment.chance.random() * len(among))])


def in_blocks(moment: Moment) -> Selection:
    """Return what comes round today, kind after kind; then two new; then more of the kind in hand.

    The kinds are gone through one after the other; when all is met they take turns by day.
    """
    state, today, session, *_ = moment
    met = [skill for skill in skill_names() if skill in state.skills and not session.times(skill)]
    round_again = [skill for skill in met if comes_round(state.skills[skill].first_day, today)]
    if round_again:
        return at_level(state, round_again[0])
    new_today = sum(known.first_day == today for known in state.skills.values())
    unmet = [skill for skill in open_skills(state) if skill not in state.skills]
    if unmet and new_today < NEW_A_DAY:
        return at_level(state, unmet[0])
    kind = _kind_in_hand(state) if unmet or new_today else list(KINDS)[today.toordinal() % len(KINDS)]
    block = [skill for skill in skill_names() if skill in state.skills and kind_of(skill)[0] == kind]
    return at_level(state, block[len(session.done) // RUNNING % len(block)])


def comes_round(first: date, today: date) -> bool:
    """Whether a fixed interval ends today: of 1 day after the first day, then 3, 7, then 14 for ever."""
    left = (today - first).days
    for days in FIXED_DAYS[:-1]:
        left -= days
        if left <= 0:
            return left == 0
    return left % FIXED_DAYS[-1] == 0


def _kind_in_hand(state: State) -> str:
    """Return the kind of the skill that is newest."""
    return max(state.skills.values(), key=lambda known: known.first_day).kind


def open_skills(state: State) -> list[str]:
    """Return the skills of the person's levels."""
    return [s for s in skill_names() if s in skills_at(*kind_of(s), state.level(kind_of(s)[0]))]


def at_level(state: State, skill: str) -> Selection:
    """Return the skill at the person's level."""
    return Selection(skill, state.level(kind_of(skill)[0]), "known")


@cache
def level_of_drill(skill: str, level: int) -> int:
    """Return the level of the drill that is made: the nearest that trains the skill."""
    return next(codes_for(skill, level, 0)).level
