"""How long a search may go on: what takes longer is left undecided, and said to be so."""

from __future__ import annotations

from collections.abc import Callable
from math import inf


class OutOfTimeError(Exception):
    """The time is over, and what was searched for is not decided."""


class Limit:
    """A moment after which searches end; ``ticks`` is a clock in seconds that never goes back."""

    def __init__(self, seconds: float, ticks: Callable[[], float]) -> None:
        self._ticks = ticks
        self._ends = ticks() + seconds

    def check(self) -> None:
        """Raise OutOfTimeError when the time is over."""
        if self._ticks() > self._ends:
            raise OutOfTimeError


UNLIMITED = Limit(inf, lambda: 0.0)
"""For sheets that are known to be small, as drills are: what they come to must depend on no clock."""
