"""Every choice can be explained in one sentence."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta

from drills.geometry import Chance
from progress_store import Result
from tests.trainer.practice.making import TODAY, attempt, state_of
from trainer.practice.choosing import Done, History, Selection, next_selection
from trainer.practice.reason_words import because


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
    assert "reading a step of 1 and 2" in partner
