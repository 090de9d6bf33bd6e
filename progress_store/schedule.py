"""When a skill comes round again, from the first drill of each practice day."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

from progress_store.pace import Result

if TYPE_CHECKING:
    from fsrs import Card, Scheduler


LONGEST_DAYS: Final = 21
MOVING_PURPOSES: Final = frozenset({"today", "placing", "picked"})
_GRADES: Final[dict[Result, int]] = {"miss": 1, "slow": 2, "clean": 3}
_HIGHEST_FIRST_GRADE: Final = 2


class Memory(NamedTuple):
    """How well a skill holds: days until recall is nine in ten, effort 1-10, the last practice day."""

    lasting_days: float
    effort: float
    last: date

    @property
    def next(self) -> date:
        """The practice day on which it comes round: recall is then under nine in ten, or 21 days are over."""
        return self.last + timedelta(days=min(int(self.lasting_days) + 1, LONGEST_DAYS))


def remembered(memory: Memory | None, day: date, result: Result) -> Memory:
    """Return the memory after the first drill of a practice day; the first ever counts as slow at most.

    `day` must be later than the last. The model: J. Ye, J. Su, Y. Cao, KDD 2022, as in PyPI fsrs 6.3.
    """
    from fsrs import Rating

    grade = _GRADES[result] if memory is not None else min(_GRADES[result], _HIGHEST_FIRST_GRADE)
    after, _ = _scheduler().review_card(_known(memory, day), Rating(grade), _noon(day))
    assert after.stability is not None
    assert after.difficulty is not None
    return Memory(after.stability, after.difficulty, day)


@lru_cache(maxsize=256)
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
        due=_noon(memory.last),
        last_review=_noon(memory.last),
    )


def _noon(day: date) -> datetime:
    """Noon UTC: the library floors to whole days, so that clock times of the person must not reach it."""
    return datetime.combine(day, time(12), UTC)


Word = Literal["new", "right", "quick", "kept"]

CLEAN_DAYS: Final = 3
DAYS_AWAY: Final = 7
RUNNING_TO_RISE: Final = 4


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
    """The level of a kind, and how many drills at it went right running.

    Four right running are as likely as not where 84 in 100 are right: 0.5 ** (1 / 4); H. Levitt 1971,
    from memory.
    """

    level: int
    running: int = 0

    def after(self, right: bool, among: range) -> Level:
        """Return the level after a drill at it: four right running raise it, a miss lowers it by one."""
        if not right:
            return Level(max(self.level - 1, among[0]))
        if self.level >= among[-1]:
            return Level(among[-1])
        if self.running + 1 < RUNNING_TO_RISE:
            return Level(self.level, self.running + 1)
        return Level(self.level + 1)

    def placed(self, level: int, among: range) -> Level:
        """Return the level after a placing drill at a higher one went right: that one, at most the top."""
        higher = min(level, among[-1])
        return Level(higher, 1) if higher > self.level else self
