"""The drills that find a person's level of each kind: fewer where it is soon sure, twelve at most."""

from __future__ import annotations

from collections.abc import Sequence

from drills.questions import KINDS, QuestionKind
from progress_store import Store
from trainer.given import Clock
from trainer.practice.session import Moment, Planned, PracticeSession
from trainer.practice.words import NOT_CHOSEN

FIRST, HIGHEST = 2, 5
"""The level that is asked first, and the highest: what is above it is met in practice."""
AT_ONCE = 2
"""So many levels a right answer goes up, as long as none was wrong."""
MOST, MISSES = 4, 2
"""A kind is sure after so many drills, or so many misses."""


def kinds_placed() -> dict[str, QuestionKind]:
    """Return the kinds that are in the placing, by name."""
    return {kind: row for kind, row in KINDS.items() if row.in_placing}


def most_drills() -> int:
    """Return how many drills the placing has at most."""
    return MOST * len(kinds_placed())


def next_level(results: Sequence[bool], row: QuestionKind) -> int | None:
    """Return the level to be asked after these answers of a kind, each right or not; None once it is sure.

    A right answer goes up, a wrong one down by one, and never back to a level that was right already: there
    the one that was missed is asked once more.
    """
    at, right_at = row.nearest_level(FIRST), set[int]()
    highest = row.nearest_level(HIGHEST)
    for number, right in enumerate(results):
        if right:
            right_at.add(at)
            at = min(at + (1 if False in results[:number] else AT_ONCE), highest)
        elif at - 1 not in right_at:
            at = row.nearest_level(at - 1)
    is_sure = highest in right_at or results.count(False) == MISSES or len(results) == MOST
    return None if is_sure else at


def placing(store: Store, clock: Clock) -> PracticeSession:
    """Return the drills that place a person, kind after kind; over once every kind is sure."""

    def plan(now: Moment) -> Planned | None:
        done = {
            kind: [each.result != "miss" for each in now.history.done if each.kind == kind]
            for kind in kinds_placed()
        }
        open_ = {
            kind: level for kind, row in kinds_placed().items() if (level := next_level(done[kind], row))
        }
        if not open_:
            return None
        kind = min(open_, key=lambda kind: len(done[kind]))
        code = now.fresh.of_form(kind, KINDS[kind].first_form, open_[kind])
        return Planned(code, NOT_CHOSEN["placing"])

    return PracticeSession(store, clock, "placing", plan)
