"""The one sentence at the end of a round: what changed."""

from __future__ import annotations

from collections.abc import Mapping

from drills.questions import KINDS, skill_names
from progress_store import Result, State
from trainer.practice.choosing import History, Stage

RESULTS: Mapping[Result, str] = {
    "clean": "right",
    "slow": "right, but slowly or with help",
    "miss": "missed",
}
SHOWN: Mapping[Stage, str] = {"worked": "worked for you", "half": "half worked, which do not count"}
ORDER = ("new", "right", "quick", "kept")
MEANING = {
    "right": "now goes right",
    "quick": "is now quick: clean on three days running",
    "kept": "is kept: clean after a week away",
}


def what_changed(before: State, after: State, session: History) -> str:
    """Return the most telling change of a round: a level, a skill's word, or how it went."""
    if not session.counted:
        return "Nothing was answered, so nothing has changed."
    return _level_change(before, after) or _word_change(before, after) or _how_it_went(session)


def levels_found(state: State) -> list[str]:
    """Return what six placing drills have found, a line for each kind of question."""
    lines = [f"{entry.title.rstrip('?')}: level {state.level(kind)}" for kind, entry in KINDS.items()]
    return ["You begin here; the levels follow you from now on.", "", *lines]


def ordinal(number: int) -> str:
    """Return a number as in "your 3rd day"."""
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"


def numbers(session: History) -> list[str]:
    """Return how many drills went how, in lines."""
    results = [done.result for done in session.counted]
    lines = [f"{results.count(result):3} {words}" for result, words in RESULTS.items()]
    for stage, words in SHOWN.items():
        number = sum(done.stage == stage for done in session.done)
        lines += [f"{number:3} {words}"] * bool(number)
    return lines


def _level_change(before: State, after: State) -> str | None:
    for kind, entry in KINDS.items():
        old, new = before.level(kind), after.level(kind)
        if new != old:
            way = "up" if new > old else "down"
            return f"{entry.title.rstrip('?')} goes {way} from level {old} to level {new}."
    return None


def _word_change(before: State, after: State) -> str | None:
    risen = [
        (ORDER.index(known.word), skill)
        for skill, known in after.skills.items()
        if ORDER.index(known.word) > (ORDER.index(before.skills[skill].word) if skill in before.skills else 0)
    ]
    if not risen:
        return None
    rank, skill = max(risen)
    return f"{_named(skill)} {MEANING[ORDER[rank]]}."


def _how_it_went(session: History) -> str:
    missed = [done.skill for done in session.counted if done.result == "miss"]
    if not missed:
        return f"All {len(session.counted)} right. No level and no skill has moved."
    worst = max(dict.fromkeys(missed), key=missed.count)
    return f"{_named(worst)} was missed most; it comes round again soon."


def _named(skill: str) -> str:
    name = skill_names().get(skill, skill)
    return name[0].upper() + name[1:]
