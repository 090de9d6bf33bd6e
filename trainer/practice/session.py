"""A session of practice: drills one after the other, each judged and kept, until the time is over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from threading import Lock
from typing import NamedTuple

from drills.geometry import Chance
from drills.questions import KINDS, Code, Drill, DrillError, Verdict, make
from progress_store import Attempt, Judged, Purpose, Result, State, Store, StoreError
from trainer.given import Clock
from trainer.practice.attempts import Measured, attempt_of
from trainer.practice.choosing import Done, History, Selection, Stage
from trainer.practice.drill_source import DrillSource, FreshCodes

TITLES: Mapping[Purpose, str] = {
    "today": "Today",
    "warm-up": "Two minutes, then I fold",
    "placing": "Finding your level",
    "picked": "A picked drill",
    "yardstick": "Yardstick",
}


class Planned(NamedTuple):
    """What comes next: the code, why it comes, the selection where the rule made one, and what is told."""

    code: Code
    why: str
    selection: Selection | None = None
    tells: str = ""


Planning = Callable[["PracticeSession"], Planned | None]


class PracticeSession(DrillSource):
    """A session of so many seconds or of so many drills; the drill in hand is always finished.

    ``plan`` is asked for the next drill after each one; None ends the session.
    """

    def __init__(
        self,
        store: Store,
        clock: Clock,
        purpose: Purpose,
        plan: Planning,
        seconds: float | None = None,
        of: int | None = None,
    ) -> None:
        self.store, self.clock, self.purpose = store, clock, purpose
        self.history = History()
        self.before: State = store.state
        self._plan = plan
        self._of = of
        self._seconds = seconds
        self._started = clock.ticks()
        self._unkept: list[Attempt] = []
        self._begun = 0
        self._making, self._ready = Lock(), list[tuple[Planned, Drill] | None]()
        self._in_hand: Planned | None = None
        self.fresh = FreshCodes(Chance(f"{clock.now().isoformat()} {len(store.attempts)}"))

    @property
    def title(self) -> str:
        """What the session is called."""
        return TITLES[self.purpose]

    @property
    def subject(self) -> str:
        """The kind of question in hand."""
        return KINDS[self._in_hand.code.kind].title if self._in_hand else ""

    @property
    def tells(self) -> str:
        """What is told before the drill in hand."""
        return self._in_hand.tells if self._in_hand else ""

    @property
    def progress(self) -> str:
        """How far it has come: the number of the drill in hand, of how many where they are counted."""
        return f"Drill {self._begun}" if self._of is None else f"{self._begun} of {self._of}"

    @property
    def tells_at_end(self) -> bool:
        """Whether no verdict is told in between."""
        return self.purpose == "yardstick"

    @property
    def is_over(self) -> bool:
        """Whether all drills of a session that goes by number are done."""
        return self._of is not None and len(self.history.done) >= self._of

    @property
    def seconds_left(self) -> int | None:
        """Whole seconds until the time is over, None where the session goes by number."""
        if self._seconds is None:
            return None
        return max(0, round(self._seconds - (self.clock.ticks() - self._started)))

    @property
    def part_gone(self) -> float:
        """How much of the time is gone, from 0 to 1."""
        left = self.seconds_left
        return 0.0 if left is None or not self._seconds else 1 - left / self._seconds

    def prepare(self) -> None:
        """Make the drill that comes next, so that it is not waited for; any thread may do this.

        Nothing is made while a drill is in hand, whose answer the next one depends on.
        """
        with self._making, suppress(DrillError):
            if not self._ready and self._begun == len(self.history.done):
                self._ready.append(self._made())

    def next_drill(self) -> Drill | None:
        """Return the next drill, or None where the session is over."""
        if self.seconds_left == 0:
            return None
        with self._making:
            made = self._ready.pop() if self._ready else self._made()
        if made is None:
            return None
        self._in_hand, drill = made
        self._begun += 1
        return drill

    def _made(self) -> tuple[Planned, Drill] | None:
        planned = self._plan(self)
        return None if planned is None else (planned, make(planned.code))

    @property
    def in_hand(self) -> Planned | None:
        """What the drill in hand was planned as, None before the first and after each answer."""
        return self._in_hand if self._begun > len(self.history.done) else None

    def take_up(self, history: History, planned: Planned | None) -> None:
        """Go on where another session was left, with the drill that was then in hand."""
        self.history, self._begun = history, len(history.done)
        if planned:
            self._ready.append((planned, make(planned.code)))

    @property
    def stage(self) -> Stage:
        """How much of the drill in hand is done for the person."""
        return self.selection.stage if self.selection else "alone"

    @property
    def selection(self) -> Selection | None:
        """What the rule chose for the drill in hand."""
        return self._in_hand.selection if self._in_hand else None

    @property
    def why(self) -> str:
        """Why the drill in hand is met, in one sentence."""
        return self._in_hand.why if self._in_hand else ""

    def looked_at(self, drill: Drill) -> None:
        """Go on from a drill that was worked for the person."""
        self.history = self.history.with_drill(_done(drill, "clean", self.stage))

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged:
        """Write an answered drill to the log; when this returns it is on the disk.

        Where that fails StoreError is raised, and the drill is written with the next one.
        """
        is_half = self.stage == "half"
        purpose: Purpose = "walk" if is_half else self.purpose
        attempt = attempt_of(drill, verdict, measured, self.clock.now(), purpose, helped or is_half)
        above = attempt.level > self.store.state.level(attempt.kind)
        result: Result = "slow" if verdict.right else "miss"
        try:
            self.keep_rest()
            judged = self.store.keep(attempt)
            result = judged.result
        except StoreError:
            self._unkept.append(attempt)
            raise
        finally:
            self.history = self.history.with_drill(_done(drill, result, self.stage, above))
        return judged

    def keep_rest(self) -> None:
        """Write what could not be written before; StoreError where it still cannot."""
        while self._unkept:
            self.store.keep(self._unkept[0])
            del self._unkept[0]


def _done(drill: Drill, result: Result, stage: Stage, above: bool = False) -> Done:
    return Done(drill.skill, drill.kind, result, above, stage)
