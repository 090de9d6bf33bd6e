"""The three rules that are compared: ours, at random, and blocks at fixed intervals."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from random import Random

from drills.questions.kinds import KINDS, SKILL_NAMES, codes_for, kind_of, skills_at
from progress_store import State
from trainer.practice.choice import Choice
from trainer.practice.choosing import NEW_A_DAY, next_choice
from trainer.practice.session import Session

Rule = Callable[[State, date, Session, Random], Choice]

FIXED_DAYS = (1, 3, 7, 14)
RUNNING = 3
"""So many drills of one skill after another fill a block."""


def ours(state: State, today: date, session: Session, chance: Random) -> Choice:
    """Return what the app asks next."""
    return next_choice(state, today, session)


def at_random(state: State, today: date, session: Session, chance: Random) -> Choice:
    """Return any skill of the person's levels."""
    among = _open(state)
    return _choice(state, among[int(chance.random() * len(among))])


def in_blocks(state: State, today: date, session: Session, chance: Random) -> Choice:
    """Return what has come round by its interval, kind after kind; two new of a kind; then more of that kind.

    The kinds are gone through one after the other; when all is met they take turns by day.
    """
    kind = _kind_in_hand(state, today)
    round_again = [s for s in SKILL_NAMES if s in state.skills and not session.times(s)]
    round_again = [s for s in round_again if _is_due(state.skills[s].first_day, today)]
    if round_again:
        return _choice(state, round_again[0])
    new_today = sum(known.first_day == today for known in state.skills.values())
    unmet = [skill for skill in _open(state) if skill not in state.skills]
    if unmet and new_today < NEW_A_DAY:
        return _choice(state, unmet[0])
    block = [skill for skill in state.skills if kind_of(skill)[0] == kind] or list(state.skills)
    return _choice(state, block[len(session.done) // RUNNING % len(block)])


def _kind_in_hand(state: State, today: date) -> str:
    newest = max(state.skills.values(), key=lambda known: known.first_day, default=None)
    if newest is not None and newest.first_day < today and not _unmet(state):
        return list(KINDS)[today.toordinal() % len(KINDS)]
    return newest.kind if newest is not None else next(iter(KINDS))


def _unmet(state: State) -> list[str]:
    return [skill for skill in _open(state) if skill not in state.skills]


def _is_due(first: date, today: date) -> bool:
    """Whether an interval ends today: 1 day after the first, 3 after that, then 7, then 14 again and again."""
    left = (today - first).days
    for days in FIXED_DAYS[:-1]:
        left -= days
        if left <= 0:
            return left == 0
    return left % FIXED_DAYS[-1] == 0


def _open(state: State) -> list[str]:
    return [skill for skill in SKILL_NAMES if skill in skills_at(*kind_of(skill), state.level(kind_of(skill)[0]))]


def _choice(state: State, skill: str) -> Choice:
    return Choice(skill, state.level(kind_of(skill)[0]), "known")


@cache
def level_of_drill(skill: str, level: int) -> int:
    """Return the level of the drill that is made: the nearest that trains the skill."""
    return next(codes_for(skill, level, 0)).level


RULES: Mapping[str, Rule] = {"our rule": ours, "at random": at_random, "in blocks": in_blocks}
