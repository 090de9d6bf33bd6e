"""How long a key is waited for: Enter until the next drill is drawn, and any key while that one is made.

Three ways in one run: each drill made when it is taken; made ahead in a thread; made ahead in a process.
Beside each wait stands what of it the loop's thread worked: the rest is other work on the machine.
"""

from __future__ import annotations

import asyncio
import subprocess
import sys
from collections.abc import AsyncIterator, Callable, Iterator, Sequence
from contextlib import AbstractContextManager, asynccontextmanager, contextmanager
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, thread_time
from typing import NamedTuple

from textual.events import Key

from drills.questions import KINDS, skill_names, top_level
from progress_store import Settings, open_store
from tests.trainer.practice.making import attempt
from tests.trainer.screens.answering import right_keys, wrong_keys
from trainer.given import system_clock
from trainer.practice import rounds
from trainer.practice.attempts import floors, levels
from trainer.practice.drill_process import drills_made_ahead
from trainer.practice.making import Making, MakingAhead, made
from trainer.practice.session import Moment, Planned
from trainer.screens.app import Slantwise
from trainer.screens.drill import DrillScreen

DRILLS = 5
READING, LOOKING = 2.0, 0.8
"""Seconds for the question and for the verdict; 0.8 is when a quick right answer goes on by itself."""
WRONG_ONE_IN = 3


@contextmanager
def in_a_thread() -> Iterator[Making]:
    """Yield what makes drills ahead in a thread of this process."""
    making = MakingAhead(made)
    try:
        yield making
    finally:
        making.close()


@contextmanager
def when_taken() -> Iterator[Making]:
    """Yield what makes nothing ahead."""
    yield Making()


WAYS: dict[str, Callable[[], AbstractContextManager[Making]]] = {
    "when taken": when_taken,
    "ahead, thread": in_a_thread,
    "ahead, process": drills_made_ahead,
}


class Wait(NamedTuple):
    """Milliseconds until the next drill was drawn, and those of them that the loop's thread worked."""

    whole: float
    work: float


class Loop:
    """The program on its loop, and how long that stood still."""

    def __init__(self, app: Slantwise) -> None:
        self.app, self.still = app, 0.0

    async def watch(self) -> None:
        """Note the longest time between two turns of the loop."""
        while True:
            start = perf_counter()
            await asyncio.sleep(0.005)
            self.still = max(self.still, perf_counter() - start - 0.005)

    @property
    def screen(self) -> DrillScreen:
        """The drill on the screen."""
        assert isinstance(self.app.screen, DrillScreen)
        return self.app.screen

    async def reads(self, seconds: float) -> float:
        """Let the person read; return how long the loop stood still at most, in milliseconds."""
        self.still = 0.0
        await asyncio.sleep(seconds)
        return 1000 * self.still

    async def waits(self, key: str) -> Wait:
        """Press a key that brings another drill; return how long it took until that was drawn."""
        before = self.app.screen, getattr(self.app.screen, "_shown", None)
        start, worked = perf_counter(), thread_time()
        self.app.post_message(Key(key, key if len(key) == 1 else None))
        while (self.app.screen, getattr(self.app.screen, "_shown", None)) == before:
            await asyncio.sleep(0)
        drawn = asyncio.Event()
        self.app.screen.call_after_refresh(drawn.set)
        await drawn.wait()
        return Wait(1000 * (perf_counter() - start), 1000 * (thread_time() - worked))

    async def answers(self, right: bool) -> None:
        """Answer the drill in hand up to the last key, where it is not worked; see its verdict."""
        flow = self.screen.flow
        for key in (right_keys if right else wrong_keys)(flow.drill) if not flow.verdict else ():
            self.app.post_message(Key(key, key if len(key) == 1 else None))
            await asyncio.sleep(0)
        end = perf_counter() + 5
        while not flow.verdict and perf_counter() < end:
            await asyncio.sleep(0.01)


@asynccontextmanager
async def running(making: Making) -> AsyncIterator[Loop]:
    """Run the program for somebody who met every skill a week ago."""
    clock = system_clock()
    with (
        TemporaryDirectory() as folder,
        open_store(Path(folder), clock.now, floors(), levels()) as store,
    ):
        for number, skill in enumerate(skill_names()):
            store.keep(attempt(skill, clock.now().date() - timedelta(days=7), number))
        store.save_settings(Settings(started=True, go_on_after_right=False, minutes_a_day=60))
        app = Slantwise(store, clock, making=making)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            loop = Loop(app)
            watching = asyncio.create_task(loop.watch())
            yield loop
            watching.cancel()


async def at_level(making: Making, level: int, number: int) -> tuple[list[Wait], float]:
    """Return the waits in a round whose kinds are all at a level, and the longest standstill."""
    async with running(making) as loop:
        session = rounds.today(loop.app.store, loop.app.clock)
        session._plan = _at(level, session._plan)
        loop.app.practise(session)
        await asyncio.sleep(LOOKING)
        waits, still = list[Wait](), 0.0
        for each in range(number):
            still = max(still, await loop.reads(READING))
            await loop.answers(right=each % WRONG_ONE_IN > 0)
            still = max(still, await loop.reads(LOOKING))
            waits.append(await loop.waits("enter"))
        return waits, still


def _at(level: int, plan: Callable[[Moment], Planned | None]) -> Callable[[Moment], Planned | None]:
    """Return the same plan for somebody whose kinds are all at a level."""

    def planned(now: Moment) -> Planned | None:
        known = now.state.levels.items()
        at = {kind: reached._replace(level=KINDS[kind].nearest_level(level)) for kind, reached in known}
        return plan(now._replace(state=replace(now.state, levels=at)))

    return planned


async def of_the_yardstick(making: Making) -> tuple[list[Wait], list[Wait], float]:
    """Return the wait for its first drill, those for the others, and the longest standstill."""
    async with running(making) as loop:
        await asyncio.sleep(READING)
        first, others, still = [await loop.waits("y")], list[Wait](), 0.0
        for _ in range(15):
            still = max(still, await loop.reads(READING / 2))
            *keys, last = right_keys(loop.screen.flow.drill)
            for key in keys:
                loop.app.post_message(Key(key, key if len(key) == 1 else None))
            await asyncio.sleep(0.3)
            others.append(await loop.waits(last))
        return first, others, still


async def measure(way: str, number: int) -> None:
    """Print the table of a way."""
    print(f"{way:<22}  median  worst   its work: median  worst   loop still for")
    with WAYS[way]() as making:
        for level in range(1, top_level() + 1):
            _print(f"level {level}, {number} drills", *await at_level(making, level, number))
        first, others, still = await of_the_yardstick(making)
        _print("yardstick, its first", first, still)
        _print("yardstick, the others", others, still)


def _print(name: str, waits: Sequence[Wait], still: float) -> None:
    whole, work = zip(*waits, strict=True)
    print(f"{name:<22}{median(whole):8.0f}{max(whole):7.0f}", end="")
    print(f"{median(work):19.0f}{max(work):7.0f}{still:17.0f}", flush=True)


def main() -> None:
    """Print each table, in a process of its own that remembers nothing."""
    match sys.argv[1:]:
        case [way, number]:
            asyncio.run(measure(way, int(number)))
        case given:
            for way in WAYS:
                command = [sys.executable, "-m", "tests.measure.waits", way, *(given or [str(DRILLS)])]
                subprocess.run(command, check=True)


if __name__ == "__main__":
    main()
