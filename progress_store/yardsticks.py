"""Yardsticks in the log: which drills belong together, and how one compares with the first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import Final, NamedTuple

from progress_store.attempt import Attempt
from progress_store.state import Judged
from progress_store.statistics import median_interval, middle

WHOLE: Final = 16
"""The drills of a whole yardstick."""
_RUNS_ON: Final = timedelta(hours=1)


class Yardstick(NamedTuple):
    """The drills of one yardstick in order of time, each code's first answer alone; numbered from 1."""

    number: int
    drills: tuple[Judged, ...]

    @property
    def since(self) -> date:
        """The practice day it was begun."""
        return self.drills[0].attempt.practice_day

    @property
    def until(self) -> date:
        """The practice day of its last drill."""
        return self.drills[-1].attempt.practice_day

    @property
    def is_whole(self) -> bool:
        """Whether it was gone through to its end; only then is it compared."""
        return len(self.drills) >= WHOLE

    @property
    def right(self) -> int:
        """How many were right."""
        return sum(each.attempt.right for each in self.drills)

    @property
    def right_a_minute(self) -> tuple[float, int] | None:
        """Right answers a minute of answering, and of how many drills: those whose time was kept."""
        timed = [each.attempt for each in self.drills if each.attempt.milliseconds is not None]
        spent = sum(attempt.milliseconds or 0 for attempt in timed)
        return (60_000 * sum(attempt.right for attempt in timed) / spent, len(timed)) if spent else None


class Against(NamedTuple):
    """Time against another yardstick: the median ratio over so many pairs of drills, and its interval."""

    ratio: float
    interval: tuple[float, float] | None
    pairs: int


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
    found = sittings(each.attempt for each in judged)
    return [
        Yardstick(number, tuple(by_id[attempt.id] for attempt in attempts))
        for number, attempts in enumerate(found, 1)
    ]


def time_against(later: Yardstick, first: Yardstick) -> Against | None:
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
    return Against(middle(ratios), median_interval(ratios), len(ratios)) if ratios else None


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
