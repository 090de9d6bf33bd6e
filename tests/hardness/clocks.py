"""Clocks that are wrong, run backwards or stand in zones that there are not."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from functools import partial
from pathlib import Path
from typing import Final

from progress_store import State, Store, open_store, stamp
from tests.hardness.tally import LostError, Trials
from tests.progress_store.making import FLOORS, LEVELS, RULES, attempt
from tests.trainer.cli.calling import NOW, SECONDS_TO_ANSWER, Called
from trainer.cli.main import main
from trainer.cli.parser import Console
from trainer.given import Clock, system_clock

ZONES: Final = (
    "", "UTC", "Asia/Kathmandu", "Pacific/Kiritimati", "America/St_Johns", "Nowhere/At_All",
    "XXX+99", "XXX-24:59:59", "\x1b[31m", "../../etc/passwd", "A" * 300, ":",
    "EST5EDT,M3.2.0,M11.1.0",
)  # fmt: skip
MOMENTS: Final = (
    datetime(1970, 1, 1, tzinfo=UTC),
    datetime(1969, 12, 31, 23, 59, 59, 999999, tzinfo=UTC),
    datetime(1901, 12, 13, 20, 45, 52, tzinfo=timezone(timedelta(hours=14))),
    datetime(9998, 12, 31, 23, 59, 59, tzinfo=timezone(timedelta(hours=-12))),
    datetime(2038, 1, 19, 3, 14, 8, tzinfo=UTC),
    datetime(2000, 2, 29, 3, 59, 59, tzinfo=timezone(timedelta(hours=5, minutes=45))),
    datetime(2026, 3, 29, 2, 30, tzinfo=timezone(timedelta(hours=1))),
    datetime(2026, 10, 25, 2, 30, fold=1, tzinfo=timezone(timedelta(hours=1))),
    datetime(2016, 12, 31, 23, 59, 59, tzinfo=timezone(timedelta(hours=-18))),
    datetime(2026, 1, 1, tzinfo=timezone(timedelta(seconds=12345))),
)
RUNS, LONG_RUNS = 6, 300


def odd_moments(trials: Trials) -> None:
    """Answer a drill, and ask for the record, at each moment; one that is refused is said to be."""
    for moment in MOMENTS:
        with trials.one(str(moment)) as folder:
            _answer(folder, Clock(partial(_given, moment), lambda: 0.0))


def _given(moment: datetime) -> datetime:
    return moment


def odd_zones(trials: Trials) -> None:
    """Answer a drill in each zone, by the clock of this machine."""
    for zone in ZONES:
        with trials.one(repr(zone)) as folder, _in_zone(zone):
            _answer(folder, system_clock())


@contextmanager
def _in_zone(zone: str) -> Iterator[None]:
    before = os.environ.get("TZ")
    os.environ["TZ"] = zone
    if hasattr(time, "tzset"):
        time.tzset()
    try:
        yield
    finally:
        os.environ.pop("TZ")
        if before is not None:
            os.environ["TZ"] = before
        if hasattr(time, "tzset"):
            time.tzset()


def _answer(folder: Path, clock: Clock) -> None:
    """Answer a drill; what is said to be kept is in the log, and can be read at any other time."""
    answered = _call(folder, clock, "drill", "steps-1-3", "--text")
    _call(folder, clock, "record")
    later = _call(folder, Clock(lambda: NOW, lambda: SECONDS_TO_ANSWER), "record", "--json")
    if "\nKept." in answered.out and '"attempts": 1' not in later.out:
        raise LostError("the answer was said to be kept and is not in the record")


def _call(folder: Path, clock: Clock, *words: str) -> Called:
    from io import StringIO

    stdin, stdout, stderr = StringIO("4 3\n"), StringIO(), StringIO()
    console = Console(stdin, stdout, stderr, clock, {"SLANTWISE_DATA": str(folder)})
    status = main(words, console)
    if status not in (0, 2):
        raise RuntimeError(f"status {status}: {stderr.getvalue()}")
    return Called(status, stdout.getvalue(), stderr.getvalue())


def running_anyhow(trials: Trials) -> None:
    """Keep answers while the clock jumps to and fro; the state is always that of the answers by now."""
    for number in range(LONG_RUNS if trials.long else RUNS):
        if trials.is_time_over:
            return
        with trials.one(f"run {number}") as folder:
            now = [NOW]
            kept: set[str] = set()
            for _ in range(3):
                with open_store(folder, lambda now=now: now[0], FLOORS, LEVELS) as opened:  # type: ignore[misc]
                    for _ in range(6):
                        now[0] += _jump(trials)
                        kept.add(_keep(opened, now[0], len(kept)))
                        _compare(opened, kept)


def _jump(trials: Trials) -> timedelta:
    chance = trials.chance
    return timedelta(seconds=chance.choice([5, 60, -60, 3_600, -3_600, 50_000, -50_000, 10**6, -(10**6)]))


def _keep(opened: Store, now: datetime, number: int) -> str:
    at, offset = stamp(now)
    made = replace(attempt(number), id=f"{number}", at=at, offset_minutes=offset)
    opened.keep(made)
    return made.id


def _compare(opened: Store, kept: set[str]) -> None:
    if {each.id for each in opened.attempts} != kept:
        raise LostError("answers are gone")
    if opened.state != State.of(opened.by_now, RULES):
        raise LostError("the state is not that of the answers by now")
