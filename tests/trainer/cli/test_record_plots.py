from __future__ import annotations

from datetime import date

import pytest

from progress_store import DayRow, Share, Week, Window
from trainer.text.plots import bar, minutes_plot, share_row, unit_for, weeks_plot

TODAY = date(2026, 3, 29)


@pytest.mark.parametrize(
    ("right", "drills", "row"),
    [
        # R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, method 3 (from memory)
        (0, 20, "|o---                 |"),  # 0 to 16.1 %
        (81, 263, "|     -o-             |"),  # 25.5 to 36.6 %, the share 30.8 %
        # by hand: the lower end of n of n is n / (n + 1.96^2)
        (16, 16, "|                ----o|"),  # 80.6 to 100 %
    ],
)
def test_a_share_is_a_dot_on_its_interval(right: int, drills: int, row: str) -> None:
    """By hand: 21 columns, 5 points each, from 0 to 100 %."""
    assert share_row(Share(right, drills)) == row


def day(text: str, minutes: float, drills: int = 10) -> DayRow:
    """Return the row of a day."""
    return DayRow(date.fromisoformat(text), Share(drills, drills), minutes)


def test_minutes_a_day_are_columns_with_the_sums_of_the_weeks_beside() -> None:
    """By hand: four weeks to today, two minutes a sign; days before them are left out."""
    days = [day("2026-02-20", 60), day("2026-03-02", 8), day("2026-03-03", 0), day("2026-03-29", 4.5)]
    assert list(minutes_plot(days, TODAY)) == [
        "a column a day, 2026-03-02 to 2026-03-29; # up to 2 minutes, . none",
        "   8 |#                           | 03-02: 8.0 min, 20 drills, 2 days",
        "   6 |#                          #| 03-09: none",
        "   4 |#                          #| 03-16: none",
        "   2 |##.........................#| 03-23: 4.5 min, 10 drills, 1 day",
    ]


def test_without_drills_in_four_weeks_there_is_no_plot() -> None:
    """Nor for a day that is yet to come."""
    assert list(minutes_plot([day("2026-02-20", 60), day("2026-04-02", 8)], TODAY)) == []


def test_median_seconds_are_bars_beside_their_numbers() -> None:
    """By hand: half a second a sign, with the interval, or that there are too few."""
    monday, next_monday = date(2026, 3, 2), date(2026, 3, 9)
    weeks = [
        Week(monday, 14, 4600, (4000, 5200), Window(monday, monday)),
        Week(next_monday, 2, 2900, None, Window(next_monday, next_monday)),
    ]
    assert list(weeks_plot(weeks)) == [
        "weeks from their Monday; each # is up to 0.5 s of the median",
        "2026-03-02    4.6 s, likely 4.0 to 5.2, 14 drills     ##########",
        "2026-03-09    2.9 s, too few to be sure, 2 drills     ######",
    ]


def test_the_median_of_a_week_is_rounded_as_its_json_is() -> None:
    """From whole milliseconds: 14,950.4 ms is 14.9 s and not 15.0 s, as 14,950 is."""
    monday = date(2026, 3, 2)
    week = Week(monday, 6, 14950.4, None, Window(monday, monday))
    assert any(" 14.9 s," in line for line in weeks_plot([week]))


@pytest.mark.parametrize(("largest", "unit"), [(0, 0.5), (8, 0.5), (8.1, 1), (100, 10), (10_000, 625)])
def test_the_scale_fits_the_largest_value(largest: float, unit: float) -> None:
    """Sixteen signs at most."""
    assert unit_for(largest, 16) == unit
    assert len(bar(largest, unit)) <= 16
