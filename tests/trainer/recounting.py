"""The figures of a log worked out anew, in plain loops over its lines."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from math import sqrt
from random import Random
from typing import Any

Line = dict[str, Any]
FLOORS = {"steps": (3000, False), "sinks": (1500, True), "labels": (8000, False), "find": (3000, True)}
"""The least pace goal in milliseconds, and whether for each mark: common practice, no source."""


def local_time(line: Line) -> datetime:
    """Return when a drill was answered by the clock on the wall."""
    return datetime.fromisoformat(line["at"]) + timedelta(minutes=line["offset_minutes"])


def day_of(line: Line) -> str:
    """Return the practice day: local time less four hours."""
    return (local_time(line) - timedelta(hours=4)).date().isoformat()


def interval(some: int, tries: int) -> list[float]:
    """Return the score interval: the roots of (share - p)^2 = z^2 p (1 - p) / n."""
    z, share = 1.959963984540054, some / tries
    a, b, c = 1 + z * z / tries, -2 * share - z * z / tries, share * share
    root = sqrt(max(0.0, b * b - 4 * a * c))
    return [max(0.0, (-b - root) / (2 * a)), min(1.0, (-b + root) / (2 * a))]


def middle(values: Iterable[float]) -> float:
    """Return the median by counting in from both ends."""
    left = sorted(values)
    while len(left) > 2:
        left = left[1:-1]
    return sum(left) / len(left)


def own(log: list[Line]) -> list[Line]:
    """Return the drills that were left to the person alone."""
    return [line for line in log if line["purpose"] != "walk"]


def timed(log: list[Line]) -> list[Line]:
    """Return the drills whose time tells how quick the person is; the script answers with one key each."""
    return [
        line for line in own(log) if line["right"] and not line["helped"] and line["milliseconds"] is not None
    ]


def form_of(line: Line) -> tuple[str, str, int, str, str]:
    """Return what makes times comparable."""
    marks = "1" if line["marks"] < 2 else "2-3" if line["marks"] < 4 else "4+"
    return line["kind"], line["form"], line["level"], marks, line["means"]


def goal(log: list[Line], last: Line) -> int | None:
    """Return the pace goal of a form: the best of all medians of twelve in a row since 21 days away."""
    times: list[int] = []
    before = None
    for line in log:
        today = date.fromisoformat(day_of(line))
        if before and (today - before).days >= 21:
            times = []
        before = max(before or today, today)
        if line in timed([line]) and form_of(line) == form_of(last):
            times.append(line["milliseconds"])
    medians = [int(middle(times[end - 12 : end])) for end in range(12, len(times) + 1)]
    floor, each = FLOORS[last["kind"]]
    floor *= max(1, last["marks"]) if each else 1
    return max(floor, min(medians) * 5 // 4) if medians else None


def chances() -> list[Random]:
    """Return the chance of eight thousand resamples, another one than the record's."""
    return [Random(f"another {number}") for number in range(8000)]


def draw(values: list[float], chance: Random) -> list[float]:
    """Return a resample of values."""
    return chance.choices(values, k=len(values))


def assert_brackets(ends: list[float], resampled: list[float]) -> None:
    """Assert that about 2.5 % of the resampled figures lie outside each end, ties at the ends shared."""
    low, high = ends
    number, near = len(resampled), 2e-4 * high  # ends are told rounded
    assert sum(value < low - near for value in resampled) / number < 0.035
    assert sum(value <= low + near for value in resampled) / number > 0.015
    assert sum(value > high + near for value in resampled) / number < 0.035
    assert sum(value >= high - near for value in resampled) / number > 0.015
