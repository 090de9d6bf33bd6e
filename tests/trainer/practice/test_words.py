from __future__ import annotations

from collections import Counter
from datetime import timedelta
from typing import Any

import pytest

from drills.geometry import Chance
from progress_store import Attempt, Result, State
from tests.trainer.practice.making import RULES, TODAY, attempt, four_kinds, state_of
from trainer.practice.choosing import Done, History, Selection, next_selection
from trainer.practice.words import because, levels_found, numbers, ordinal, what_changed

pytestmark = pytest.mark.usefixtures(four_kinds.__name__)

SKILL = "steps read 1:2"
SOME = History((Done(SKILL, "steps", "clean"),))


def test_every_reason_of_a_month_is_told_in_one_sentence() -> None:
    """Thirty days, three of four right: each choice has words, and all reasons come up."""
    chance, state, met = Chance("because"), state_of([]), Counter[str]()
    for day in (TODAY + timedelta(days=number) for number in range(30)):
        session = History()
        for place in range(16):
            choice = next_selection(state, day, session)
            words = because(choice, state, day, session)
            met[choice.reason] += 1
            assert words.endswith(".")
            assert words.startswith(("You met this because", "This is new to you", "One drill in eight"))
            assert "\n" not in words
            right = chance.below(4) > 0
            result: Result = "clean" if right else "miss"
            if choice.stage == "alone":
                state = state.after(attempt(choice.skill, day, place, choice.level, right=right))
            session = session.with_drill(Done(choice.skill, choice.kind, result, stage=choice.stage))
    assert met.keys() == {"return", "partner", "round", "slow", "harder", "new", "known"}


def test_the_words_name_what_there_was() -> None:
    """By hand: six days away, a miss four drills ago, a partner just met."""
    state = state_of([attempt("steps read 1:2", TODAY - timedelta(days=6))])
    session = History((Done("steps read 1:2", "steps", "miss"),))
    told = {
        reason: because(Selection("steps read 1:2", 1, reason), state, TODAY, session)
        for reason in ("round", "return")
    }
    assert "6 days ago" in told["round"]
    assert "missed it" in told["return"]
    partner = because(Selection("steps read 1:3", 1, "partner"), state, TODAY, session)
    assert "reading a 1 by 2 slant" in partner


def day(number: int, place: int = 0, **changes: Any) -> Attempt:
    """Return a right answer on a day counted from today."""
    return attempt(SKILL, TODAY + timedelta(days=number), place, **changes)


@pytest.mark.parametrize(
    ("before", "now", "says"),
    [
        ([], day(0), "Reading a 1 by 2 slant now goes right."),
        ([day(0, right=False)], day(1), "Reading a 1 by 2 slant now goes right."),
        (
            [day(0), day(1)],
            day(2),
            "Reading a 1 by 2 slant is now quick: right and at your pace the last three days you met it.",
        ),
        ([day(0)], day(7), "Reading a 1 by 2 slant is kept: right and at your pace after a week away."),
        ([day(n) for n in range(11)], day(11), "Across and down goes up from level 1 to level 2."),
        (
            [*(day(n) for n in range(12)), *(day(n, level=2, right=n > 20) for n in range(12, 23))],
            day(23, level=2),
            "Across and down goes down from level 2 to level 1.",
        ),
    ],
)
def test_one_sentence_on_what_changed(before: list[Attempt], now: Attempt, says: str) -> None:
    """A level before a word, a word before how it went."""
    assert what_changed(state_of(before), state_of([*before, now]), SOME) == says


@pytest.mark.parametrize(
    ("results", "says"),
    [
        ([("labels one", "clean"), ("labels pair", "slow")], "All 2 right. No level and no skill has moved."),
        (
            [("labels one", "miss"), ("labels pair", "miss"), ("labels pair", "miss")],
            "An exchanged pair was missed most; it comes round again soon.",
        ),
        (
            [("labels one", "miss"), ("labels pair", "miss")],
            "One wrong label was missed most; it comes round again soon.",
        ),
        ([], "Nothing was answered, so nothing has changed."),
    ],
)
def test_how_it_went_where_nothing_moved(results: list[tuple[str, Result]], says: str) -> None:
    """The skill missed most is named, the first of those that are even."""
    session = History(tuple(Done(skill, "labels", result) for skill, result in results))
    assert what_changed(State(RULES), State(RULES), session) == says


def test_a_word_lost_is_not_told_as_a_change() -> None:
    """A miss takes "quick" away; the sentence names the miss."""
    before = [day(0), day(1), day(2)]
    session = History((Done(SKILL, "steps", "miss"),))
    after = state_of([*before, day(3, right=False)])
    assert state_of(before).skills[SKILL].word == "quick"
    assert after.skills[SKILL].word == "right"
    says = what_changed(state_of(before), after, session)
    assert says == "Reading a 1 by 2 slant was missed most; it comes round again soon."


def test_a_skill_of_a_later_version_is_told_by_its_own_name() -> None:
    """Its name is not known here."""
    session = History((Done("find among roofs", "find", "miss"),))
    assert what_changed(State(RULES), State(RULES), session).startswith("Find among roofs was missed most")


def test_how_many_went_how() -> None:
    """A line for each, also for those that did not occur."""
    session = History(tuple(Done(SKILL, "steps", result) for result in ("clean", "miss", "clean")))
    shown = session.with_drill(Done("find roof", "find", "clean", stage="half"))
    assert numbers(shown)[-1] == "  1 half worked, which do not count"
    assert numbers(session) == ["  2 right", "  0 right, but slowly or with help", "  1 missed"]


def test_what_placing_found() -> None:
    """A line for each kind of question, also for the one that is not placed."""
    placed = state_of([day(0, level=3, purpose="placing")])
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
