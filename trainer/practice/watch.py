"""The watch over one drill: how long it took, how many inputs, and whether the time means anything."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from progress_store import Means

IDLE_SECONDS = 60
"""Longer without a key and the person was elsewhere: accuracy is kept, the time is not."""


class Measured(NamedTuple):
    """What the watch saw; milliseconds is None where the person was away."""

    milliseconds: int | None
    inputs: int
    gaps: tuple[int, ...]
    means: Means


class Watch:
    """Started when a drill is shown, told of every key and click, read when it is answered."""

    def __init__(self, ticks: Callable[[], float]) -> None:
        self._ticks = ticks
        self._start = self._last = ticks()
        self._away = False
        self._seen: list[tuple[float, Means]] = []

    def saw(self, means: Means) -> None:
        """Note a key, a click or a typed line."""
        now = self._ticks()
        self._away |= now - self._last > IDLE_SECONDS
        self._seen.append((now - self._last, means))
        self._last = now

    def left(self) -> None:
        """Note that the person left the window."""
        self._away = True

    def read(self) -> Measured:
        """Return what was seen up to the last input; one input at least is counted."""
        gaps = tuple(round(1000 * gap) for gap, _ in self._seen[1:])
        used = [means for _, means in self._seen]
        means: Means = max(("keys", "mouse", "text"), key=used.count) if used else "keys"
        spent = None if self._away else round(1000 * (self._last - self._start))
        return Measured(spent, max(1, len(self._seen)), gaps[-40:], means)
