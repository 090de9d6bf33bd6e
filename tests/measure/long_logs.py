"""What a long log costs, in processor seconds and peak memory: python -m tests.measure.long_logs."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from drills.questions import kind_of, skill_names
from progress_store import Attempt, open_store
from trainer.given import system_clock
from trainer.practice.attempts import floors, levels

SIZES = (0, 20_000, 200_000)
FOUR_YEARS = 1460
RUNS = 3
OPENING = """
import asyncio, sys
from pathlib import Path
from progress_store import Settings, open_store
from trainer.given import system_clock
from trainer.practice.attempts import floors, levels
from trainer.screens.app import Slantwise

async def look():
    clock = system_clock()
    with open_store(Path(sys.argv[1]), clock.now, floors(), levels()) as store:
        store.save_settings(Settings(started=True))
        async with Slantwise(store, clock).run_test(size=(80, 24)) as pilot:
            await pilot.pause()

asyncio.run(look())
"""
STORE = """
import sys
from pathlib import Path
from progress_store import open_store
from trainer.given import system_clock
from trainer.practice.attempts import floors, levels
with open_store(Path(sys.argv[1]), system_clock().now, floors(), levels()) as store:
    store.latest(30), store.measuring, store.days, store.how_many
"""
WAYS = {
    "record --json": ["-m", "trainer", "record", "--json", "--data"],
    "record": ["-m", "trainer", "record", "--data"],
    "the first screen": ["-c", OPENING],
    "what it asks of the store": ["-c", STORE],
}


def attempts(number: int) -> Iterator[Attempt]:
    """Yield so many attempts of four years, 70 in 100 right, a yardstick every 14 days."""
    chance, skills, start = Random(number), list(skill_names()), datetime(2022, 3, 2, 18, tzinfo=UTC)
    a_day = max(16, number // FOUR_YEARS)
    for place in range(number):
        day, of_day = divmod(place, a_day)
        skill = skills[int(chance.random() * len(skills))]
        kind, form = kind_of(skill)
        right, inputs = chance.random() < 0.7, 1 + int(7 * chance.random())
        yield Attempt(
            id=f"{place:032x}",
            at=start + timedelta(days=day, seconds=20 * of_day),
            offset_minutes=60,
            code=f"{kind}-1-{place}",
            kind=kind,
            form=form,
            level=1,
            marks=1 + int(4 * chance.random()),
            skill=skill,
            right=right,
            misses=int(not right),
            slip="exchanged" if chance.random() < 0.03 else None,
            milliseconds=2500 + int(20_000 * chance.random()),
            inputs=inputs,
            gaps=tuple(80 + int(800 * chance.random()) for _ in range(inputs - 1)),
            purpose="yardstick" if day % 14 == 5 and of_day < 16 else "today",
        )


def fill(folder: Path, number: int) -> None:
    """Write a log of so many attempts, taken in from that of another machine."""
    other = folder.with_name(f"other {number}")
    other.mkdir()
    with (other / "attempts.jsonl").open("w") as log:
        log.writelines(json.dumps({"schema": 1, **each.to_json()}) + "\n" for each in attempts(number))
    with open_store(folder, system_clock().now, floors(), levels()) as store:
        store.take_in(other)


def spent(words: list[str], folder: Path) -> tuple[float, int]:
    """Return the processor seconds and the peak MB of a process of its own."""
    process = subprocess.Popen([sys.executable, *words, str(folder)], stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{words} ended with {process.returncode}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss // (1 << 20 if sys.platform == "darwin" else 1024)


def main() -> None:
    """Print the table, the worst of three runs; the first line once, from a log with nothing beside it.

    A log is made by a process of its own: a child's peak memory counts what its parent had loaded before.
    """
    if sys.argv[1:]:
        fill(Path(sys.argv[1]), int(sys.argv[2]))
        return
    print(f"{'processor seconds, peak MB':<28}" + "".join(f"{size:>16,}" for size in SIZES))
    with tempfile.TemporaryDirectory() as name:
        folders = [Path(name) / str(size) for size in SIZES]
        for size, folder in zip(SIZES, folders, strict=True):
            command = [sys.executable, "-m", "tests.measure.long_logs", str(folder), str(size)]
            subprocess.run(command, check=True)
        _print("the whole log read", [spent(WAYS["what it asks of the store"], each) for each in folders])
        for way, words in WAYS.items():
            _print(way, [max(spent(words, each) for _ in range(RUNS)) for each in folders])


def _print(way: str, found: list[tuple[float, int]]) -> None:
    print(f"{way:<28}" + "".join(f"{seconds:>8.2f} s {mb:>3} MB" for seconds, mb in found), flush=True)


if __name__ == "__main__":
    main()
