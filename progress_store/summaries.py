"""The record as JSON fields and as rows of a table."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import fields
from datetime import date
from statistics import median
from typing import Final

from progress_store.attempt import Attempt
from progress_store.figures import confusions, wilson
from progress_store.pace import WINDOW, counts_for_pace
from progress_store.state import Judged, Rules, Skill, State, replay

_COLUMNS: Final = (
    "practice_day",
    *(each.name for each in fields(Attempt) if each.name not in {"gaps", "other"}),
)


def record(attempts: Iterable[Attempt], rules: Rules, name_of: Callable[[str], str]) -> dict[str, object]:
    """Return the record as JSON fields, with no time of writing: equal attempts give equal fields.

    `median_ms` is over the last 12 right timed answers at the form last met, as `goal_ms` is.
    """
    state, judged = replay(attempts, rules)
    ordered = [each.attempt for each in judged]
    by_skill: dict[str, list[Judged]] = {}
    for each in judged:
        by_skill.setdefault(each.attempt.skill, []).append(each)
    return {
        "attempts": len(ordered),
        "skills": [_skill_row(skill, by_skill[skill], state, name_of) for skill in sorted(by_skill)],
        "days": _day_rows(ordered),
        "yardsticks": _yardstick_rows(ordered),
        "confusions": _confusion_rows(ordered),
    }


def attempt_rows(attempts: Iterable[Attempt]) -> Iterator[list[str]]:
    """Yield the names of the columns and then a row for each attempt; what is not known is empty."""
    yield list(_COLUMNS)
    for attempt in attempts:
        known = {**attempt.to_json(), "practice_day": attempt.practice_day}
        yield [_cell(known[column]) for column in _COLUMNS]


def _skill_row(
    skill: str, judged: Sequence[Judged], state: State, name_of: Callable[[str], str]
) -> dict[str, object]:
    known = state.skills[skill]
    right = sum(each.attempt.right for each in judged)
    return {
        "skill": skill,
        "name": name_of(skill),
        "tries": len(judged),
        "right": right,
        "interval": _interval(right, len(judged)),
        "median_ms": _median_ms(known, judged),
        "goal_ms": state.goal_ms(known.form, known.marks),
        "state": known.word,
        "next": known.next.isoformat() if known.next is not None else None,
    }


def _median_ms(known: Skill, judged: Sequence[Judged]) -> int | None:
    times = [
        each.net_ms
        for each in judged
        if each.net_ms is not None and counts_for_pace(each.attempt) and each.form == known.form
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
