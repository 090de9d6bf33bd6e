"""When a skill comes round again, from the first drill of each practice day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, time
from functools import cache
from statistics import median
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

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


Word = Literal["new", "right", "quick", "kept"]

BLOCK: Final = 12
RIGHT_TO_RISE: Final = 11
RIGHT_TO_FALL: Final = 8
CLEAN_DAYS: Final = 3
DAYS_AWAY: Final = 7


class Mastery(NamedTuple):
    """What first drills of a day have shown: `clean_days` in a row, `kept`: one after a week."""

    was_right: bool = False
    clean_days: int = 0
    kept: bool = False

    def after(self, result: Result, days_away: int | None) -> Mastery:
        """Return the mastery after a first drill; `days_away` since the skill was last met, or None."""
        if result != "clean":
            return Mastery(self.was_right or result == "slow")
        return Mastery(True, self.clean_days + 1, self.kept or (days_away or 0) >= DAYS_AWAY)

    @property
    def word(self) -> Word:
        """The word for it; a first drill not clean takes "quick" and "kept" away until shown again."""
        if self.kept:
            return "kept"
        if self.clean_days >= CLEAN_DAYS:
            return "quick"
        return "right" if self.was_right else "new"


class Level(NamedTuple):
    """The level of a kind and its block so far: right or not, and time against goal where known."""

    level: int
    rights: tuple[bool, ...] = ()
    ratios: tuple[float, ...] = ()

    def after(self, right: bool, ratio: float | None, among: range) -> Level:
        """Return the level after a first drill at it; a block of 12 may move it by one, among the kind's."""
        rights = (*self.rights, right)
        ratios = self.ratios if ratio is None else (*self.ratios, ratio)
        if len(rights) < BLOCK:
            return Level(self.level, rights, ratios)
        return Level(min(max(self.level + _move(sum(rights), ratios), among[0]), among[-1]))

    def placed(self, level: int, among: range) -> Level:
        """Return the level after a right placing drill: the highest such level, with a fresh block."""
        higher = min(level, among[-1])
        return Level(higher) if higher > self.level else self


def _move(right: int, ratios: Sequence[float]) -> int:
    """Return 1 up, -1 down or 0; while there is no goal, the time holds nobody back."""
    if right <= RIGHT_TO_FALL:
        return -1
    return 1 if right >= RIGHT_TO_RISE and (not ratios or median(ratios) <= 1) else 0
