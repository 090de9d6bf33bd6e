"""What calendar weeks show: the pace at one form, and how many skills were quick or kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Final

from progress_store.columns import NONE, Columns, grouped, is_first, results_of
from progress_store.figures import Window
from progress_store.pace import PaceKey
from progress_store.schedule import Mastery
from progress_store.statistics import median_interval, middle

if TYPE_CHECKING:
    from progress_store.columns import Rows

_DAYS: Final = 7


@dataclass(frozen=True, slots=True)
class Week:
    """Right timed answers of a calendar week: the median time to read and its interval, in milliseconds.

    The window holds the days with any such answer; the interval is None under six drills.
    """

    monday: date
    drills: int
    median_ms: float
    interval: tuple[float, float] | None
    window: Window


@dataclass(frozen=True, slots=True)
class WeeklyPace:
    """The weeks, in order, of the pace key with most right timed answers."""

    key: PaceKey
    weeks: tuple[Week, ...]


@dataclass(frozen=True, slots=True)
class SkillsInWeek:
    """How many skills were quick and how many kept after the last first drill of a calendar week."""

    monday: date
    quick: int
    kept: int


def weekly_pace(drills: Columns) -> WeeklyPace | None:
    """Return the weeks of the pace key with most right timed answers, None where there are none."""
    timed = drills.timed()
    by_key = {drills.keys.all[place]: rows for place, rows in grouped(timed, timed["key"]).items()}
    if not by_key:
        return None
    key = min(by_key, key=lambda key: (-len(by_key[key]), key))
    weeks = _by_week(by_key[key])
    return WeeklyPace(key, tuple(_week(weeks[number], number) for number in sorted(weeks)))


def skills_by_week(drills: Columns) -> list[SkillsInWeek]:
    """Return how skills stood at the end of each week with first drills, in order of time."""
    rows = drills.table()
    weeks = _by_week(rows[is_first(rows)])
    standing: dict[int, Mastery] = {}
    found = []
    for number in sorted(weeks):
        _stand_after(standing, weeks[number])
        words = [mastery.word for mastery in standing.values()]
        found.append(SkillsInWeek(_monday(number), words.count("quick"), words.count("kept")))
    return found


def _stand_after(standing: dict[int, Mastery], firsts: Rows) -> None:
    """Let what is known of each skill follow some first drills, in order of time."""
    told: Iterable[tuple[int, int]] = zip(firsts["skill"].tolist(), firsts["days_away"].tolist(), strict=True)
    for (skill, away), result in zip(told, results_of(firsts), strict=True):
        days_away = None if away == NONE else away
        standing[skill] = standing.get(skill, Mastery()).after(result, days_away)


def _by_week(rows: Rows) -> dict[int, Rows]:
    # day 1 of the calendar was a Monday
    return grouped(rows, (rows["day"] - 1) // _DAYS)


def _monday(number: int) -> date:
    return date.fromordinal(1 + _DAYS * number)


def _week(timed: Rows, number: int) -> Week:
    times = timed["net_ms"].tolist()
    return Week(_monday(number), len(times), middle(times), median_interval(times), Window.of(timed))
