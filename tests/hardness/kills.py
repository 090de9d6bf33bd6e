"""Killed before, in the middle of and after each call on the data folder, and at random moments.

Run as a program it forks a child for each kill and prints a line for each: what was killed, and what of it
is lost; so the program under test is a process of its own that really ends by SIGKILL.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from random import Random
from time import sleep
from typing import Any

from tests.hardness.layer import Call, watched
from tests.hardness.practising import (
    COPIED,
    OLD,
    TORN,
    UNREADABLE,
    Say,
    look_through,
    other_machine,
    practise,
    prepared,
)
from tests.hardness.tally import LostError, NotHereError, Trials

WHEN = ("before", "amid", "after")
STEP, RANDOM = 8, 15
LONG_RANDOM = 1_000


def at_each_call(trials: Trials) -> None:
    """Kill around each call; in the short run around every eighth."""
    _run(trials, "calls", 1 if trials.long else STEP)


def at_random(trials: Trials) -> None:
    """Kill at random moments."""
    _run(trials, "random", LONG_RANDOM if trials.long else RANDOM)


def _run(trials: Trials, how: str, number: int) -> None:
    if not hasattr(os, "fork"):
        raise NotHereError("no fork")
    with trials.one(how) as folder:
        told = subprocess.run(
            [sys.executable, "-m", "tests.hardness.kills", str(folder), how, str(number)],
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for line in told.splitlines():
            what, kind, words = json.loads(line)
            trials.tried += 1
            if kind:
                (trials.lost if kind == "lost" else trials.crashed).append(f"{what}: {words}")
    trials.tried -= 1


def killing(at: int, when: str) -> Callable[[Call], Any]:
    """Return a watcher that kills this process around the call of this number."""
    seen = iter(range(at + 1))

    def watcher(call: Call) -> Any:
        if next(seen, None) != at:
            return call.do()
        if when == "amid" and call.name == "write":
            half = os.open(os.path.join(_folder(), call.path), os.O_WRONLY)
            os.pwrite(half, call.data[: len(call.data) // 2], call.place)
        try:
            return call.do() if when == "after" else None
        finally:
            os.kill(os.getpid(), signal.SIGKILL)

    return watcher


def _folder() -> str:
    return str(Path(sys.argv[1]) / "data")


def _tell(what: str, folder: Path, said: set[str]) -> None:
    """Print a line on one kill."""
    already = {each.id for each in (*OLD, *COPIED)}
    kind, words = "", ""
    try:
        look_through(folder, already | said, (UNREADABLE, TORN))
    except LostError as loss:
        kind, words = "lost", str(loss)
    except Exception as error:
        kind, words = "crashed", repr(error)
    sys.stdout.write(json.dumps([what, kind, words]) + "\n")


def _killed(folder: Path, child: Callable[[Say], None], seconds: float | None) -> tuple[bool, set[str]]:
    """Run a child to its end or kill; return whether it was killed and what it had said."""
    for file in folder.iterdir():
        file.unlink()
    prepared(folder)
    reading, writing = os.pipe()
    sys.stdout.flush()
    if not (pid := os.fork()):
        os.close(reading)
        child(partial(_say, writing))
        os._exit(0)
    os.close(writing)
    if seconds is not None:
        sleep(seconds)
        os.kill(pid, signal.SIGKILL)
    with open(reading) as told:
        said = set(told.read().split("\n")) - {""}
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]) == -signal.SIGKILL, said


def _say(pipe: int, word: str) -> None:
    os.write(pipe, f"{word}\n".encode())


def main(place: Path, how: str, number: int) -> None:
    """Kill and tell."""
    folder, there = place / "data", other_machine(place / "there")
    folder.mkdir()
    if how == "random":
        chance = Random(1)
        for at in range(number):
            _, said = _killed(folder, lambda say: practise(folder, there, say), chance.random() * 0.04)
            _tell(f"kill {at}", folder, said)
        return
    for when in WHEN:
        at = 0
        was_killed = True
        while was_killed:

            def child(say: Say, at: int = at, when: str = when) -> None:
                with watched(folder, killing(at, when)):
                    practise(folder, there, say)

            was_killed, said = _killed(folder, child, None)
            _tell(f"{when} call {at}", folder, said)
            at += number


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]))
