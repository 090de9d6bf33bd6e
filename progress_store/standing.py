"""How the person stands: all answers in order of time, and the state of those that are not dated ahead."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable
from datetime import datetime, timedelta
from typing import Final

from progress_store.attempt import Attempt, stamp
from progress_store.state import Judged, Rules, State

FURTHEST_AHEAD: Final = timedelta(days=1)


class Standing:
    """Answers in order of time and the state they make; `state` is always that of the first of `attempts`.

    An answer dated later than a day after now is ahead: its clock was wrong, or this one is. It moves
    the state only once its time has come.
    """

    def __init__(self, attempts: Iterable[Attempt], rules: Rules, clock: Callable[[], datetime]) -> None:
        self._rules, self._clock = rules, clock
        self.attempts = sorted(attempts, key=_order)
        self.state = self._before = State(rules)

    @property
    def ahead(self) -> int:
        """How many answers are dated ahead of the clock."""
        return len(self.attempts) - self._counting()

    @property
    def by_now(self) -> list[Attempt]:
        """The answers that are not dated ahead of the clock."""
        return self.attempts[: self._counting()]

    def resume(self, saved: State | None) -> bool:
        """Take the state that was saved for these attempts; return whether it counts what counts now."""
        is_right = saved is not None and saved.attempts == self._counting()
        if saved is not None and is_right:
            self.state = saved
        return is_right

    def work_out(self, attempts: Iterable[Attempt] | None = None) -> State:
        """Return the state made anew from all attempts, those given in place of those there were."""
        if attempts is not None:
            self.attempts = sorted(attempts, key=_order)
        self.state = State.of(self.by_now, self._rules)
        self._before = State(self._rules)
        return self.state

    def keep(self, attempt: Attempt) -> Judged:
        """Count in an attempt that is not here yet and return how it was judged."""
        place = bisect_right(self.attempts, attempt.order, key=_order)
        self.attempts.insert(place, attempt)
        counting = self._counting()
        if place >= counting:
            return self._up_to(counting).step(attempt)[1]
        if place + 1 == counting and self.state.attempts == place:
            self.state, judged = self.state.step(attempt)
            return judged
        return self._counted_between(place, counting)

    def _up_to(self, counting: int) -> State:
        """Return the state of so many attempts, made anew where it is that of others."""
        return self.state if self.state.attempts == counting else self.work_out()

    def _counted_between(self, place: int, counting: int) -> Judged:
        """Go on from before the attempt; with a clock set back the next one will come right after it."""
        state = self._before if self._before.attempts <= place else State(self._rules)
        for each in self.attempts[state.attempts : place]:
            state = state.after(each)
        self._before, judged = state.step(self.attempts[place])
        state = self._before
        for each in self.attempts[place + 1 : counting]:
            state = state.after(each)
        self.state = state
        return judged

    def _counting(self) -> int:
        """Return how many attempts, in order, are not dated ahead of the clock."""
        latest = stamp(self._clock())[0] + FURTHEST_AHEAD
        return bisect_right(self.attempts, latest, key=_time)


def _order(attempt: Attempt) -> tuple[datetime, str]:
    return attempt.order


def _time(attempt: Attempt) -> datetime:
    return attempt.at
