"""How long a drill took the person to read, and how quick is quick for them at such a drill."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from datetime import timedelta
from typing import Final, Literal, NamedTuple

from progress_store.attempt import APART, Attempt

Result = Literal["miss", "slow", "clean"]

WINDOW: Final = 12
GAPS_KEPT: Final = 200
GAPS_NEEDED: Final = 20
INPUT_AT_FIRST_MS: Final = 250
MEASURED_ANEW_AFTER: Final = timedelta(days=21)


class Floor(NamedTuple):
    """The shortest pace goal of a kind in milliseconds, whole or for each mark needed."""

    milliseconds: int
    each: bool = False

    def of(self, marks: int) -> int:
        """Return the floor in milliseconds for a drill that needs so many marks."""
        return self.milliseconds * max(marks, 1) if self.each else self.milliseconds


class PaceKey(NamedTuple):
    """Drills whose times can be compared: kind, form, level, marks needed ("1", "2-3", "4+") and device."""

    kind: str
    form: str
    level: int
    marks: str
    means: str

    @classmethod
    def of(cls, attempt: Attempt) -> PaceKey:
        """Return the key of an attempt; a drill with nothing to mark goes with those of one mark."""
        marks = "1" if attempt.marks <= 1 else "2-3" if attempt.marks <= 3 else "4+"
        return cls(attempt.kind, attempt.form, attempt.level, marks, attempt.means)


class Pace(NamedTuple):
    """The times at one key in ms: the last 12 of right answers, and the lowest median of any 12 so far."""

    recent: tuple[int, ...] = ()
    best: int | None = None

    def with_time(self, milliseconds: int) -> Pace:
        """Return the pace after one more right answer that took so long."""
        recent = (*self.recent, milliseconds)[-WINDOW:]
        if len(recent) < WINDOW:
            return Pace(recent)
        median = sum(sorted(recent)[WINDOW // 2 - 1 : WINDOW // 2 + 1]) // 2
        return Pace(recent, median if self.best is None else min(self.best, median))

    def goal_ms(self, floor_ms: int) -> int | None:
        """Return the pace goal: 1.25 times the best median or the floor; None under 12 right answers."""
        return None if self.best is None else max(floor_ms, self.best * 5 // 4)


class Gaps(NamedTuple):
    """The last 200 gaps between inputs by one input device, in ms: as they came, and sorted."""

    recent: tuple[int, ...] = ()
    ordered: tuple[int, ...] = ()

    @classmethod
    def of(cls, recent: Sequence[int]) -> Gaps:
        """Return the gaps as they came, in milliseconds."""
        return cls(tuple(recent[-GAPS_KEPT:]), tuple(sorted(recent[-GAPS_KEPT:])))

    def after(self, gaps: Sequence[int]) -> Gaps:
        """Return the gaps with the latest added."""
        recent = (*self.recent, *gaps)
        ordered = sorted((*self.ordered, *gaps))  # quick, as most of it is sorted
        for gap in recent[:-GAPS_KEPT]:
            del ordered[bisect_left(ordered, gap)]
        return Gaps(recent[-GAPS_KEPT:], tuple(ordered))

    @property
    def input_ms(self) -> int:
        """What one input costs: the 25th percentile (nearest rank), 250 ms while there are under 20 gaps."""
        if len(self.ordered) < GAPS_NEEDED:
            return INPUT_AT_FIRST_MS
        return self.ordered[(len(self.ordered) + 3) // 4 - 1]


def net_ms(attempt: Attempt, gaps: Gaps) -> int | None:
    """Return the time to read, without the inputs after the first; None where no time was kept."""
    if attempt.milliseconds is None or attempt.inputs <= 1:
        return attempt.milliseconds
    return max(0, attempt.milliseconds - gaps.input_ms * (attempt.inputs - 1))


def result(attempt: Attempt, net: int | None, goal: int | None) -> Result:
    """Return how an attempt went; a right answer whose time was not kept is not shown to be within a goal."""
    if not attempt.right:
        return "miss"
    if attempt.helped or attempt.slip is not None:
        return "slow"
    return "clean" if goal is None or (net is not None and net <= goal) else "slow"


def counts_for_pace(attempt: Attempt) -> bool:
    """Whether an attempt's time says how quick the person is: right, alone, timed."""
    return (
        attempt.right
        and not attempt.helped
        and attempt.milliseconds is not None
        and attempt.purpose not in APART
    )
