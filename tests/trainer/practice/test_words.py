from __future__ import annotations

import re
from collections import Counter
from datetime import timedelta
from typing import get_args

import pytest

from drills.geometry import Chance
from drills.questions import partners_of
from progress_store import Result, State
from tests.trainer.practice.making import RULES, TODAY, attempt, four_kinds, state_of
from trainer.practice.choosing import Done, History, Reason, Selection, next_selection
from trainer.practice.words import because, level_stands, levels_found, ordinal

pytestmark = pytest.mark.usefixtures(four_kinds.__name__)

SKILL = "steps read 1:2"
SOME = History((Done(SKILL, "steps", "clean"),))


def test_every_reason_of_a_month_is_told_with_where_the_level_stands() -> None:
    """Thirty days, three of four right, the others taken for a look-alike: a sentence each, all reasons."""
    chance, state, met = Chance("because"), state_of([]), Counter[str]()
    for day in (TODAY + timedelta(days=number) for number in range(30)):
        session = History()
        for place in range(16):
            choice = next_selection(state, day, session)
            words = because(choice, state, day, session)
            right = chance.below(4) > 0
            if choice.stage == "alone":
                met[choice.reason] += 1
                assert re.fullmatch(r"You met this because [^.]+[.] Level \d[^.]*[.]", words), words
                state = state.after(attempt(choice.skill, day, place, choice.level, right=right))
            else:
                assert words.startswith("This is new to you.")
            if choice.stage == "half":
                state = state.after(attempt(choice.skill, day, place, purpose="walk", helped=True))
            taken_for = "" if right else next(iter(partners_of(choice.skill)), "")
            result: Result = "clean" if right else "miss"
            session = session.with_drill(Done(choice.skill, choice.kind, result, taken_for, choice.stage))
    assert met.keys() == set(get_args(Reason))


def said(skill: str, reason: Reason, session: History) -> str:
    """Return the words for a skill met six days ago, at level 1 with one right running."""
    state = state_of([attempt(SKILL, TODAY - timedelta(days=6))])
    return because(Selection(skill, 1, reason), state, TODAY, session)


def test_the_words_name_what_there_was() -> None:
    """By hand: six days away, a miss with one between, what was taken for what."""
    missed = Done(SKILL, "steps", "miss", "steps read 1:3")
    after = History((missed, Done("labels one", "labels", "clean")))
    assert said(SKILL, "round", SOME).startswith(
        "You met this because it has come round: you last had it 6 days ago. "
    )
    assert "you missed it: 1 other came between." in said(SKILL, "return", after)
    assert "missed it the last time" in said(SKILL, "return", History())
    assert "you took reading a 1 by 2 slant for it" in said("steps read 1:3", "look-alike", after)


@pytest.mark.parametrize(
    ("results", "says"),
    [
        ("", "Level 1: four right running and it rises."),
        ("r", "Level 1: three more right running and it rises."),
        ("rr", "Level 1: two more right running and it rises."),
        ("rrr", "Level 1: one more right and it rises."),
        ("rrrr", "Level 2: four right running and it rises."),
        ("rrrw", "Level 1: four right running and it rises."),
        ("r" * 28, "Level 8 is the highest."),
    ],
)
def test_where_the_level_stands(results: str, says: str) -> None:
    """By hand, each drill at the level the person then has."""
    state = State(RULES)
    for number, result in enumerate(results):
        at = state.level("steps")
        state = state.after(attempt(SKILL, TODAY, number, at, right=result == "r"))
    assert level_stands(state, "steps") == says


def test_what_placing_found() -> None:
    """A line for each kind of question, also for the one that is not placed."""
    placed = state_of([attempt(SKILL, TODAY, level=3, purpose="placing")])
    assert levels_found(placed)[2:] == [
        "Across and down: level 3",
        "Inside lines: level 1",
        "Mountain or valley: level 1",
        "Find: level 2",
    ]


@pytest.mark.parametrize(
    ("number", "word"),
    [
        *((1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (10, "10th")),
        *((11, "11th"), (12, "12th"), (13, "13th"), (21, "21st"), (102, "102nd"), (111, "111th")),
    ],
)
def test_numbers_of_days_in_words(number: int, word: str) -> None:
    """As they are said in English."""
    assert ordinal(number) == word
