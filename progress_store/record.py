"""The record: every figure of a log, worked out once. Text, JSON and table are views of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from progress_store.attempt import Attempt
from progress_store.columns import NONE, Columns, grouped, is_right
from progress_store.experiment import Experiment, experiment
from progress_store.figures import (
    AfterAWeekAway,
    Confusions,
    Errors,
    PaceChange,
    after_a_week_away,
    confusions,
    errors,
    in_minutes,
    pace_changes,
    slips,
    taken_for,
)
from progress_store.pace import WINDOW
from progress_store.schedule import Word
from progress_store.state import Judged, Rules, State
from progress_store.statistics import Share, middle
from progress_store.weeks import SkillsInWeek, WeeklyPace, skills_by_week, weekly_pace
from progress_store.yardsticks import Yardstick, yardsticks

if TYPE_CHECKING:
    from progress_store.columns import Rows


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
class TakenRow:
    """How often a skill was taken for another one, the walk included; or a slip, where that is not known."""

    skill: str
    taken_for: str | None
    slip: str | None
    times: int


@dataclass(frozen=True, slots=True)
class Record:
    """What a log shows, with no time of making: equal attempts under equal rules give equal records.

    Skills stand in the order of their names, days and yardsticks in that of time, what was taken for what and
    confusions with the most frequent first. A skill that only the walk met has no row.
    """

    attempts: int
    skills: tuple[SkillRow, ...]
    days: tuple[DayRow, ...]
    taken: tuple[TakenRow, ...]
    yardsticks: tuple[Yardstick, ...]
    after_a_week_away: AfterAWeekAway | None
    pace_changes: tuple[PaceChange, ...]
    weekly_pace: WeeklyPace | None
    skills_by_week: tuple[SkillsInWeek, ...]
    experiment: Experiment | None
    errors: tuple[Errors, ...]
    confusions: tuple[Confusions, ...]

    @classmethod
    def of(cls, attempts: Iterable[Attempt], rules: Rules) -> Record:
        """Return the record of the attempts, in whatever order they come."""
        state, drills, measured = State(rules), Columns(), list[Judged]()
        for attempt in sorted(attempts, key=lambda attempt: attempt.order):
            state, judged = state.step(attempt)
            drills.add(judged)
            if attempt.purpose == "yardstick":
                measured.append(judged)
        return cls.worked_out(drills, measured, state)

    @classmethod
    def worked_out(cls, drills: Columns, measured: Sequence[Judged], state: State) -> Record:
        """Return the record of all drills, given those of yardsticks as well and the state after all."""
        return cls(
            attempts=len(drills),
            skills=_skill_rows(drills, state),
            days=_day_rows(drills.table()),
            taken=_taken_rows(drills),
            yardsticks=tuple(yardsticks(measured)),
            after_a_week_away=after_a_week_away(drills),
            pace_changes=tuple(pace_changes(drills)),
            weekly_pace=weekly_pace(drills),
            skills_by_week=tuple(skills_by_week(drills)),
            experiment=experiment(drills),
            errors=tuple(errors(drills)),
            confusions=tuple(confusions(drills)),
        )


def _skill_rows(drills: Columns, state: State) -> tuple[SkillRow, ...]:
    own, timed = drills.own(), drills.timed()
    rows, times = grouped(own, own["skill"]), grouped(timed, timed["skill"])
    ordered = sorted((drills.skills.all[place], place) for place in rows)
    return tuple(
        _skill_row(skill, rows[place], times.get(place, own[:0]), drills, state) for skill, place in ordered
    )


def _skill_row(skill: str, rows: Rows, timed: Rows, drills: Columns, state: State) -> SkillRow:
    # a skill that only a yardstick met is not in the state
    known, last = state.skills.get(skill), rows[-1]
    key, marks = (
        (known.pace_key, known.marks) if known else (drills.keys.all[int(last["key"])], int(last["marks"]))
    )
    times = timed["net_ms"][timed["key"] == drills.keys.place(key)][-WINDOW:].tolist()
    return SkillRow(
        skill,
        Share(int(is_right(rows).sum()), len(rows)),
        int(middle(times)) if times else None,
        state.goal_ms(key, marks),
        known.word if known else "new",
        known.next if known else None,
    )


def _day_rows(rows: Rows) -> tuple[DayRow, ...]:
    return tuple(
        DayRow(
            date.fromordinal(day),
            Share(int(is_right(drills).sum()), len(drills)),
            in_minutes(int(drills["milliseconds"][drills["milliseconds"] != NONE].sum())),
        )
        for day, drills in sorted(grouped(rows, rows["day"]).items())
    )


def _taken_rows(drills: Columns) -> tuple[TakenRow, ...]:
    rows, found = drills.table(), list[TakenRow]()
    for place, those in grouped(rows, rows["skill"]).items():
        skill = drills.skills.all[place]
        found += (TakenRow(skill, other, None, times) for other, times in taken_for(drills, those).items())
        found += (TakenRow(skill, None, slip, times) for slip, times in slips(drills, those).items())
    return tuple(sorted(found, key=lambda row: (-row.times, row.skill, row.taken_for or "", row.slip or "")))
