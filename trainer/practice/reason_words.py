"""Why a drill is met: every reason there is, in one sentence that the person can ask for, or in few words."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from drills.pattern import number_of
from drills.questions import partners_of, skill_names
from progress_store import Purpose, State
from trainer.practice.choosing import History, Reason, Selection

IN_FEW_WORDS: Mapping[Reason, str] = {
    "round": "not met for a while",
    "slow": "right but slow, or missed",
    "partner": "of a kind easily mixed up",
    "harder": "a little harder",
    "new": "new to you",
    "known": "more of what you have met",
    "return": "again after a miss",
}
NOT_CHOSEN: Mapping[Purpose, str] = {
    "placing": "You met this because six drills find your level: two of each kind.",
    "picked": "You met this because you picked such drills.",
    "yardstick": "You met this because it is in the yardstick: the same 16 drills for everybody.",
}
MET_BEFORE = "You met this because you have met its like: a warm-up has nothing new."
SIMPLEST = "You met this because nothing is known yet: it is the simplest there is."
WILL_BE_FOLDED = "You met this because you will fold {}; such a sheet may be new to you."
ON_A_PAGE = "You met this because page {} of the lesson asks it; it does not count."
SHOWN_ONCE = "You met this because it is shown once to everybody who begins."

STAGES = {
    "worked": "This is new to you. First one is worked for you, then one half worked, then three are yours.",
    "half": "This is new to you. Half of it is done for you; it does not count.",
}


def because(selection: Selection, state: State, today: date, history: History) -> str:
    """Return why a selection was made, in the state and the history it was made in."""
    if selection.stage in STAGES:
        return STAGES[selection.stage]
    return _REASONS[selection.reason](selection, state, today, history)


def _return(selection: Selection, state: State, today: date, history: History) -> str:
    results = [done.result for done in history.counted if done.skill == selection.skill]
    how = "missed it" if "miss" in results else "were slow at it"
    return f"You met this because you {how} a few drills ago; it comes back until it goes right twice."


def _partner(selection: Selection, state: State, today: date, history: History) -> str:
    others = [done.skill for done in history.done[::-1] if done.skill in partners_of(selection.skill)]
    return f"You met this because it is easily taken for {_named(others[0])}, which you just had."


def _round(selection: Selection, state: State, today: date, history: History) -> str:
    days = (today - state.skills[selection.skill].last_day).days
    return f"You met this because it has come round: you last had it {number_of(days, 'day')} ago."


def _slow(selection: Selection, state: State, today: date, history: History) -> str:
    known = state.skills[selection.skill]
    if missed := known.results.count("miss"):
        return f"You met this because you missed it {missed} times in the last {len(known.results)}."
    return "You met this because it goes right, but more slowly than your pace."


def _harder(selection: Selection, state: State, today: date, history: History) -> str:
    return (
        f"One drill in eight is a little harder: this is level {selection.level}. A miss here costs nothing."
    )


def _new(selection: Selection, state: State, today: date, history: History) -> str:
    return "You met this because it is new to you: three in a row, then it is mixed with the rest."


def _known(selection: Selection, state: State, today: date, history: History) -> str:
    if not history.done:
        return "You met this because it goes well: a round begins with what you are sure of."
    return "You met this because nothing else waits: what you know is kept quick."


def _named(skill: str) -> str:
    return skill_names().get(skill, skill)


_REASONS = {
    "return": _return,
    "partner": _partner,
    "round": _round,
    "slow": _slow,
    "harder": _harder,
    "new": _new,
    "known": _known,
}
