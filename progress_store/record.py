"""The record: every figure of a log, worked out once. Text, JSON and table are views of it."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from progress_store.attempt import Attempt
from progress_store.figures import (
    AfterAWeekAway,
    Confusions,
    Errors,
    PaceChange,
    WeeklyPace,
    after_a_week_away,
    confusions,
    errors,
    minutes,
    pace_changes,
    weekly_pace,
)
from progress_store.pace import WINDOW, counts_for_pace
from progress_store.schedule import Word
from progress_store.state import Judged, Rules, State, replay
from progress_store.statistics import Share, middle
from progress_store.yardsticks import Yardstick, yardsticks


@dataclass(frozen=True, slots=True)
class SkillRow:
    """How a skill stands: its share right, times in milliseconds, its word, and when it comes round next.

    `median_ms` is over the last 12 right timed answers at the pace key last met, and `goal_ms` is its goal.
    """

    skill: str
    right: Share
    median_ms: int | None
    goal_ms: int | None
    word: Word
    next: date | None


@dataclass(frozen=True, slots=True)
class DayRow:
    """What was done on a practice day: drills, how many were right, minutes of answering to the tenth."""

    day: date
    right: Share
    minutes: float


@dataclass(frozen=True, slots=True)
class SlipRow:
    """How often a slip was made at a skill, the walk included."""

    skill: str
    slip: str
    times: int


@dataclass(frozen=True, slots=True)
class Record:
    """What a log shows, with no time of making: equal attempts under equal rules give equal records.

    Skills stand in the order of their names, days and yardsticks in that of time, slips and confusions with
    the most frequent first. A skill that only the walk met has no row.
    """

    drills: tuple[Judged, ...]
    skills: tuple[SkillRow, ...]
    days: tuple[DayRow, ...]
    slips: tuple[SlipRow, ...]
    yardsticks: tuple[Yardstick, ...]
    after_a_week_away: AfterAWeekAway | None
    pace_changes: tuple[PaceChange, ...]
    weekly_pace: WeeklyPace | None
    errors: tuple[Errors, ...]
    confusions: tuple[Confusions, ...]

    @classmethod
    def of(cls, attempts: Iterable[Attempt], rules: Rules) -> Record:
        """Return the record of the attempts, in whatever order they come."""
        state, judged = replay(attempts, rules)
        ordered = [each.attempt for each in judged]
        return cls(
            drills=tuple(judged),
            skills=_skill_rows(judged, state),
            days=_day_rows(ordered),
            slips=_slip_rows(ordered),
            yardsticks=tuple(yardsticks(judged)),
            after_a_week_away=after_a_week_away(judged),
            pace_changes=tuple(pace_changes(judged)),
            weekly_pace=weekly_pace(judged),
            errors=tuple(errors(ordered)),
            confusions=tuple(confusions(ordered)),
        )


def _skill_rows(judged: Iterable[Judged], state: State) -> tuple[SkillRow, ...]:
    by_skill: dict[str, list[Judged]] = defaultdict(list)
    for each in judged:
        if each.attempt.purpose != "walk":
            by_skill[each.attempt.skill].append(each)
    return tuple(_skill_row(skill, by_skill[skill], state) for skill in sorted(by_skill))


def _skill_row(skill: str, judged: Sequence[Judged], state: State) -> SkillRow:
    # a skill that only a yardstick met is not in the state
    known, last = state.skills.get(skill), judged[-1]
    key, marks = (known.pace_key, known.marks) if known else (last.pace_key, last.attempt.marks)
    times = [
        each.net_ms
        for each in judged
        if each.net_ms is not None and counts_for_pace(each.attempt) and each.pace_key == key
    ]
    return SkillRow(
        skill,
        Share(sum(each.attempt.right for each in judged), len(judged)),
        int(middle(times[-WINDOW:])) if times else None,
        state.goal_ms(key, marks),
        known.word if known else "new",
        known.next if known else None,
    )


def _day_rows(attempts: Iterable[Attempt]) -> tuple[DayRow, ...]:
    by_day: dict[date, list[Attempt]] = defaultdict(list)
    for attempt in attempts:
        by_day[attempt.practice_day].append(attempt)
    return tuple(
        DayRow(day, Share(sum(attempt.right for attempt in drills), len(drills)), minutes(drills))
        for day, drills in sorted(by_day.items())
    )


def _slip_rows(attempts: Iterable[Attempt]) -> tuple[SlipRow, ...]:
    times = Counter((attempt.skill, attempt.slip) for attempt in attempts if attempt.slip is not None)
    ordered = sorted(times, key=lambda pair: (-times[pair], pair))
    return tuple(SlipRow(skill, slip, times[skill, slip]) for skill, slip in ordered)
