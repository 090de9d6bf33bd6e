"""The few figures that say whether practice helps, each with its number of drills and its window."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from math import sqrt
from statistics import median
from typing import Final, NamedTuple

from progress_store.attempt import Attempt
from progress_store.pace import PaceKey, counts_for_pace
from progress_store.schedule import DAYS_AWAY
from progress_store.state import Judged
from progress_store.statistics import median_interval, middle, ratio_interval

_Z_95: Final = 1.959963984540054
_WEEK: Final = timedelta(days=7)


class Share(NamedTuple):
    """Right of so many drills, from the first to the last practice day counted (None without drills)."""

    right: int
    drills: int
    since: date | None
    until: date | None


class PaceChange(NamedTuple):
    """Median seconds of right answers at one form in its first and its last week, with the drills of each.

    ``interval`` is that of the last median over the first, None where a week has too few drills.
    """

    form: PaceKey
    first_seconds: float
    first_drills: int
    last_seconds: float
    last_drills: int
    since: date
    until: date
    interval: tuple[float, float] | None = None


class Errors(NamedTuple):
    """Misses and false alarms of a kind, apart, over so many drills and from which practice day to which.

    ``with_misses`` and ``with_false_alarms`` are the drills that have any.
    """

    kind: str
    misses: int
    false_alarms: int
    drills: int
    since: date
    until: date
    with_misses: int
    with_false_alarms: int


def wilson(right: int, tries: int) -> tuple[float, float]:
    """Return the 95 % score interval of a share, tries positive (E. B. Wilson, JASA 22 (1927) 209-212)."""
    share, square = right / tries, _Z_95**2
    middle = (share + square / (2 * tries)) / (1 + square / tries)
    half = _Z_95 * sqrt(share * (1 - share) / tries + square / (4 * tries**2)) / (1 + square / tries)
    return max(0.0, middle - half), min(1.0, middle + half)


def after_a_week_away(judged: Iterable[Judged]) -> Share:
    """Return how the first drills of a skill went that was not met for 7 days or more."""
    met = [each for each in judged if each.first and (each.days_away or 0) >= DAYS_AWAY]
    days = [each.attempt.practice_day for each in met]
    right = sum(each.attempt.right for each in met)
    return Share(right, len(met), min(days, default=None), max(days, default=None))


def pace_changes(judged: Iterable[Judged]) -> list[PaceChange]:
    """Return the change of pace of every form practised over two weeks or more, sorted by form."""
    times: dict[PaceKey, list[tuple[date, int]]] = {}
    for each in judged:
        if each.net_ms is not None and counts_for_pace(each.attempt):
            times.setdefault(each.form, []).append((each.attempt.practice_day, each.net_ms))
    changes = (_pace_change(form, times[form]) for form in sorted(times))
    return [change for change in changes if change is not None]


def errors(attempts: Iterable[Attempt]) -> list[Errors]:
    """Return misses and false alarms of each kind, sorted by kind; the walk tells none."""
    by_kind: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        if attempt.purpose != "walk":
            by_kind.setdefault(attempt.kind, []).append(attempt)
    return [_errors(kind, by_kind[kind]) for kind in sorted(by_kind)]


def confusions(attempts: Iterable[Attempt]) -> Mapping[tuple[str, str], int]:
    """Return how often each slip was made at each skill, by (skill, slip)."""
    times: dict[tuple[str, str], int] = {}
    for attempt in attempts:
        if attempt.slip is not None:
            times[attempt.skill, attempt.slip] = times.get((attempt.skill, attempt.slip), 0) + 1
    return times


def _pace_change(form: PaceKey, times: Sequence[tuple[date, int]]) -> PaceChange | None:
    since, until = min(times)[0], max(times)[0]
    if until - since < 2 * _WEEK - timedelta(days=1):
        return None
    early = [ms for day, ms in times if day < since + _WEEK]
    late = [ms for day, ms in times if day > until - _WEEK]
    interval = ratio_interval([max(1, ms) for ms in late], [max(1, ms) for ms in early])
    return PaceChange(form, _seconds(early), len(early), _seconds(late), len(late), since, until, interval)


def _seconds(times: Sequence[int]) -> float:
    return round(median(times) / 1000, 1)


def _errors(kind: str, attempts: Sequence[Attempt]) -> Errors:
    days = [attempt.practice_day for attempt in attempts]
    misses = sum(attempt.misses for attempt in attempts)
    false_alarms = sum(attempt.false_alarms for attempt in attempts)
    with_misses = sum(attempt.misses > 0 for attempt in attempts)
    with_false_alarms = sum(attempt.false_alarms > 0 for attempt in attempts)
    drills, since, until = len(attempts), min(days), max(days)
    return Errors(kind, misses, false_alarms, drills, since, until, with_misses, with_false_alarms)


class Confusions(NamedTuple):
    """How many drills of a skill had something missed, something marked wrongly, or a slip of a kind."""

    kind: str
    skill: str
    missed: int
    marked_wrongly: int
    slips: tuple[tuple[str, int], ...]
    drills: int
    since: date
    until: date

    @property
    def times(self) -> int:
        """How often something went wrong in all."""
        return self.missed + self.marked_wrongly + sum(times for _, times in self.slips)


def taken(attempts: Iterable[Attempt]) -> list[Confusions]:
    """Return the skills with anything wrong, the most often wrong first; the walk tells nothing."""
    by_skill: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        if attempt.purpose != "walk":
            by_skill.setdefault(attempt.skill, []).append(attempt)
    found = [_taken(skill, drills) for skill, drills in by_skill.items()]
    return sorted(
        (each for each in found if each.times),
        key=lambda each: (-each.times, each.skill),
    )


def _taken(skill: str, attempts: list[Attempt]) -> Confusions:
    days = [attempt.practice_day for attempt in attempts]
    missed = sum(attempt.misses > 0 for attempt in attempts)
    wrongly = sum(attempt.false_alarms > 0 for attempt in attempts)
    slips = Counter(attempt.slip for attempt in attempts if attempt.slip is not None)
    kind, drills = attempts[0].kind, len(attempts)
    return Confusions(
        kind, skill, missed, wrongly, tuple(sorted(slips.items())), drills, min(days), max(days)
    )


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


def weekly_pace(judged: Iterable[Judged]) -> tuple[PaceKey, list[Week]] | None:
    """Return the form with most right timed answers and its weeks in order, None where there are none."""
    times: dict[PaceKey, dict[date, list[tuple[date, int]]]] = {}
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
