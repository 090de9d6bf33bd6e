"""Minutes by the clock: as many right as one can of one form; each form has a best of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby
from typing import Final

from progress_store.attempt import Attempt

LASTS: Final = timedelta(seconds=60)
_LATE: Final = timedelta(seconds=1)
"""An answer that was on its way when the minute ended still counts."""


@dataclass(frozen=True, slots=True)
class MinuteByClock:
    """One minute: its form, the day, and how many drills were answered in it and how many of them right."""

    kind: str
    form: str
    level: int
    day: date
    right: int
    drills: int

    @property
    def of(self) -> tuple[str, str, int]:
        """What minutes are compared by: kind, form and level."""
        return self.kind, self.form, self.level


def minutes_by_clock(attempts: Iterable[Attempt]) -> list[MinuteByClock]:
    """Return the minutes that attempts belong to by their sittings, the attempts being in order of time."""
    ordered = sorted(attempts, key=lambda each: (each.sitting or "", each.order))
    sittings = [list(group) for _, group in groupby(ordered, key=lambda each: each.sitting)]
    return [_minute(group) for group in sorted(sittings, key=lambda group: group[0].order)]


def _minute(attempts: Sequence[Attempt]) -> MinuteByClock:
    first = attempts[0]
    begun = first.at - timedelta(milliseconds=first.milliseconds or 0)
    within = [each for each in attempts if each.at - begun <= LASTS + _LATE]
    right = sum(each.right for each in within)
    return MinuteByClock(first.kind, first.form, first.level, first.practice_day, right, len(within))
