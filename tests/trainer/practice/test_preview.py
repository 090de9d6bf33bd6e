from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from drills.geometry import Chance
from progress_store import State
from tests.trainer.practice.making import RULES, TODAY, Hands, attempt, played, state_of, store
from tests.trainer.practice.test_choosing import sat
from trainer.practice.placing import placing
from trainer.practice.words import THEN_KNOWN, Promise, coming, drills_in, promise


@pytest.mark.parametrize("share_right", [100, 60, 30, 0])
def test_what_is_said_ahead_comes_however_it_goes(share_right: int) -> None:
    """On thirty days at least as many new skills and returns as said; where all is right, the very drills."""
    state, chance = state_of([]), Chance(f"said ahead {share_right}")
    for day in (TODAY + timedelta(days=number) for number in range(30)):
        said, all_right, before = promise(state, day, 12), coming(state, day, 12), state
        state, played = sat(state, day, 12, lambda _: chance.below(100) < share_right)
        choices = [choice for choice, _ in played]
        owed = {skill for skill, known in before.skills.items() if known.owed}
        assert len({each.skill for each in choices if each.reason == "new"}) >= said.new
        assert len({each.skill for each in choices if each.reason == "return"} & owed) >= said.again
        assert choices[0] == all_right[0]
        if share_right == 100:
            assert choices == all_right
        assert said.new or day > TODAY + timedelta(days=5)


def test_the_number_of_drills_goes_by_the_pace_of_the_last_thirty() -> None:
    """With three seconds between them, drills of 7 s make 30 in five minutes; somebody new takes 20 s."""
    quick = [attempt("labels one", TODAY, number, milliseconds=7000) for number in range(30)]
    slow = [
        attempt("labels one", TODAY - timedelta(days=1), number, milliseconds=60_000) for number in range(90)
    ]
    assert drills_in(5, [*slow, *quick]) == 30
    assert drills_in(10, [*slow, *quick]) == 60
    assert drills_in(5, []) == 13
    untimed = [attempt("labels one", TODAY, number, milliseconds=None) for number in range(30)]
    assert drills_in(5, untimed) == 13
    assert drills_in(1, slow) == 3


@pytest.mark.parametrize(
    ("said", "lines"),
    [
        (Promise(0, 0), [THEN_KNOWN]),
        (Promise(0, 2), ["2 new to you, shown first", THEN_KNOWN]),
        (Promise(3, 1), ["3 again after a miss", "1 new to you, shown first", THEN_KNOWN]),
    ],
)
def test_what_is_said_ahead(said: Promise, lines: list[str]) -> None:
    """Nothing of which there is none."""
    assert said.lines == lines


def test_the_first_day_is_full() -> None:
    """With nothing known the first drills are new, for somebody who skipped the placing drills."""
    choices = coming(State(RULES), TODAY, 13)
    assert len(choices) == 13
    assert [choice.reason for choice in choices[:2]] == ["new", "new"]
    assert len({choice.kind for choice in choices}) >= 2


def test_looking_ahead_changes_nothing(tmp_path: Path) -> None:
    """Asked twice, it says the same, and the state is as it was."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands)
        before = kept.state
        assert coming(kept.state, kept.today, 12) == coming(kept.state, kept.today, 12)
        assert kept.state == before
