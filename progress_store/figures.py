"""The few figures that say whether practice helps, each with its number of drills and its window."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from progress_store.attempt import Attempt
from progress_store.pace import PaceKey, counts_for_pace
from progress_store.schedule import DAYS_AWAY
from progress_store.state import Judged
from progress_store.statistics import Share, median_interval, middle, ratio_interval

_WEEK: Final = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Window:
    """The first and the last practice day that a figure is from."""

    since: date
    until: date

    @classmethod
    def of(cls, attempts: Iterable[Attempt]) -> Window:
        """Return the window of some attempts, at least one."""
        days = [attempt.practice_day for attempt in attempts]
        return cls(min(days), max(days))


@dataclass(frozen=True, slots=True)
class AfterAWeekAway:
    """How first drills went of skills that had not been met for 7 days or more."""

    right: Share
    window: Window


@dataclass(frozen=True, slots=True)
class PaceChange:
    """Median seconds of right answers at one pace key in its first and its last week, with their drills.

    `interval` is that of the last median over the first, None where a week has too few drills.
    """

    key: PaceKey
    first_seconds: float
    first_drills: int
    last_seconds: float
    last_drills: int
    interval: tuple[float, float] | None
    window: Window


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
class Errors:
    """Misses and false alarms of a kind, apart, and the drills that had any."""

    kind: str
    misses: int
    false_alarms: int
    with_misses: Share
    with_false_alarms: Share
    window: Window


@dataclass(frozen=True, slots=True)
class Slip:
    """How many drills of a skill had one and the same slip."""

    slip: str
    share: Share


@dataclass(frozen=True, slots=True)
class Confusions:
    """What is taken for what at a skill: drills with something missed, marked wrongly, or a slip."""

    kind: str
    skill: str
    missed: Share
    marked_wrongly: Share
    slips: tuple[Slip, ...]
    window: Window

    @property
    def times(self) -> int:
        """How often something went wrong in all."""
        return self.missed.count + self.marked_wrongly.count + sum(each.share.count for each in self.slips)


def after_a_week_away(judged: Iterable[Judged]) -> AfterAWeekAway | None:
    """Return how the first drills after 7 days or more went, None where there are none."""
    met = [each.attempt for each in judged if each.first and (each.days_away or 0) >= DAYS_AWAY]
    if not met:
        return None
    return AfterAWeekAway(Share(sum(attempt.right for attempt in met), len(met)), Window.of(met))


def pace_changes(judged: Iterable[Judged]) -> list[PaceChange]:
    """Return the change of pace at every key practised over two weeks or more, sorted by key."""
    changes = []
    for key, timed in sorted(_timed_by_key(judged).items()):
        window = Window.of(each.attempt for each in timed)
        if window.until - window.since < 2 * _WEEK - timedelta(days=1):
            continue  # the first week and the last would overlap
        first = [_ms(each) for each in timed if each.attempt.practice_day < window.since + _WEEK]
        last = [_ms(each) for each in timed if each.attempt.practice_day > window.until - _WEEK]
        # a ratio needs times above nothing
        interval = ratio_interval([max(1, ms) for ms in last], [max(1, ms) for ms in first])
        changes.append(
            PaceChange(key, _seconds(first), len(first), _seconds(last), len(last), interval, window)
        )
    return changes


def weekly_pace(judged: Iterable[Judged]) -> WeeklyPace | None:
    """Return the weeks of the pace key with most right timed answers, None where there are none."""
    timed_by_key = _timed_by_key(judged)
    if not timed_by_key:
        return None
    key = min(timed_by_key, key=lambda key: (-len(timed_by_key[key]), key))
    by_monday: dict[date, list[Judged]] = defaultdict(list)
    for each in timed_by_key[key]:
        day = each.attempt.practice_day
        by_monday[day - timedelta(days=day.weekday())].append(each)
    weeks = []
    for monday, timed in sorted(by_monday.items()):
        times = [_ms(each) for each in timed]
        window = Window.of(each.attempt for each in timed)
        weeks.append(Week(monday, len(times), middle(times), median_interval(times), window))
    return WeeklyPace(key, tuple(weeks))


def errors(attempts: Iterable[Attempt]) -> list[Errors]:
    """Return misses and false alarms of each kind, sorted by kind; the walk tells none."""
    return [
        Errors(
            kind,
            sum(attempt.misses for attempt in drills),
            sum(attempt.false_alarms for attempt in drills),
            _with_misses(drills),
            _with_false_alarms(drills),
            Window.of(drills),
        )
        for kind, drills in sorted(_own_by(lambda attempt: attempt.kind, attempts).items())
    ]


def confusions(attempts: Iterable[Attempt]) -> list[Confusions]:
    """Return the skills with anything wrong, the most often wrong first; the walk tells nothing."""
    found = []
    for skill, drills in _own_by(lambda attempt: attempt.skill, attempts).items():
        slips = Counter(attempt.slip for attempt in drills if attempt.slip is not None)
        found.append(
            Confusions(
                drills[0].kind,
                skill,
                _with_misses(drills),
                _with_false_alarms(drills),
                tuple(Slip(slip, Share(slips[slip], len(drills))) for slip in sorted(slips)),
                Window.of(drills),
            )
        )
    wrong = (each for each in found if each.times)
    return sorted(wrong, key=lambda each: (-each.times, each.skill))


def minutes(attempts: Iterable[Attempt]) -> float:
    """Return the minutes of answering, to the tenth, without what was not timed."""
    return round(sum(attempt.milliseconds or 0 for attempt in attempts) / 60_000, 1)


def _timed_by_key(judged: Iterable[Judged]) -> dict[PaceKey, list[Judged]]:
    """Return the answers whose time tells how quick the person is."""
    timed: dict[PaceKey, list[Judged]] = defaultdict(list)
    for each in judged:
        if each.net_ms is not None and counts_for_pace(each.attempt):
            timed[each.pace_key].append(each)
    return timed


def _ms(timed: Judged) -> int:
    return timed.net_ms or 0


def _seconds(times: Sequence[int]) -> float:
    return round(middle(times) / 1000, 1)


def _own_by(key: Callable[[Attempt], str], attempts: Iterable[Attempt]) -> dict[str, list[Attempt]]:
    """Return the drills that were left to the person alone, by kind or by skill."""
    own: dict[str, list[Attempt]] = defaultdict(list)
    for attempt in attempts:
        if attempt.purpose != "walk":
            own[key(attempt)].append(attempt)
    return own


def _with_misses(attempts: Sequence[Attempt]) -> Share:
    return Share(sum(attempt.misses > 0 for attempt in attempts), len(attempts))


def _with_false_alarms(attempts: Sequence[Attempt]) -> Share:
    return Share(sum(attempt.false_alarms > 0 for attempt in attempts), len(attempts))
