"""The figures of the record as JSON fields, each with its number of drills, its window and its interval."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import fields
from datetime import date
from statistics import median
from typing import Final

from progress_store.attempt import Attempt
from progress_store.figures import (
    Confusions,
    Errors,
    PaceChange,
    Week,
    after_a_week_away,
    confusions,
    errors,
    pace_changes,
    taken,
    weekly_pace,
    wilson,
)
from progress_store.pace import WINDOW, PaceKey, counts_for_pace
from progress_store.state import Judged, Rules, State, replay
from progress_store.statistics import RESAMPLES
from progress_store.yardsticks import Yardstick, time_against, yardsticks


def figures_fields(judged: Sequence[Judged], name_of: Callable[[str], str]) -> dict[str, object]:
    """Return the figures of attempts in order of time; shares have score intervals, times bootstrap ones."""
    attempts = [each.attempt for each in judged]
    return {
        "resamples": RESAMPLES,
        "yardsticks": _yardsticks(yardsticks(judged)),
        "after_a_week_away": _after_a_week_away(judged),
        "pace": [_pace(each) for each in pace_changes(judged)],
        "weeks": _weeks(judged),
        "errors": [_errors(each) for each in errors(attempts)],
        "taken": [_taken(each, name_of) for each in taken(attempts)],
    }


def _yardsticks(found: Sequence[Yardstick]) -> list[dict[str, object]]:
    first = next((each for each in found if each.is_whole), None)
    return [_yardstick(each, first) for each in found]


def _yardstick(each: Yardstick, first: Yardstick | None) -> dict[str, object]:
    """Return one yardstick; what was left before its end has its number of drills and is not compared."""
    row: dict[str, object] = {
        "number": each.number,
        **_window(each.since, each.until),
        "drills": len(each.drills),
        "whole": each.is_whole,
    }
    if not each.is_whole:
        return row
    pace = each.right_a_minute
    row |= _share("right", each.right, len(each.drills))
    row |= {"right_a_minute": round(pace[0], 2), "timed": pace[1]} if pace else {}
    against = time_against(each, first) if first and first is not each else None
    if against:
        row["time_against_first"] = {
            "ratio": round(against.ratio, 3),
            "interval": _ends(against.interval),
            "drills": against.pairs,
        }
    return row


def _after_a_week_away(judged: Iterable[Judged]) -> dict[str, object] | None:
    share = after_a_week_away(judged)
    if share.since is None or share.until is None:
        return None
    return {
        "drills": share.drills,
        **_share("right", share.right, share.drills),
        **_window(share.since, share.until),
    }


def _pace(each: PaceChange) -> dict[str, object]:
    return {
        **_form(each.form),
        "first_seconds": each.first_seconds,
        "first_drills": each.first_drills,
        "last_seconds": each.last_seconds,
        "last_drills": each.last_drills,
        "ratio_interval": _ends(each.interval),
        **_window(each.since, each.until),
    }


def _weeks(judged: Iterable[Judged]) -> dict[str, object] | None:
    found = weekly_pace(judged)
    return {**_form(found[0]), "weeks": [_week(week) for week in found[1]]} if found else None


def _week(week: Week) -> dict[str, object]:
    return {
        "monday": week.monday.isoformat(),
        **_window(week.since, week.until),
        "drills": week.drills,
        "median_ms": round(week.median_ms),
        "interval": [round(end) for end in week.interval] if week.interval else None,
    }


def _errors(each: Errors) -> dict[str, object]:
    return {
        "kind": each.kind,
        "drills": each.drills,
        "misses": each.misses,
        "false_alarms": each.false_alarms,
        **_share("with_misses", each.with_misses, each.drills),
        **_share("with_false_alarms", each.with_false_alarms, each.drills),
        **_window(each.since, each.until),
    }


def _taken(each: Confusions, name_of: Callable[[str], str]) -> dict[str, object]:
    return {
        "kind": each.kind,
        "skill": each.skill,
        "name": name_of(each.skill),
        "drills": each.drills,
        **_share("missed", each.missed, each.drills),
        **_share("marked_wrongly", each.marked_wrongly, each.drills),
        "slips": [
            {"slip": slip, "times": times, "interval": _ends(wilson(times, each.drills))}
            for slip, times in each.slips
        ],
        **_window(each.since, each.until),
    }


def _form(form: PaceKey) -> dict[str, object]:
    return form._asdict()


def _share(name: str, some: int, drills: int) -> dict[str, object]:
    ends = _ends(wilson(some, drills))
    return {name: some, "interval" if name == "right" else f"{name}_interval": ends}


def _window(since: date, until: date) -> dict[str, object]:
    return {"since": since.isoformat(), "until": until.isoformat()}


def _ends(interval: tuple[float, float] | None) -> list[float] | None:
    return [round(end, 4) for end in interval] if interval else None


_COLUMNS: Final = (
    "practice_day",
    *(each.name for each in fields(Attempt) if each.name not in {"gaps", "other"}),
    *("result", "net_ms", "goal_ms", "first", "days_away", "yardstick"),
)


def record(attempts: Iterable[Attempt], rules: Rules, name_of: Callable[[str], str]) -> dict[str, object]:
    """Return the record as JSON fields, with no time of writing: equal attempts give equal fields.

    `median_ms` is over the last 12 right timed answers at the form last met, as `goal_ms` is. A skill that
    only the walk met has no row.
    """
    state, judged = replay(attempts, rules)
    ordered = [each.attempt for each in judged]
    by_skill: dict[str, list[Judged]] = {}
    for each in judged:
        if each.attempt.purpose != "walk":
            by_skill.setdefault(each.attempt.skill, []).append(each)
    return {
        "attempts": len(ordered),
        "skills": [_skill_row(skill, by_skill[skill], state, name_of) for skill in sorted(by_skill)],
        "days": _day_rows(ordered),
        "yardsticks": _yardstick_rows(ordered),
        "confusions": _confusion_rows(ordered),
        "figures": figures_fields(judged, name_of),
    }


def attempt_rows(attempts: Iterable[Attempt], rules: Rules) -> Iterator[list[str]]:
    """Yield the names of the columns and then a row for each attempt, in order of time.

    What is not known is empty; the last columns say how the attempt was judged and the number of its
    yardstick, so that every figure can be worked out from the table.
    """
    yield list(_COLUMNS)
    judged = replay(attempts, rules)[1]
    numbers = {each.attempt.id: found.number for found in yardsticks(judged) for each in found.drills}
    for each in judged:
        known = {**each._asdict(), **each.attempt.to_json(), "practice_day": each.attempt.practice_day}
        known["yardstick"] = numbers.get(each.attempt.id)
        yield [_cell(known[column]) for column in _COLUMNS]


def _skill_row(
    skill: str, judged: Sequence[Judged], state: State, name_of: Callable[[str], str]
) -> dict[str, object]:
    known, last = state.skills.get(skill), judged[-1]
    form, marks = (known.form, known.marks) if known else (last.form, last.attempt.marks)
    right = sum(each.attempt.right for each in judged)
    return {
        "skill": skill,
        "name": name_of(skill),
        "tries": len(judged),
        "right": right,
        "interval": _interval(right, len(judged)),
        "median_ms": _median_ms(form, judged),
        "goal_ms": state.goal_ms(form, marks),
        "state": known.word if known else "new",
        "next": known.next.isoformat() if known and known.next else None,
    }


def _median_ms(form: PaceKey, judged: Sequence[Judged]) -> int | None:
    times = [
        each.net_ms
        for each in judged
        if each.net_ms is not None and counts_for_pace(each.attempt) and each.form == form
    ]
    return int(median(times[-WINDOW:])) if times else None


def _day_rows(attempts: Iterable[Attempt]) -> list[dict[str, object]]:
    return [
        {"day": day.isoformat(), "tries": len(tried), "right": _right(tried), "minutes": _minutes(tried)}
        for day, tried in _by_day(attempts)
    ]


def _yardstick_rows(attempts: Iterable[Attempt]) -> list[dict[str, object]]:
    return [
        {
            "day": day.isoformat(),
            "tries": len(tried),
            "right": _right(tried),
            "interval": _interval(_right(tried), len(tried)),
            "minutes": _minutes(tried),
        }
        for day, tried in _by_day(attempt for attempt in attempts if attempt.purpose == "yardstick")
    ]


def _confusion_rows(attempts: Iterable[Attempt]) -> list[dict[str, object]]:
    """Return the slips, the most frequent first."""
    times = confusions(attempts)
    ordered = sorted(times, key=lambda pair: (-times[pair], pair))
    return [{"skill": skill, "slip": slip, "times": times[skill, slip]} for skill, slip in ordered]


def _by_day(attempts: Iterable[Attempt]) -> list[tuple[date, list[Attempt]]]:
    days: dict[date, list[Attempt]] = {}
    for attempt in attempts:
        days.setdefault(attempt.practice_day, []).append(attempt)
    return sorted(days.items())


def _right(attempts: Iterable[Attempt]) -> int:
    return sum(attempt.right for attempt in attempts)


def _minutes(attempts: Iterable[Attempt]) -> float:
    return round(sum(attempt.milliseconds or 0 for attempt in attempts) / 60_000, 1)


def _interval(right: int, tries: int) -> list[float]:
    return [round(end, 4) for end in wilson(right, tries)]


def _cell(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)
