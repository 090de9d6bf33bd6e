"""What is said of a session: why each drill is met, what the coming minutes hold, and what has changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from statistics import median
from typing import NamedTuple

from drills.pattern import number_of
from drills.questions import KINDS, kind_of, skill_names
from progress_store import RUNNING_TO_RISE, Attempt, MinuteByClock, Purpose, Result, State
from trainer.practice.choosing import Done, History, Selection, next_selection

THEN_KNOWN = "then more of what you have met"
NOT_CHOSEN: Mapping[Purpose, str] = {
    "placing": "You met this because the first drills find your level.",
    "picked": "You met this because you picked such drills.",
    "yardstick": "You met this because it is in the yardstick: the same 16 drills for everybody.",
    "minute": "You met this because you picked such drills for a minute.",
}
MET_BEFORE = "You met this because you have met such drills before: a warm-up has nothing new."
SIMPLEST = "You met this because nothing is known yet: it is the simplest there is."
WILL_BE_FOLDED = "You met this because you will fold {}; such a sheet may be new to you."
ON_A_PAGE = "Page {} asks this; it does not count."
SHOWN_ONCE = "You met this because it is shown once to everybody who begins."

STAGES = {
    "worked": "This is new to you. First one is worked for you, then one half worked, then it is yours.",
    "half": "This is new to you. Half of it is done for you; it does not count.",
}
SECONDS_AT_FIRST = 20
SECONDS_BETWEEN = 3
ENOUGH = 8
"""Fewer timed drills say nothing of a pace."""
RECENT = 30
ORDER = ("new", "right", "quick", "kept")
MEANING = {
    "right": "now goes right",
    "quick": "is now quick: right and at your pace the last three days you met it",
    "kept": "is kept: right and at your pace after a week away",
}


def because(selection: Selection, state: State, today: date, history: History) -> str:
    """Return why a selection was made, as things stood when it was made, and how the level stands."""
    if selection.stage in STAGES:
        return STAGES[selection.stage]
    reason = _REASONS[selection.reason](selection, state, today, history)
    return f"{reason} {level_stands(state, selection.kind)}"


def level_stands(state: State, kind: str) -> str:
    """Return the level of a kind in a sentence, and how many more right running raise it."""
    level, running = state.standing(kind)
    if level >= KINDS[kind].highest:
        return f"Level {level} is the highest."
    if not running:
        return f"Level {level}: {_COUNTS[RUNNING_TO_RISE]} right running and it rises."
    more = RUNNING_TO_RISE - running
    return f"Level {level}: {_COUNTS[more]} more right{' running' * (more > 1)} and it rises."


_COUNTS = ("none", "one", "two", "three", "four")


def _return(selection: Selection, state: State, today: date, history: History) -> str:
    if history.times(selection.skill):
        others = number_of(history.others_since(selection.skill), "other")
        return f"You met this because you missed it: {others} came between."
    return "You met this because you missed it the last time, and it had not come back yet."


def _look_alike(selection: Selection, state: State, today: date, history: History) -> str:
    taken = [done.skill for done in history.done[::-1] if done.taken_for == selection.skill]
    return f"You met this because you took {named(taken[0])} for it."


def _begin(selection: Selection, state: State, today: date, history: History) -> str:
    return "You met this because you had it right the last time: a round begins with such a one."


def _new(selection: Selection, state: State, today: date, history: History) -> str:
    return "You met this because it is new to you and was shown to you: now it is yours."


def _round(selection: Selection, state: State, today: date, history: History) -> str:
    days = (today - state.skills[selection.skill].last_day).days
    since = f"you last had it {number_of(days, 'day')} ago" if days else "you have had it today"
    return f"You met this because it has come round: {since}."


def _known(selection: Selection, state: State, today: date, history: History) -> str:
    return "You met this because of all you know you met it longest ago."


def named(skill: str) -> str:
    """Return the name of a skill on the screen; one that this version does not know keeps its own."""
    return skill_names().get(skill, skill)


_REASONS = {
    "return": _return,
    "look-alike": _look_alike,
    "begin": _begin,
    "new": _new,
    "round": _round,
    "known": _known,
}


def drills_in(minutes: float, attempts: Sequence[Attempt]) -> int:
    """Return how many drills the person does in so many minutes, at the pace of the last thirty timed."""
    times = [attempt.milliseconds / 1000 for attempt in attempts[-RECENT:] if attempt.milliseconds]
    seconds = median(times) if len(times) >= ENOUGH else SECONDS_AT_FIRST
    return max(3, round(60 * minutes / (seconds + SECONDS_BETWEEN)))


_NOTHING_DONE = History()


def coming(
    state: State, today: date, number: int, history: History = _NOTHING_DONE, right: bool = True
) -> list[Selection]:
    """Return the selections of the next drills if every answer is right, or if every one is wrong."""
    selections = list[Selection]()
    # as of noon today, whenever the last drill was
    state = replace(state, last=None)
    for index in range(number):
        selection = next_selection(state, today, history)
        selections.append(selection)
        if selection.stage != "worked":
            at = datetime.combine(today, time(12), UTC) + timedelta(seconds=index)
            state = state.after(_supposed(selection, at, right))
        result: Result = "clean" if right else "miss"
        history = history.with_drill(Done(selection.skill, selection.kind, result, stage=selection.stage))
    return selections


def _supposed(selection: Selection, at: datetime, right: bool) -> Attempt:
    kind, form = kind_of(selection.skill)
    return Attempt(
        id="ahead",
        at=at,
        offset_minutes=0,
        code="ahead",
        kind=kind,
        form=form,
        level=selection.level,
        marks=1,
        skill=selection.skill,
        right=right,
        milliseconds=1,
        inputs=1,
        purpose="walk" if selection.stage == "half" else "today",
    )


class Promise(NamedTuple):
    """What a round brings however it goes: skills that come again after a miss, and skills that are new."""

    again: int
    new: int

    @property
    def lines(self) -> list[str]:
        """What is said of it, and of the rest."""
        said = [f"{self.again} again after a miss"] * bool(self.again)
        return [*said, *[f"{self.new} new to you, shown first"] * bool(self.new), THEN_KNOWN]


def promise(state: State, today: date, number: int, history: History = _NOTHING_DONE) -> Promise:
    """Return what so many more drills bring whether all goes right or all wrong, or takes twice as long."""
    ways = [coming(state, today, (number + 1) // 2, history, right) for right in (True, False)]
    owed = {skill for skill, known in state.skills.items() if known.owed}
    again = (len({each.skill for each in way if each.reason == "return"} & owed) for way in ways)
    new = (len({each.skill for each in way if each.reason == "new"} - state.skills.keys()) for way in ways)
    return Promise(min(again), min(new))


def levels_found(state: State) -> list[str]:
    """Return what the placing drills have found, a line for each kind of question."""
    lines = [f"{entry.title.rstrip('?')}: level {state.level(kind)}" for kind, entry in KINDS.items()]
    return ["You begin here; the levels follow you from now on.", "", *lines]


def ordinal(number: int) -> str:
    """Return a number as in "your 3rd day"."""
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"


def minute_in_words(minutes: Sequence[MinuteByClock]) -> list[str]:
    """Return how the last minute by the clock went, and the best one of its form before it."""
    *others, last = minutes
    before = [each for each in others if each.of == last.of]
    said = f"{last.right} right in a minute, of {number_of(last.drills, 'drill')}."
    if not before:
        return [said, "", "It is the first minute of this form; the next one has it to beat."]
    best = max(before, key=lambda each: each.right)
    than = "More than" if last.right > best.right else "As many as" if last.right == best.right else "Under"
    day = f"{best.day.day} {best.day:%B}"
    return [said, "", f"{than} your best of this form before: {best.right}, on {day}."]
