"""Small plots of plain signs, every one beside its numbers in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from math import ceil

from drills.pattern import number_of
from progress_store import DayRow, Share, Week

DAYS, WEEK, HEIGHT, WIDTH = 28, 7, 4, 16
UNITS = (0.5, 1, 2, 3, 5, 10, 15, 20, 30, 60, 120, 300)
POINTS_A_COLUMN = 5


def share_row(share: Share) -> str:
    """Return a share from 0 to 100 % as a dot, and where it likely lies as a line, 5 points a column."""
    columns = 100 // POINTS_A_COLUMN + 1
    ends = share.interval
    low, dot, high = (round(end * (columns - 1)) for end in (ends[0], share.count / share.drills, ends[1]))
    signs = ["-" if low <= column <= high else " " for column in range(columns)]
    signs[dot] = "o"
    return f"|{''.join(signs)}|"


def bar(value: float, unit: float) -> str:
    """Return a bar of at least one sign, each for so much of the value or a part of it."""
    return "#" * max(1, ceil(value / unit))


def unit_for(largest: float, signs: int) -> float:
    """Return what one sign stands for so that the largest value takes at most so many."""
    return next((unit for unit in UNITS if largest <= unit * signs), largest / signs)


def minutes_plot(days: Sequence[DayRow], today: date) -> Iterator[str]:
    """Yield the minutes a day of the last 28 days as columns, and the sums of its four weeks beside them."""
    first = today - timedelta(days=DAYS - 1)
    shown = [first + timedelta(days=number) for number in range(DAYS)]
    by_day = {row.day: row for row in days}
    met = {day: by_day[day] for day in shown if day in by_day}
    if not met:
        return
    unit = unit_for(max(row.minutes for row in met.values()), HEIGHT)
    heights = [max(1, ceil(met[day].minutes / unit)) if day in met else 0 for day in shown]
    yield f"a column a day, {first} to {today}; # up to {unit:g} minutes, . none"
    for row in range(HEIGHT, 0, -1):
        signs = "".join("#" if height >= row else "." if row == 1 else " " for height in heights)
        week = shown[(HEIGHT - row) * WEEK :][:WEEK]
        yield f"{row * unit:4g} |{signs}| {_sums(met, week)}"


def _sums(met: Mapping[date, DayRow], week: Sequence[date]) -> str:
    rows = [met[day] for day in week if day in met]
    if not rows:
        return f"{week[0]:%m-%d}: none"
    spent = sum(row.minutes for row in rows)
    drills = number_of(sum(row.right.drills for row in rows), "drill")
    return f"{week[0]:%m-%d}: {spent:.1f} min, {drills}, {number_of(len(rows), 'day')}"


def weeks_plot(weeks: Sequence[Week]) -> Iterator[str]:
    """Yield the median seconds of each week as a bar, the numbers before it."""
    # whole milliseconds, as the JSON has them: the two must say the same
    medians = [round(week.median_ms) / 1000 for week in weeks]
    unit = unit_for(max(medians), WIDTH)
    yield f"weeks from their Monday; each # is up to {unit:g} s of the median"
    for week, median in zip(weeks, medians, strict=True):
        ends = week.interval
        sure = f"likely {ends[0] / 1000:.1f} to {ends[1] / 1000:.1f}" if ends else "too few to be sure"
        numbers = f"{week.monday}  {median:5.1f} s, {sure}, {number_of(week.drills, 'drill')}"
        yield f"{numbers:<52}  {bar(median, unit)}"
