"""When a skill comes round again, from the first drill of each practice day."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from functools import cache
from typing import TYPE_CHECKING, Final, NamedTuple

from progress_store.pace import Result

if TYPE_CHECKING:
    from fsrs import Card, Scheduler

LONGEST_DAYS: Final = 21
MOVING_PURPOSES: Final = frozenset({"today", "placing", "picked"})
_GRADES: Final[dict[Result, int]] = {"miss": 1, "slow": 2, "clean": 3}
_HIGHEST_FIRST_GRADE: Final = 2


class Memory(NamedTuple):
    """How well a skill holds: days until recall is nine in ten, effort 1-10, last and next practice day."""

    lasting_days: float
    effort: float
    last: date
    next: date


def remembered(memory: Memory | None, day: date, result: Result) -> Memory:
    """Return the memory after the first drill of a practice day; the first ever counts as slow at most.

    `day` must be later than the last. The model: J. Ye, J. Su, Y. Cao, KDD 2022, as in PyPI fsrs 6.3.
    """
    from fsrs import Rating

    grade = _GRADES[result] if memory is not None else min(_GRADES[result], _HIGHEST_FIRST_GRADE)
    after, _ = _scheduler().review_card(_known(memory, day), Rating(grade), _noon(day))
    assert after.stability is not None
    assert after.difficulty is not None
    return Memory(after.stability, after.difficulty, day, after.due.date())


def recall(memory: Memory, day: date) -> float:
    """Return a number from 0 to 1 by which skills rank on a practice day, the lowest first."""
    return _scheduler().get_card_retrievability(_known(memory, day), _noon(day))


@cache
def _scheduler() -> Scheduler:
    from fsrs import Scheduler

    return Scheduler(
        learning_steps=(), relearning_steps=(), enable_fuzzing=False, maximum_interval=LONGEST_DAYS
    )


def _known(memory: Memory | None, day: date) -> Card:
    from fsrs import Card, State

    # an id of our own: without one the library waits a millisecond for each
    if memory is None:
        return Card(card_id=0, due=_noon(day))
    return Card(
        card_id=0,
        state=State.Review,
        stability=memory.lasting_days,
        difficulty=memory.effort,
        due=_noon(memory.next),
        last_review=_noon(memory.last),
    )


def _noon(day: date) -> datetime:
    """Noon UTC: the library floors to whole days, so that clock times of the person must not reach it."""
    return datetime.combine(day, time(12), UTC)
