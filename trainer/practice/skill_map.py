"""All skills as a small map that fills, a sign for each, and whether today's minutes are done."""

from __future__ import annotations

from collections.abc import Mapping

from drills.questions import KINDS
from progress_store import State, Store, Word
from trainer.practice.resuming import seconds_left_today

SIGNS: Mapping[Word, str] = {"new": ".", "right": "-", "quick": "=", "kept": "#"}
LEGEND = "  ".join(f"{sign} {word}" for word, sign in SIGNS.items())
LATEST = 200
"""A day has fewer drills than that, or it has surely had its round."""


def map_lines(state: State) -> list[str]:
    """Return a line for each kind, its skills from the first to the last, and what the signs mean."""
    width = 1 + max(len(row.title) for row in KINDS.values())
    lines = [
        f"{row.title.rstrip('?'):<{width}}{''.join(SIGNS[_word(state, skill)] for skill in row.skills)}"
        for row in KINDS.values()
    ]
    return [*lines, LEGEND]


def _word(state: State, skill: str) -> Word:
    known = state.skills.get(skill)
    return known.word if known else "new"


def minutes_today(store: Store) -> str:
    """Return whether today's minutes are done, begun or still to come."""
    if (left := seconds_left_today(store)) is not None:
        return f"{left // 60}:{left % 60:02d} of today left"
    done = (each.purpose == "today" and each.practice_day == store.today for each in store.latest(LATEST))
    return "today's minutes done" if any(done) else "today's minutes to come"
