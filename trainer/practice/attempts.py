"""Attempts: how long a drill took and by which device, and the line of the log that comes of it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import NamedTuple
from uuid import uuid4

from drills.questions import KINDS, Drill, Verdict
from progress_store import Attempt, Floor, InputDevice, Purpose, stamp

IDLE_SECONDS = 60
"""Longer without a key and the person was elsewhere: accuracy is kept, the time is not."""


class Measured(NamedTuple):
    """What the watch saw; milliseconds is None where the person was away."""

    milliseconds: int | None
    inputs: int
    gaps: tuple[int, ...]
    means: InputDevice


class Watch:
    """Started when a drill is shown, told of every key and click, read when it is answered."""

    def __init__(self, ticks: Callable[[], float]) -> None:
        self._ticks = ticks
        self._start = self._last = ticks()
        self._away = False
        self._seen: list[tuple[float, InputDevice]] = []

    def saw(self, means: InputDevice) -> None:
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
        means: InputDevice = max(("keys", "mouse", "text"), key=used.count) if used else "keys"
        spent = None if self._away else round(1000 * (self._last - self._start))
        return Measured(spent, max(1, len(self._seen)), gaps[-40:], means)


def floors() -> dict[str, Floor]:
    """Return for each kind of question the time that no pace goal falls below."""
    return {
        kind: Floor(row.pace_floor.milliseconds, each=row.pace_floor.is_each) for kind, row in KINDS.items()
    }


def levels() -> dict[str, range]:
    """Return the levels of each kind of question."""
    return {kind: row.levels for kind, row in KINDS.items()}


class Occasion(NamedTuple):
    """On what occasion a drill was met: for what, in which sitting as its how manieth, why by which rule."""

    purpose: Purpose
    sitting: str | None = None
    place: int | None = None
    why: str | None = None
    rule: str | None = None


def attempt_of(
    drill: Drill, verdict: Verdict, measured: Measured, now: datetime, on: Occasion, helped: bool = False
) -> Attempt:
    """Return the attempt to be kept; ``now`` is an aware local time."""
    at, offset_minutes = stamp(now)
    return Attempt(
        id=uuid4().hex,
        at=at,
        offset_minutes=offset_minutes,
        code=drill.code,
        kind=drill.kind,
        form=drill.form,
        level=drill.level,
        marks=drill.question.marks,
        skill=drill.skill,
        right=verdict.right,
        misses=verdict.misses,
        false_alarms=verdict.false_alarms,
        slip=verdict.slip or None,
        helped=helped,
        means=measured.means,
        milliseconds=measured.milliseconds,
        inputs=measured.inputs,
        gaps=measured.gaps,
        taken_for=verdict.taken_for or None,
        given=verdict.given or None,
        **on._asdict(),
    )
