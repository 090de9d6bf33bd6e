"""What is told at the end of a round."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from progress_store import Attempt, Result, replay
from tests.trainer.practice.making import RULES, START, TODAY, Hands, attempt, played, state_of, store
from trainer.practice.choosing import Done, History
from trainer.practice.ending import Ending, counted_in_words, ending, quicker
from trainer.practice.placing import placing
from trainer.practice.rounds import today
from trainer.practice.session import PracticeSession
from trainer.text.glance import form_in_words

SKILL = "steps read 1:2"


def day(number: int, place: int = 0, **changes: Any) -> Attempt:
    """Return a right answer on a day counted from today."""
    return attempt(SKILL, TODAY + timedelta(days=number), place, **changes)


@pytest.mark.parametrize(
    ("before", "now", "gained", "lowered"),
    [
        ([], day(0), ("Reading a 1 by 2 slant now goes right.",), ()),
        ([day(0, right=False)], day(1), ("Reading a 1 by 2 slant now goes right.",), ()),
        (
            [day(0), day(1)],
            day(2),
            ("Reading a 1 by 2 slant is now quick: right and at your pace the last three days you met it.",),
            (),
        ),
        (
            [day(0)],
            day(7),
            ("Reading a 1 by 2 slant is kept: right and at your pace after a week away.",),
            (),
        ),
        ([day(0, n) for n in range(3)], day(0, 3), ("Across and down goes up from level 1 to level 2.",), ()),
        (
            [day(0, n) for n in range(4)],
            day(0, 4, level=2, right=False),
            (),
            ("Across and down: Level 1: four right running and it rises.",),
        ),
        # a miss takes "quick" away, of which nothing is said
        ([day(0), day(1), day(2)], day(3, right=False), (), ()),
    ],
)
def test_what_was_gained(
    tmp_path: Path, before: list[Attempt], now: Attempt, gained: tuple[str, ...], lowered: tuple[str, ...]
) -> None:
    """Levels before words; a level that went down is told with what raises it."""
    hands = Hands(START + timedelta(days=8))
    with store(tmp_path, hands) as kept:
        session = PracticeSession(kept, hands.clock, "picked", lambda _: None)
        session.before = state_of(before)
        for each in (*before, now):
            kept.keep(each)
        told = ending(session, form_in_words)
        assert (told.gained, told.lowered, told.tomorrow) == (gained, lowered, "")


def test_seconds_are_compared_at_the_same_form() -> None:
    """By hand: medians of 9 and 6 s; two answers are too few, one quicker by a hundredth is not told."""
    before = [day(0, n, milliseconds=ms) for n, ms in enumerate((8000, 9000, 10_000))]
    after = [day(1, n, milliseconds=ms) for n, ms in enumerate((7000, 6000, 5000))]
    judged = replay([*before, *after], RULES)[1]
    says = "Across and down, read a step, level 1: 6.0 s today, 9.0 s before."
    assert list(quicker(state_of(before), judged[3:], form_in_words)) == [says]
    assert list(quicker(state_of(before), judged[3:5], form_in_words)) == []
    assert list(quicker(state_of(before), judged[:3], form_in_words)) == []
    assert list(quicker(state_of(before[:2]), judged[3:], form_in_words)) == []


@pytest.mark.parametrize(
    ("results", "says"),
    [
        (["clean"] * 17 + ["miss"] * 2, "17 of 19 right."),
        (["clean", "slow", "miss"], "2 of 3 right, 1 of them slowly or with help."),
        ([], "Nothing that counts was answered, so nothing has changed."),
    ],
)
def test_how_many_were_right(results: list[Result], says: str) -> None:
    """What was worked or half worked does not count."""
    history = History(tuple(Done(SKILL, "steps", result) for result in results))
    assert counted_in_words(history.with_drill(Done(SKILL, "steps", "clean", stage="half"))) == says


def test_the_end_of_a_round_names_its_misses_and_tomorrow(tmp_path: Path) -> None:
    """Every miss of the round and none of before; no word of reproach."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands, 20, lambda number, _: number != 1)
        session = today(kept, hands.clock)
        played(session, hands, 20, lambda number, _: number not in (5, 9))
        told: Ending = ending(session, form_in_words)
        own = [each.attempt for each in session.judged if each.attempt.purpose == "today"]
        assert list(told.missed) == [each for each in own if not each.right]
        assert told.missed
        assert told.tomorrow.startswith("Tomorrow: ")
        assert "missed most" not in " ".join(told.lines)
