"""Why a drill is met, in one sentence that the person can ask for."""

from __future__ import annotations

from datetime import date

from drills.pattern import number_of
from drills.questions import skill_names
from progress_store import State
from trainer.practice.choosing import History, Selection, partners_of

STAGES = {
    "worked": "This is new to you. First one is worked for you, then one half worked, then three are yours.",
    "half": "This is new to you. Half of it is done for you; it does not count.",
}


def because(choice: Selection, state: State, today: date, session: History) -> str:
    """Return why a choice was made, in the state and the sitting it was made in."""
    if choice.stage in STAGES:
        return STAGES[choice.stage]
    return _REASONS[choice.reason](choice, state, today, session)


def _return(choice: Selection, state: State, today: date, session: History) -> str:
    results = [done.result for done in session.counted if done.skill == choice.skill]
    how = "missed it" if "miss" in results else "were slow at it"
    return f"You met this because you {how} a few drills ago; it comes back until it goes right twice."


def _partner(choice: Selection, state: State, today: date, session: History) -> str:
    others = [done.skill for done in session.done[::-1] if done.skill in partners_of(choice.skill)]
    return f"You met this because it is easily taken for {_named(others[0])}, which you just had."


def _round(choice: Selection, state: State, today: date, session: History) -> str:
    days = (today - state.skills[choice.skill].last_day).days
    return f"You met this because it has come round: you last had it {number_of(days, 'day')} ago."


def _slow(choice: Selection, state: State, today: date, session: History) -> str:
    known = state.skills[choice.skill]
    if missed := known.results.count("miss"):
        return f"You met this because you missed it {missed} times in the last {len(known.results)}."
    return "You met this because it goes right, but more slowly than your pace."


def _harder(choice: Selection, state: State, today: date, session: History) -> str:
    return f"One drill in eight is a little harder: this is level {choice.level}. A miss here costs nothing."


def _new(choice: Selection, state: State, today: date, session: History) -> str:
    return "You met this because it is new to you: three in a row, then it is mixed with the rest."


def _known(choice: Selection, state: State, today: date, session: History) -> str:
    if not session.done:
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
