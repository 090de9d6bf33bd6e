"""A session of practice: drills one after the other, each judged and kept, until the time is over."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import NamedTuple
from uuid import uuid4

from drills.geometry import Chance
from drills.questions import KINDS, Code, Drill, Verdict
from progress_store import WITH_COIN, Attempt, Judged, Purpose, Result, State, Store
from trainer.given import Clock
from trainer.practice.attempts import Measured, Occasion, attempt_of
from trainer.practice.choosing import RULE, Done, History, Selection, Stage
from trainer.practice.drill_source import DrillSource, FreshCodes
from trainer.practice.making import Wanted, made

TITLES: Mapping[Purpose, str] = {
    "today": "Today",
    "warm-up": "Two minutes, then I fold",
    "placing": "Finding your level",
    "picked": "A picked drill",
    "yardstick": "Yardstick",
    "minute": "One minute",
}


class Planned(NamedTuple):
    """What comes next: the code, why it comes, the selection where the rule made one, and what is told.

    One that ``was_seen`` was on the screen before: the time it takes now says nothing.
    """

    code: Code
    why: str
    selection: Selection | None = None
    tells: str = ""
    was_seen: bool = False


class Moment(NamedTuple):
    """What is planned from: how things stand, and the codes to draw from, which drawing moves on."""

    state: State
    today: date
    history: History
    part_gone: float
    fresh: FreshCodes


Planning = Callable[[Moment], Planned | None]

SUPPOSED = (
    (Verdict(True, "", "", ""), False),
    (Verdict(False, "", "", "", misses=1), False),
    (Verdict(True, "", "", ""), True),
)
"""What may come of a drill in hand, the likeliest first: clean, missed, slow; and whether there was help."""


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
        title: str = "",
    ) -> None:
        self.store, self.clock, self.purpose = store, clock, purpose
        self.history = History()
        self.judged: list[Judged] = []
        self.before: State = store.state
        self._plan = plan
        self._of = of
        self._title = title or TITLES[purpose]
        self._seconds = seconds
        self._started = clock.ticks()
        self.sitting = uuid4().hex
        self._begun = 0
        self._taken_up: Planned | None = None
        self._in_hand: Planned | None = None
        self._drill: Drill | None = None
        self.fresh = FreshCodes(Chance(f"{store.today.isoformat()} {store.how_many}"))

    @property
    def title(self) -> str:
        """What the session is called."""
        return self._title

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
    def was_seen(self) -> bool:
        """Whether the drill in hand was on the screen before it was left."""
        return self._in_hand is not None and self._in_hand.was_seen

    @property
    def tells_at_end(self) -> bool:
        """Whether no verdict is told in between."""
        return self.purpose in ("yardstick", "minute")

    @property
    def ends_on_time(self) -> bool:
        """Whether the drill in hand is broken off when the time is over."""
        return self.purpose == "minute"

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

    def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill | None:
        """Return the next drill, or None where the session is over."""
        if self.seconds_left == 0:
            return None
        planned = self._taken_up or self._plan(self._moment())
        if planned is None:
            return None
        # one that is still to be made is taken again, and no other is planned
        self._taken_up = planned
        self._drill = drill = take(planned.code)
        self._in_hand, self._taken_up = planned, None
        if self.ends_on_time and not self._begun:
            self._started = self.clock.ticks()  # a wait for the first drill is nobody's time
        self._begun += 1
        return drill

    def coming(self) -> Iterator[Code]:
        """Yield the codes that may come next: after each thing that may come of the drill in hand."""
        if self.seconds_left == 0:
            return
        if self._taken_up:
            yield self._taken_up.code
            return
        for moment in self._supposed() if self.in_hand else [self._moment()]:
            if planned := self._plan(moment._replace(fresh=self.fresh.copied())):
                yield planned.code

    def _moment(self) -> Moment:
        return Moment(self.store.state, self.store.today, self.history, self.part_gone, self.fresh)

    def _supposed(self) -> Iterator[Moment]:
        """Yield how things may stand once the drill in hand is done."""
        assert self._drill
        now = self._moment()
        if self.stage == "worked":
            yield now._replace(history=self._history_after(self._drill, "clean"))
            return
        # as of now, whenever the last drill was
        state = replace(now.state, last=None)
        for verdict, helped in SUPPOSED:
            attempt = self._attempt(self._drill, verdict, Measured(1, 1, (), "keys"), helped)
            after, judged = state.step(attempt)
            yield now._replace(state=after, history=self._history_after(self._drill, judged.result))

    @property
    def in_hand(self) -> Planned | None:
        """What the drill in hand was planned as, None before the first and after each answer."""
        return self._in_hand if self._begun > len(self.history.done) else None

    @property
    def taken_up(self) -> Selection | None:
        """What the rule had chosen when the session was left that this one goes on with."""
        return self._taken_up.selection if self._taken_up else None

    def take_up(self, history: History, planned: Planned | None, sitting: str = "") -> None:
        """Go on where another session was left, with the drill that was then in hand."""
        self.history, self._begun = history, len(history.done)
        self.sitting = sitting or self.sitting
        self._taken_up = planned._replace(was_seen=True) if planned else None
        if planned:
            self.fresh.was_shown(planned.code)

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
        self.history = self._history_after(drill, "clean")

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged:
        """Write an answered drill to the log; when this returns it is on the disk.

        Where that fails StoreError is raised; the store tries once more with each answer after it.
        """
        attempt = self._attempt(drill, verdict, measured, helped)
        result: Result = "slow" if verdict.right else "miss"
        try:
            judged = self.store.keep(attempt)
            result = judged.result
            self.judged.append(judged)
        finally:
            self.history = self._history_after(drill, result, verdict.taken_for)
        return judged

    def keep_rest(self) -> None:
        """Write what could not be written before; StoreError where it still cannot."""
        self.store.keep_rest()

    def _attempt(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Attempt:
        is_half = self.stage == "half"
        purpose: Purpose = "walk" if is_half else self.purpose
        why = self.selection.reason if self.selection else None
        rule = RULE + WITH_COIN if self.store.settings.experiment else RULE
        occasion = Occasion(purpose, self.sitting, self._begun, why, rule if why else None)
        return attempt_of(drill, verdict, measured, self.clock.now(), occasion, helped or is_half)

    def _history_after(self, drill: Drill, result: Result, taken_for: str = "") -> History:
        return self.history.with_drill(Done(drill.skill, drill.kind, result, taken_for, self.stage))
