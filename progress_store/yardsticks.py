"""Yardsticks in the log: which drills belong together, and how one compares with the first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

from progress_store.attempt import Attempt
from progress_store.figures import Window, minutes
from progress_store.state import Judged
from progress_store.statistics import Share, median_interval, middle

WHOLE: Final = 16
"""The drills of a whole yardstick."""
_RUNS_ON: Final = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class TimeRatio:
    """Time against another yardstick: the median ratio over so many pairs of drills, and its interval."""

    ratio: float
    interval: tuple[float, float] | None
    pairs: int


@dataclass(frozen=True, slots=True)
class AnswerRate:
    """Right answers a minute of answering, over the drills whose time was kept."""

    right_a_minute: float
    timed: int


@dataclass(frozen=True, slots=True)
class Yardstick:
    """The drills of one yardstick in order of time, each code's first answer alone; numbered from 1.

    `against_first` compares a whole one with the first whole one before it, None where it cannot.
    """

    number: int
    drills: tuple[Judged, ...]
    against_first: TimeRatio | None = None

    @property
    def window(self) -> Window:
        """The practice day it was begun and that of its last drill."""
        return Window(self.drills[0].attempt.practice_day, self.drills[-1].attempt.practice_day)

    @property
    def is_whole(self) -> bool:
        """Whether it was gone through to its end; only then is it compared."""
        return len(self.drills) >= WHOLE

    @property
    def right(self) -> Share:
        """How many were right."""
        return Share(sum(each.attempt.right for each in self.drills), len(self.drills))

    @property
    def minutes(self) -> float:
        """Minutes of answering, to the tenth."""
        return minutes(each.attempt for each in self.drills)

    @property
    def rate(self) -> AnswerRate | None:
        """How many right a minute, None where no time was kept."""
        timed = [each.attempt for each in self.drills if each.attempt.milliseconds is not None]
        spent = sum(attempt.milliseconds or 0 for attempt in timed)
        if not spent:
            return None
        return AnswerRate(60_000 * sum(attempt.right for attempt in timed) / spent, len(timed))


def sittings(attempts: Iterable[Attempt]) -> list[tuple[Attempt, ...]]:
    """Return the attempts of each yardstick, those of the log being in order of time.

    Drills belong to one as long as they are of the practice day it was begun, or follow the drill before
    within an hour: a sitting may run past 04:00. Of each code the first answer counts, as the logs of two
    machines may hold the same yardstick twice.
    """
    groups: list[list[Attempt]] = []
    for attempt in attempts:
        if attempt.purpose != "yardstick":
            continue
        if groups and _belongs(attempt, groups[-1]):
            groups[-1].append(attempt)
        else:
            groups.append([attempt])
    return [_first_answers(group) for group in groups]


def yardsticks(judged: Sequence[Judged]) -> list[Yardstick]:
    """Return the yardsticks of a log whose drills are in order of time."""
    by_id = {each.attempt.id: each for each in judged}
    found: list[Yardstick] = []
    first: Yardstick | None = None
    for number, attempts in enumerate(sittings(each.attempt for each in judged), 1):
        each = Yardstick(number, tuple(by_id[attempt.id] for attempt in attempts))
        if each.is_whole and first is not None:
            each = replace(each, against_first=_time_ratio(each, first))
        elif each.is_whole:
            first = each
        found.append(each)
    return found


def _time_ratio(later: Yardstick, first: Yardstick) -> TimeRatio | None:
    """Return how long a yardstick took against another, None where no drill was right and timed in both.

    The recipe has the same skills each time, so drills are paired by skill; a pair counts where both were
    right and timed. The ratio is the median of the ratios of the times to read, and the bootstrap draws
    pairs, so that slow and quick kinds of question do not blur each other.
    """
    before = _by_skill(first)
    pairs = [
        (one, other)
        for skill, drills in _by_skill(later).items()
        for one, other in zip(drills, before.get(skill, ()), strict=False)
    ]
    ratios = [_ms(one) / _ms(other) for one, other in pairs if _tells_time(one) and _tells_time(other)]
    return TimeRatio(middle(ratios), median_interval(ratios), len(ratios)) if ratios else None


def _belongs(attempt: Attempt, group: Sequence[Attempt]) -> bool:
    return attempt.practice_day == group[0].practice_day or attempt.at - group[-1].at < _RUNS_ON


def _first_answers(group: Iterable[Attempt]) -> tuple[Attempt, ...]:
    first: dict[str, Attempt] = {}
    for attempt in group:
        first.setdefault(attempt.code, attempt)
    return tuple(first.values())


def _by_skill(yardstick: Yardstick) -> dict[str, list[Judged]]:
    drills: dict[str, list[Judged]] = defaultdict(list)
    for each in yardstick.drills:
        drills[each.attempt.skill].append(each)
    return drills


def _tells_time(each: Judged) -> bool:
    return each.attempt.right and each.net_ms is not None


def _ms(each: Judged) -> int:
    return max(1, each.net_ms or 0)
