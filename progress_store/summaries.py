"""The record as JSON fields and as rows of a table."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import fields
from datetime import date
from statistics import median
from typing import Final

from progress_store.attempt import Attempt
from progress_store.figures import confusions, wilson
from progress_store.figures_json import figures_fields
from progress_store.pace import WINDOW, Form, counts_for_pace
from progress_store.state import Judged, Rules, State, replay
from progress_store.yardsticks import yardsticks

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


def _median_ms(form: Form, judged: Sequence[Judged]) -> int | None:
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
