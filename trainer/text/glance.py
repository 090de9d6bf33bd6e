"""The record at a glance: four charts that are looked at, each with one sentence."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from math import ceil
from typing import Final

from drills.questions import KINDS
from progress_store import WHOLE, DayRow, PaceKey, Record, SkillsInWeek, Week, WeeklyPace, Yardstick
from trainer.board import Chart, Value

MOST_YARDSTICKS, MOST_WEEKS, DAYS, WEEK = 8, 12, 28, 7
TOPS: Final = (2, 4, 6, 10, 20, 30, 40, 60, 100, 200, 400, 600)
LEAST_TO_TELL: Final = 4
"""Of 16 right answers a quarter: under that many more or fewer may be chance."""
MEANS: Final = {"keys": "with keys", "mouse": "with the mouse", "text": "typed"}
ONE: Final = "1"


def glance(record: Record, today: date) -> tuple[Chart, Chart, Chart, Chart]:
    """Return the yardsticks, the pace at one form, the skills kept and the minutes a day, in this order."""
    return (
        _yardsticks(record.yardsticks),
        _pace(record.weekly_pace),
        _skills(record.skills_by_week, len(record.skills)),
        _minutes(record.days, today),
    )


def pace_in_words(key: PaceKey) -> str:
    """Return drills whose times can be compared, as in "Find, level 3, 2-3 to mark, with keys"."""
    return f"{form_in_words(key)}, {MEANS.get(key.means, key.means)}"


def form_in_words(key: PaceKey) -> str:
    """Return kind, form where there are several, level, and how many are to be marked where not one."""
    row = KINDS.get(key.kind)
    form = row.forms.get(key.form) if row else None
    words = [row.title if row else key.kind]
    if not row or len(row.forms) > 1:
        words.append(form.words if form else key.form)
    words.append(f"level {key.level}")
    if key.marks != ONE:
        words.append(f"{key.marks} to mark")
    return ", ".join(words)


def _yardsticks(found: Sequence[Yardstick]) -> Chart:
    whole = [each for each in found if each.is_whole][-MOST_YARDSTICKS:]
    title = f"Yardstick: right of {WHOLE}"
    if not whole:
        return _nothing(title, f"None yet: y at the opening begins one of {WHOLE} drills.")
    shares = [each.right for each in whole]
    values = tuple(
        Value(
            WHOLE * share.count / share.drills,
            (WHOLE * share.interval[0], WHOLE * share.interval[1]),
        )
        for share in shares
    )
    low, high = (round(WHOLE * end) for end in shares[-1].interval)
    says = (
        f"{shares[-1].count} of {shares[-1].drills}, likely {low} to {high}; "
        f"a change under {LEAST_TO_TELL} may be chance."
    )
    return Chart(title, values, WHOLE, _ends([each.window.since for each in whole]), says)


def _pace(found: WeeklyPace | None) -> Chart:
    title = "Seconds for the same form, by week"
    if found is None:
        return _nothing(title, "None yet: it takes answers that are right and timed.")
    days = [week.monday for week in found.weeks]
    mondays = _mondays(days[0], days[-1])
    by_monday = {
        week.monday: Value(
            week.median_ms / 1000, week.interval and (week.interval[0] / 1000, week.interval[1] / 1000)
        )
        for week in found.weeks
    }
    values = tuple(by_monday.get(monday) for monday in mondays)
    shown = [value for value in values if value]
    top = _top(max(max(value.value, *(value.interval or (0.0,))) for value in shown))
    says = f"{form_in_words(found.key)}: {_last_sure(found.weeks)}."
    return Chart(title, values, top, _ends(mondays), says)


def _last_sure(weeks: Sequence[Week]) -> str:
    """Return the last week's median that has an interval, or else the last one."""
    for week in reversed(weeks):
        if week.interval:
            low, high = (end / 1000 for end in week.interval)
            return f"{week.median_ms / 1000:.1f} s ({low:.1f} to {high:.1f})"
    return f"{weeks[-1].median_ms / 1000:.1f} s, too few to be sure"


def _skills(weeks: Sequence[SkillsInWeek], met: int) -> Chart:
    title = "Skills kept, by week"
    if not weeks:
        return _nothing(title, "None yet: kept is right and at your pace after a week away.")
    by_monday = {week.monday: week for week in weeks}
    mondays, values, standing = _mondays(weeks[0].monday, weeks[-1].monday), list[Value](), weeks[0]
    for monday in mondays:
        # a week without practice changes no skill
        standing = by_monday.get(monday) or max(
            (week for week in weeks if week.monday < monday), key=lambda week: week.monday
        )
        values.append(Value(standing.kept))
    says = f"{standing.kept} of {met} skills are kept after a week away; {standing.quick} more are quick."
    top = _top(max(value.value for value in values))
    return Chart(title, tuple(values), top, _ends(mondays), says, bars=True)


def _minutes(rows: Sequence[DayRow], today: date) -> Chart:
    title = f"Minutes a day, the last {DAYS} days"
    by_day = {row.day: row.minutes for row in rows}
    days = [today - timedelta(days=back) for back in range(DAYS - 1, -1, -1)]
    values = tuple(Value(by_day[day]) if day in by_day else None for day in days)
    shown = [value.value for value in values if value]
    if not shown:
        return _nothing(title, f"None in the last {DAYS} days.")
    says = f"{sum(shown):.1f} minutes on {len(shown)} of {DAYS} days."
    return Chart(title, values, _top(max(shown)), _ends(days), says, bars=True)


def _nothing(title: str, says: str) -> Chart:
    return Chart(title, (), 1, ("", ""), says)


def _mondays(first: date, last: date) -> list[date]:
    """Return the Mondays from one to another, the last twelve of them."""
    number = min(MOST_WEEKS, (last - first).days // WEEK + 1)
    return [last - timedelta(weeks=back) for back in range(number - 1, -1, -1)]


def _ends(days: Sequence[date]) -> tuple[str, str]:
    first, last = (f"{day.day} {day:%b}" for day in (days[0], days[-1]))
    return first, last if len(days) > 1 else ""


def _top(largest: float) -> float:
    """Return where a scale ends that holds the largest figure."""
    return next((top for top in TOPS if largest <= top), ceil(largest))
