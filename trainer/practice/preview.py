"""What the coming minutes will hold, in numbers and words, before they begin."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from statistics import median

from drills.questions import kind_of
from progress_store import Attempt, State
from trainer.practice.choosing import Done, History, Reason, Selection, next_choice

SECONDS_AT_FIRST = 20
SECONDS_BETWEEN = 3
ENOUGH = 8
"""Fewer timed drills say nothing of a pace."""
RECENT = 30

WORDS: Mapping[Reason, str] = {
    "round": "not met for a while",
    "slow": "right but slow, or missed",
    "partner": "of a kind easily mixed up",
    "harder": "a little harder",
    "new": "new to you",
    "known": "more of what you have met",
    "return": "again after a miss",
}


def drills_in(minutes: float, attempts: Sequence[Attempt]) -> int:
    """Return how many drills the person does in so many minutes, at the pace of the last thirty timed."""
    times = [attempt.milliseconds / 1000 for attempt in attempts[-RECENT:] if attempt.milliseconds]
    seconds = median(times) if len(times) >= ENOUGH else SECONDS_AT_FIRST
    return max(3, round(60 * minutes / (seconds + SECONDS_BETWEEN)))


def coming(state: State, today: date, number: int) -> list[Selection]:
    """Return the choices of the next drills if every answer is right and quick."""
    session, choices = History(), list[Selection]()
    # as of noon today, whenever the last drill was
    state = replace(state, last=None)
    for place in range(number):
        choice = next_choice(state, today, session)
        choices.append(choice)
        if choice.stage != "worked":
            at = datetime.combine(today, time(12), UTC) + timedelta(seconds=place)
            state = state.after(_right_and_quick(choice, at))
        session = session.with_drill(Done(choice.skill, choice.kind, "clean", stage=choice.stage))
    return choices


def _right_and_quick(choice: Selection, at: datetime) -> Attempt:
    kind, form = kind_of(choice.skill)
    return Attempt(
        id="ahead",
        at=at,
        offset_minutes=0,
        code="ahead",
        kind=kind,
        form=form,
        level=choice.level,
        marks=1,
        skill=choice.skill,
        right=True,
        milliseconds=1,
        inputs=1,
        purpose="walk" if choice.stage == "half" else "today",
    )


def counted(choices: Sequence[Selection]) -> list[tuple[int, str]]:
    """Return how many of each reason, in a fixed order, with the words for it."""
    counts = Counter(choice.reason for choice in choices)
    return [(counts[reason], words) for reason, words in WORDS.items() if counts[reason]]
