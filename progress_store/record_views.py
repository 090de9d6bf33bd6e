"""The record as JSON fields and as a table of attempts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, fields
from typing import Final

from progress_store.attempt import Attempt
from progress_store.experiment import Experiment
from progress_store.figures import Confusions, Errors, PaceChange, Window
from progress_store.record import Record, SkillRow
from progress_store.state import Judged
from progress_store.statistics import Share
from progress_store.weeks import WeeklyPace
from progress_store.yardsticks import Yardstick, yardsticks

_COLUMNS: Final = (
    "practice_day",
    *(each.name for each in fields(Attempt) if each.name not in {"gaps", "other"}),
    *("result", "net_ms", "goal_ms", "first", "days_away", "yardstick"),
)


def record_to_json(record: Record, name_of: Callable[[str], str]) -> dict[str, object]:
    """Return the record as JSON fields; `name_of` gives the name of a skill that is shown beside it."""
    return {
        "attempts": record.attempts,
        "skills": [_skill(row, name_of) for row in record.skills],
        "days": [
            {
                "day": row.day.isoformat(),
                "tries": row.right.drills,
                "right": row.right.count,
                "minutes": row.minutes,
            }
            for row in record.days
        ],
        "yardsticks": [_yardstick_row(each) for each in record.yardsticks],
        "confusions": [asdict(row) for row in record.taken],
        "figures": _figures(record, name_of),
    }


def attempt_rows(judged: Sequence[Judged]) -> Iterator[list[str]]:
    """Yield the names of the columns and then a row for each of the drills, in order of time.

    What is not known is empty; the last columns say how the attempt was judged and the number of its
    yardstick, so that every figure can be worked out from the table.
    """
    yield list(_COLUMNS)
    numbers = {each.attempt.id: found.number for found in yardsticks(judged) for each in found.drills}
    for each in judged:
        known = {
            **each._asdict(),
            **each.attempt.to_json(),
            "practice_day": each.attempt.practice_day,
            "yardstick": numbers.get(each.attempt.id),
        }
        yield [_cell(known.get(column)) for column in _COLUMNS]


def _cell(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)


def _skill(row: SkillRow, name_of: Callable[[str], str]) -> dict[str, object]:
    return {
        "skill": row.skill,
        "name": name_of(row.skill),
        "tries": row.right.drills,
        "right": row.right.count,
        "interval": _ends(row.right.interval),
        "median_ms": row.median_ms,
        "goal_ms": row.goal_ms,
        "state": row.word,
        "next": row.next.isoformat() if row.next else None,
    }


def _yardstick_row(each: Yardstick) -> dict[str, object]:
    return {
        "day": each.window.since.isoformat(),
        "tries": each.right.drills,
        "right": each.right.count,
        "interval": _ends(each.right.interval),
        "minutes": each.minutes,
    }


def _figures(record: Record, name_of: Callable[[str], str]) -> dict[str, object]:
    """Return the figures; shares have score intervals, times exact bootstrap ones."""
    after = record.after_a_week_away
    return {
        "yardsticks": [_yardstick(each) for each in record.yardsticks],
        "after_a_week_away": after
        and {"drills": after.right.drills, **_share("right", after.right), **_window(after.window)},
        "pace": [_pace_change(each) for each in record.pace_changes],
        "weeks": record.weekly_pace and _weeks(record.weekly_pace),
        "errors": [_errors(each) for each in record.errors],
        "experiment": record.experiment and _experiment(record.experiment),
        "taken": [_confusions(each, name_of) for each in record.confusions],
    }


def _yardstick(each: Yardstick) -> dict[str, object]:
    """Return one yardstick; what was left before its end has its number of drills and is not compared."""
    row: dict[str, object] = {
        "number": each.number,
        **_window(each.window),
        "drills": len(each.drills),
        "whole": each.is_whole,
    }
    if not each.is_whole:
        return row
    row |= _share("right", each.right)
    if rate := each.rate:
        row |= {"right_a_minute": round(rate.right_a_minute, 2), "timed": rate.timed}
    if against := each.against_first:
        row["time_against_first"] = {
            "ratio": round(against.ratio, 3),
            "interval": _ends(against.interval),
            "drills": against.pairs,
        }
    return row


def _pace_change(each: PaceChange) -> dict[str, object]:
    return {
        **each.key._asdict(),
        "first_seconds": each.first_seconds,
        "first_drills": each.first_drills,
        "last_seconds": each.last_seconds,
        "last_drills": each.last_drills,
        "ratio_interval": _ends(each.interval),
        **_window(each.window),
    }


def _weeks(found: WeeklyPace) -> dict[str, object]:
    weeks = [
        {
            "monday": week.monday.isoformat(),
            **_window(week.window),
            "drills": week.drills,
            "median_ms": round(week.median_ms),
            "interval": [round(end) for end in week.interval] if week.interval else None,
        }
        for week in found.weeks
    ]
    return {**found.key._asdict(), "weeks": weeks}


def _errors(each: Errors) -> dict[str, object]:
    return {
        "kind": each.kind,
        "drills": each.with_misses.drills,
        "misses": each.misses,
        "false_alarms": each.false_alarms,
        **_share("with_misses", each.with_misses),
        **_share("with_false_alarms", each.with_false_alarms),
        **_window(each.window),
    }


def _confusions(each: Confusions, name_of: Callable[[str], str]) -> dict[str, object]:
    return {
        "kind": each.kind,
        "skill": each.skill,
        "name": name_of(each.skill),
        "drills": each.missed.drills,
        **_share("missed", each.missed),
        **_share("marked_wrongly", each.marked_wrongly),
        "taken_for": [
            {"skill": other.skill, "times": other.share.count, "interval": _ends(other.share.interval)}
            for other in each.taken
        ],
        "slips": [
            {"slip": slip.slip, "times": slip.share.count, "interval": _ends(slip.share.interval)}
            for slip in each.slips
        ],
        **_window(each.window),
    }


def _experiment(found: Experiment) -> dict[str, object]:
    sides = {"back": found.back, "not_back": found.not_back}
    return {
        "since": found.since.isoformat(),
        "days": found.days,
        **{name: side and {"drills": side.drills, **_share("right", side)} for name, side in sides.items()},
        "difference": round(found.difference, 4) if found.is_over else None,
        "difference_interval": _ends(found.interval) if found.is_over else None,
        "sees": round(found.sees, 4) if found.is_over else None,
    }


def _share(name: str, share: Share) -> dict[str, object]:
    interval = "interval" if name == "right" else f"{name}_interval"
    return {name: share.count, interval: _ends(share.interval)}


def _window(window: Window) -> dict[str, object]:
    return {"since": window.since.isoformat(), "until": window.until.isoformat()}


def _ends(interval: tuple[float, float] | None) -> list[float] | None:
    return [round(end, 4) for end in interval] if interval else None
