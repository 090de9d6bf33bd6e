"""Median seconds week by week at the form that is practised most."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import NamedTuple

from progress_store.bootstrap import median_interval, middle
from progress_store.pace import Form, counts_for_pace
from progress_store.state import Judged


class Week(NamedTuple):
    """Right timed answers of a week, its Monday and its first and last practice day with any.

    The median time to read and its interval are in milliseconds; the interval is None under six drills.
    """

    monday: date
    since: date
    until: date
    drills: int
    median_ms: float
    interval: tuple[float, float] | None


def weekly_pace(judged: Iterable[Judged]) -> tuple[Form, list[Week]] | None:
    """Return the form with most right timed answers and its weeks in order, None where there are none."""
    times: dict[Form, dict[date, list[tuple[date, int]]]] = {}
    for each in judged:
        if each.net_ms is not None and counts_for_pace(each.attempt):
            day = each.attempt.practice_day
            monday = day - timedelta(days=day.weekday())
            times.setdefault(each.form, {}).setdefault(monday, []).append((day, each.net_ms))
    if not times:
        return None
    form = min(times, key=lambda form: (-sum(map(len, times[form].values())), form))
    return form, [_week(monday, found) for monday, found in sorted(times[form].items())]


def _week(monday: date, found: list[tuple[date, int]]) -> Week:
    days, times = zip(*found, strict=True)
    return Week(monday, min(days), max(days), len(found), middle(times), median_interval(times))
