"""What was missed and is still open, and the way of one: as it was, then a fresh one of its like."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from drills.geometry import Point, Step
from drills.pattern import number_of, step_in_words
from drills.questions import (
    KINDS,
    Code,
    CodeError,
    Drill,
    ReadStep,
    Verdict,
    given_of,
    kind_of,
    read_code,
    skill_names,
)
from progress_store import WHOLE, Attempt, Judged, Store, sittings
from trainer.given import Clock
from trainer.practice.attempts import Measured
from trainer.practice.drill_source import AnsweredBefore, DrillSource
from trainer.practice.making import Wanted, made
from trainer.practice.session import Moment, Planned, PracticeSession

TITLE = "What I missed"
MOST = 50
"""The list has the latest so many."""
WHY_SEEN = "This is as it was when you missed it; looking at it is not kept."
WHY_FRESH = "You met this because you missed one of its like."
GOES_ON = "Enter  a fresh one of its like"


def missed(store: Store) -> list[Attempt]:
    """Return the misses that are open and can be shown, the latest first.

    A yardstick that can still be gone on with tells nothing yet; a code that only another version or a file
    of the person's own makes cannot be shown.
    """
    untold = _untold(store)
    names = skill_names()
    return [
        each
        for each in store.missed(MOST)
        if each.id not in untold and each.skill in names and _code_of(each)
    ]


def _untold(store: Store) -> set[str]:
    last = sittings(store.measuring)[-1:]
    return {
        each.id
        for sitting in last
        for each in sitting
        if len(sitting) < WHOLE and sitting[0].practice_day == store.today
    }


def _code_of(attempt: Attempt) -> Code | None:
    try:
        return read_code(attempt.code)
    except CodeError:
        return None


def in_two_lines(attempt: Attempt) -> tuple[str, str]:
    """Return the kind, the level and what was answered, as far as the log tells, and then what was asked."""
    kind, _ = kind_of(attempt.skill)
    asked = f"{KINDS[kind].title.rstrip('?')}, level {attempt.level}"
    return f"{asked}: {_answered(attempt)}", skill_names()[attempt.skill]


def _answered(attempt: Attempt) -> str:
    if step := _step_of(attempt):
        return f"you read {step_in_words(step)}"
    if other := skill_names().get(attempt.taken_for or ""):
        return f"answered as for {other}"
    return what_went_wrong(attempt)


def _step_of(attempt: Attempt) -> Step | None:
    """Return the step that was read, None where none was asked for or the log does not tell."""
    kind, form = kind_of(attempt.skill)
    if KINDS[kind].forms[form].question is not ReadStep:
        return None
    try:
        step = given_of(Step, attempt.given or "")
    except (TypeError, ValueError):
        return None
    return step if isinstance(step, Step) and all(isinstance(number, int) for number in step) else None


def what_went_wrong(attempt: Attempt) -> str:
    """Return how many were missed and how many marked that are none, where things are marked."""
    kind, form = kind_of(attempt.skill)
    if KINDS[kind].forms[form].question.takes in (Step, Point):
        return "missed"
    wrong = [f"{attempt.misses} missed"] * bool(attempt.misses)
    wrong += [f"{attempt.false_alarms} too many"] * bool(attempt.false_alarms)
    return ", ".join(wrong) or "missed"


class LookingBack(DrillSource):
    """One missed drill as it was, then one fresh drill of its skill and level, which is kept as picked.

    One that is seen already is left out.
    """

    def __init__(self, store: Store, clock: Clock, attempt: Attempt, is_seen: bool = False) -> None:
        self._attempt, self._code = attempt, read_code(attempt.code)
        self._is_seen = is_seen
        self._fresh = PracticeSession(store, clock, "picked", self._plan, of=1)
        self._fresh.fresh.was_shown(self._code)

    def _plan(self, now: Moment) -> Planned | None:
        if now.history.done:
            return None
        return Planned(now.fresh.of_skill(self._attempt.skill, self._attempt.level), WHY_FRESH)

    @property
    def title(self) -> str:
        """What it is called."""
        return TITLE

    @property
    def subject(self) -> str:
        """The kind of question."""
        return KINDS[kind_of(self._attempt.skill)[0]].title

    @property
    def progress(self) -> str:
        """Which of the two is in hand."""
        return "a fresh one" if self._fresh.in_hand else f"{self._attempt.practice_day:%A}, as it was"

    @property
    def why(self) -> str:
        """Why the drill in hand is met."""
        return WHY_FRESH if self._fresh.in_hand else WHY_SEEN

    def next_drill(self, take: Callable[[Wanted], Drill] = made) -> Drill | None:
        """Return the missed drill, then the fresh one, then None."""
        if self._is_seen:
            return self._fresh.next_drill(take)
        drill = take(self._code)
        self._is_seen = True
        return drill

    def coming(self) -> Iterator[Wanted]:
        """Yield what comes next."""
        if not self._is_seen:
            yield self._code
        if not self._fresh.in_hand:
            yield from self._fresh.coming()

    def answered_before(self, drill: Drill) -> AnsweredBefore | None:
        """Return what was answered, or what of it the log tells, until the fresh one is in hand."""
        if self._fresh.in_hand:
            return None
        given = _given(drill, self._attempt.given or "")
        if given:
            return AnsweredBefore(*given, GOES_ON)
        told = f"Your answer itself is not in the log, only this: {what_went_wrong(self._attempt)}."
        verdict = replace(
            drill.judge(drill.question.right_answer(drill)), right=False, slip="", answered=told
        )
        return AnsweredBefore(None, verdict, GOES_ON)

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> Judged | None:
        """Keep the answer to the fresh one."""
        return self._fresh.keep(drill, verdict, measured, helped)

    def keep_rest(self) -> None:
        """Keep what could not be kept before."""
        self._fresh.keep_rest()


def _given(drill: Drill, line: str) -> tuple[object, Verdict] | None:
    """Return the answer that a line of the log is of and its verdict, None where it is none of a miss."""
    try:
        given = given_of(drill.question.takes, line)
        verdict = drill.judge(given)
    except (LookupError, TypeError, ValueError):
        return None
    return None if verdict.right else (given, verdict)


def open_in_words(number: int) -> str:
    """Return how many are open."""
    return f"{number_of(number, 'drill')} open" if number < MOST else f"the latest {MOST}"
