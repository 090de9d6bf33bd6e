"""What the trainer is given from outside: the clock, and what is said where it is given something unfit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from time import monotonic


@dataclass(frozen=True)
class Clock:
    """``now`` gives an aware local time, ``ticks`` seconds from any fixed start."""

    now: Callable[[], datetime]
    ticks: Callable[[], float]


def system_clock() -> Clock:
    """Return the clock of this machine."""
    return Clock(lambda: datetime.now().astimezone(), monotonic)


class InputError(Exception):  # no ValueError: argparse would put a sentence of its own in its place
    """One sentence that tells the person what to do instead."""
