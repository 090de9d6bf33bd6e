"""An experiment for oneself: whether a miss goes better on another day if it came back on the same one.

A unit is a skill on a day: its first miss that threw a coin, and its first drill on a later day. It counts
as its coin fell, whatever came then: who sorts by what was done sorts by how the day went.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import sqrt
from typing import Final

from progress_store.columns import BACK, NOT_BACK, Columns, coins_of, is_first, is_right
from progress_store.statistics import Share, difference_interval

EXPERIMENT_DAYS: Final = 60
"""What it shows is told after so many days: who looks often before finds what is not there."""
_SEEN_BY: Final = 1.96 + 0.84
"""Standard errors of a difference that is seen in four experiments of five, at 95 % (common practice)."""


@dataclass(frozen=True, slots=True)
class Experiment:
    """The first drills on a later day of what came back and of what did not; None where there are none."""

    since: date
    days: int
    back: Share | None
    not_back: Share | None

    @property
    def is_over(self) -> bool:
        """Whether so many days have passed that it tells what it shows, and both sides have drills."""
        return self.days >= EXPERIMENT_DAYS and self.back is not None and self.not_back is not None

    @property
    def difference(self) -> float:
        """The share right of what came back, less that of the rest."""
        return _rate(self.back) - _rate(self.not_back)

    @property
    def interval(self) -> tuple[float, float]:
        """Where the difference likely lies, 95 times in 100."""
        assert self.back
        assert self.not_back
        return difference_interval(self.back, self.not_back)

    @property
    def sees(self) -> float:
        """How large a difference must be to be seen with so many drills, four times in five."""
        assert self.back
        assert self.not_back
        first, other = self.back.drills, self.not_back.drills
        share = (self.back.count + self.not_back.count) / (first + other)
        return _SEEN_BY * sqrt(share * (1 - share) * (1 / first + 1 / other))


def _rate(share: Share | None) -> float:
    assert share
    return share.count / share.drills


def experiment(drills: Columns) -> Experiment | None:
    """Return the experiment of some drills, None where no coin was thrown."""
    rows = drills.table()
    coins = coins_of(rows)
    if not (thrown := coins.nonzero()[0].tolist()):
        return None
    sides: dict[bool, list[bool]] = {True: [], False: []}
    owed: dict[int, bool] = {}
    waiting: dict[int, tuple[int, bool]] = {}
    today = drills.purposes.place("today")
    columns = (rows["skill"], rows["day"], is_right(rows), is_first(rows), coins, rows["purpose"] == today)
    for skill, day, right, first, coin, counts in zip(*(each.tolist() for each in columns), strict=True):
        if first and skill in waiting and waiting[skill][0] < day:
            sides[waiting.pop(skill)[1]].append(right)
        if not counts:
            continue
        # a miss of what only came back would not come back once more, coin or none
        may_come = not right and not owed.get(skill, False)
        if may_come and coin and skill not in waiting:
            waiting[skill] = day, coin == BACK
        owed[skill] = may_come and coin != NOT_BACK
    since, until = int(rows["day"][thrown[0]]), int(rows["day"].max())
    return Experiment(date.fromordinal(since), until - since, _share(sides[True]), _share(sides[False]))


def _share(right: list[bool]) -> Share | None:
    return Share(sum(right), len(right)) if right else None
