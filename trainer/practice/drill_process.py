"""A process that makes drills, so that the screen need not share its interpreter with them.

It ends with the program, however that ends: its standard input is then at its end.
"""

from __future__ import annotations

import os
import pickle
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from subprocess import DEVNULL, PIPE, Popen
from threading import Lock, Timer
from typing import BinaryIO

from drills.questions import Drill
from trainer.practice.making import MakingAhead, Wanted, made

LIMIT = 20.0
"""Seconds: no drill takes so long to make, even on a slow machine; a process that does so hangs."""


class DrillProcess:
    """Started with the first drill; it holds no file of ours. One thread makes, another one may kill.

    One that hangs is ended, and no other is started: what made a drill hang may do so again.
    """

    def __init__(self) -> None:
        self._process: Popen[bytes] | None = None
        self._changing, self._is_killed = Lock(), False

    def make(self, wanted: Wanted) -> Drill:
        """Return a drill made there; RuntimeError, EOFError or OSError where that cannot be done."""
        process = self._running()
        assert process.stdin
        assert process.stdout
        ending = Timer(LIMIT, process.kill)
        ending.start()
        try:
            pickle.dump(wanted, process.stdin)
            process.stdin.flush()
            drill = pickle.load(process.stdout)
        finally:
            ending.cancel()
        if not isinstance(drill, Drill):
            raise RuntimeError("the drill was not made")
        return drill

    def kill(self) -> None:
        """End it, whatever it is making, and start no other."""
        with self._changing:
            self._is_killed = True
            if self._process:
                self._process.kill()

    def close(self) -> None:
        """End it and let go of what belongs to it; no thread makes any more."""
        self.kill()
        if self._process:
            with suppress(OSError), self._process:
                pass

    def _running(self) -> Popen[bytes]:
        with self._changing:
            if self._is_killed:
                raise RuntimeError("the process was ended")
            self._process = self._process or _started()
            return self._process


@contextmanager
def drills_made_ahead() -> Iterator[MakingAhead]:
    """Yield what makes drills ahead in such a process, which ends with this."""
    process = DrillProcess()
    making = MakingAhead(process.make, process.kill)
    try:
        yield making
    finally:
        making.close()
        process.close()


def _started() -> Popen[bytes]:
    """Start a process that finds the modules where this one does."""
    around = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    command = [sys.executable, "-P", "-m", __name__]
    return Popen(command, stdin=PIPE, stdout=PIPE, stderr=DEVNULL, env=around)


def serve(wishes: BinaryIO, drills: BinaryIO) -> None:
    """Make what is asked for until nobody asks any more; None where a drill cannot be made."""
    while True:
        try:
            wanted = pickle.load(wishes)
        except EOFError:
            return
        drill: Drill | None = None
        with suppress(Exception):
            drill = made(wanted)
        pickle.dump(drill, drills)
        drills.flush()


if __name__ == "__main__":
    with suppress(BrokenPipeError):
        serve(sys.stdin.buffer, sys.stdout.buffer)
