"""The few figures that say whether practice helps, each with its number of drills and its window."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Final

from progress_store.attempt import Attempt
from progress_store.columns import Columns, Texts, grouped, is_first, is_right
from progress_store.pace import PaceKey
from progress_store.schedule import DAYS_AWAY
from progress_store.statistics import Share, middle, ratio_interval

if TYPE_CHECKING:
    from progress_store.columns import Rows

_WEEK: Final = 7


@dataclass(frozen=True, slots=True)
class Window:
    """The first and the last practice day that a figure is from."""

    since: date
    until: date

    @classmethod
    def of(cls, rows: Rows) -> Window:
        """Return the window of some drills, at least one."""
        days = rows["day"]
        return cls(date.fromordinal(int(days.min())), date.fromordinal(int(days.max())))


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
class Taken:
    """How many drills of a skill were answered with the right answer of another one."""

    skill: str
    share: Share


@dataclass(frozen=True, slots=True)
class Confusions:
    """What is taken for what at a skill: drills with something missed, marked wrongly, or a slip.

    `taken` has those whose answer was another skill's, the most frequent first; `slips` the others.
    """

    kind: str
    skill: str
    missed: Share
    marked_wrongly: Share
    taken: tuple[Taken, ...]
    slips: tuple[Slip, ...]
    window: Window

    @property
    def times(self) -> int:
        """How often something went wrong in all."""
        return self.missed.count + self.marked_wrongly.count + sum(each.share.count for each in self.slips)


def after_a_week_away(drills: Columns) -> AfterAWeekAway | None:
    """Return how the first drills after 7 days or more went, None where there are none."""
    rows = drills.table()
    met = rows[is_first(rows) & (rows["days_away"] >= DAYS_AWAY)]
    return AfterAWeekAway(Share(int(is_right(met).sum()), len(met)), Window.of(met)) if len(met) else None


def pace_changes(drills: Columns) -> list[PaceChange]:
    """Return the change of pace at every key practised over two weeks or more, sorted by key."""
    timed = drills.timed()
    by_key = {drills.keys.all[place]: rows for place, rows in grouped(timed, timed["key"]).items()}
    return [change for key in sorted(by_key) if (change := _pace_change(key, by_key[key]))]


def _pace_change(key: PaceKey, timed: Rows) -> PaceChange | None:
    window, days = Window.of(timed), timed["day"]
    if (window.until - window.since).days < 2 * _WEEK - 1:
        return None  # the first week and the last would overlap
    first = timed["net_ms"][days < days.min() + _WEEK]
    last = timed["net_ms"][days > days.max() - _WEEK]
    # a ratio needs times above nothing
    interval = ratio_interval(last.clip(min=1), first.clip(min=1))
    return PaceChange(key, _seconds(first), len(first), _seconds(last), len(last), interval, window)


def errors(drills: Columns) -> list[Errors]:
    """Return misses and false alarms of each kind, sorted by kind; the walk tells none."""
    own = drills.own()
    kinds = sorted({key.kind for key in drills.keys.all})
    of_key = [kinds.index(key.kind) for key in drills.keys.all]
    by_kind = grouped(own, _looked_up(of_key, own["key"]))
    return [
        Errors(
            kinds[place],
            int(rows["misses"].sum()),
            int(rows["false_alarms"].sum()),
            _with(rows, "misses"),
            _with(rows, "false_alarms"),
            Window.of(rows),
        )
        for place, rows in sorted(by_kind.items())
    ]


def confusions(drills: Columns) -> list[Confusions]:
    """Return the skills with anything wrong, the most often wrong first; the walk tells nothing."""
    own = drills.own()
    found = [
        Confusions(
            drills.keys.all[int(rows["key"][0])].kind,
            drills.skills.all[place],
            _with(rows, "misses"),
            _with(rows, "false_alarms"),
            _taken(drills, rows),
            tuple(Slip(slip, Share(times, len(rows))) for slip, times in sorted(slips(drills, rows).items())),
            Window.of(rows),
        )
        for place, rows in grouped(own, own["skill"]).items()
    ]
    wrong = (each for each in found if each.times)
    return sorted(wrong, key=lambda each: (-each.times, each.skill))


def _taken(drills: Columns, rows: Rows) -> tuple[Taken, ...]:
    times = sorted(taken_for(drills, rows).items(), key=lambda pair: (-pair[1], pair[0]))
    return tuple(Taken(skill, Share(number, len(rows))) for skill, number in times)


def taken_for(drills: Columns, rows: Rows) -> dict[str, int]:
    """Return how often each skill was answered in place of what was asked in some rows of the drills."""
    return _times(drills.taken_for, rows, rows["taken_for"])


def slips(drills: Columns, rows: Rows) -> dict[str, int]:
    """Return how often each slip was made in some rows of the drills; one that gave another skill is none."""
    rows = rows[rows["taken_for"] == drills.taken_for.place("")]
    return _times(drills.slips, rows, rows["slip"])


def _times(texts: Texts[str], rows: Rows, places: Rows) -> dict[str, int]:
    found = grouped(rows, places)
    return {texts.all[place]: len(those) for place, those in found.items() if texts.all[place]}


def minutes(attempts: Iterable[Attempt]) -> float:
    """Return the minutes of answering, to the tenth, without what was not timed."""
    return in_minutes(sum(attempt.milliseconds or 0 for attempt in attempts))


def in_minutes(milliseconds: int) -> float:
    """Return a time in minutes, to the tenth."""
    return round(milliseconds / 60_000, 1)


def _seconds(times: Rows) -> float:
    return round(middle(times.tolist()) / 1000, 1)


def _looked_up(values: list[int], places: Rows) -> Rows:
    import numpy as np

    found: Rows = np.array(values, np.int64)[places]
    return found


def _with(rows: Rows, wrong: str) -> Share:
    return Share(int((rows[wrong] > 0).sum()), len(rows))
