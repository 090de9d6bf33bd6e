"""The clock that everything timed is given: wall time with its offset, and ticks for short spans."""

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
