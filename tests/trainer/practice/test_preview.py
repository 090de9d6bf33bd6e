from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from progress_store import State, Store
from tests.trainer.practice.making import RULES, TODAY, Hands, attempt, go_through, played, store
from trainer.practice.choosing import Selection
from trainer.practice.rounds import placing, today
from trainer.practice.words import IN_FEW_WORDS, coming, drills_in, reasons_counted


@pytest.mark.parametrize(
    "share_missed", [3, *(pytest.param(share, marks=pytest.mark.long) for share in (0, 6))]
)
def test_the_numbers_shown_are_what_the_round_then_does(tmp_path: Path, share_missed: int) -> None:
    """Where all is right and quick the round asks as many of each reason as was said, day by day."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands, is_right=lambda number, _: number < 3)
        for day in range(6):
            hands.wait(24 * 3600)
            if day % 2:
                played(
                    today(kept, hands.clock),
                    hands,
                    20,
                    lambda number, _: not share_missed or number % share_missed > 0,
                )
                continue
            promised = coming(kept.state, kept.today, 15)
            assert reasons_counted(asked(kept, hands)) == reasons_counted(promised), day


def asked(kept: Store, hands: Hands) -> list[Selection]:
    """Play the round of the day, all right and quick, and return its choices."""
    session = today(kept, hands.clock)
    choices = []
    while (drill := session.next_drill()) is not None:
        assert session.selection is not None
        choices.append(session.selection)
        assert len(choices) < 200
        hands.wait(18)
        go_through(session, hands, drill, seconds=2)
    return choices


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


def test_reasons_are_told_in_one_order_and_none_without_a_drill() -> None:
    """What comes round first; every reason there is has words."""
    choices = [Selection("labels one", 1, reason) for reason in ("known", "round", "known", "new")]
    assert reasons_counted(choices) == [
        (1, IN_FEW_WORDS["round"]),
        (1, IN_FEW_WORDS["new"]),
        (2, IN_FEW_WORDS["known"]),
    ]
    assert IN_FEW_WORDS.keys() == {"round", "slow", "partner", "harder", "new", "known", "return"}
    assert reasons_counted([]) == []


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
