"""Answers dated in the future, as a clock set wrong leaves them."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from progress_store import Attempt, State, Store, open_store
from tests.progress_store.making import FLOORS, LEVELS, RULES, START, attempt


class Hand:
    """A clock that stands where it is put, and a store that goes by it."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.now = folder, START

    def store(self, *, writable: bool = True) -> Store:
        """Return the store of the folder."""
        return open_store(self.folder, self._read, FLOORS, LEVELS, writable=writable)

    def _read(self) -> datetime:
        return self.now


@pytest.fixture
def hand(tmp_path: Path) -> Hand:
    """Return a clock over a log whose second answer was given with the clock a year ahead."""
    hand = Hand(tmp_path)
    with hand.store() as opened:
        opened.keep(attempt(0))
    hand.now = START + timedelta(days=365)
    with hand.store() as opened:
        opened.keep(attempt(0, day=365))
    hand.now = START + timedelta(hours=1)
    return hand


def test_an_answer_ahead_is_in_the_record_and_not_in_the_state(hand: Hand) -> None:
    """One notice tells of it; today's answers go on from those that are not ahead."""
    for told in (1, 1):
        with hand.store() as opened:
            assert len(opened.attempts) == opened.record().attempts == 2
            assert opened.by_now == (attempt(0),)
            assert opened.state == State.of(opened.by_now, RULES)
            assert len(opened.notices) == told
            assert "1 answer dated in the future, up to 2027-03-02;" in opened.notices[0]


def test_an_answer_of_today_does_not_replay_the_log(hand: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each moves the state by one step, after answers far ahead and, from the second on, a little ahead."""
    with hand.store() as opened:
        opened.keep(attempt(1, at=START + timedelta(hours=5)))
        opened.keep(attempt(2))
        steps = count_steps(monkeypatch)
        for number in range(3, 9):
            opened.keep(attempt(number))
        assert len(steps) == 6 * 2
        expected = [*map(attempt, [0, *range(2, 9)]), attempt(1, at=START + timedelta(hours=5))]
        assert opened.state == State.of(expected, RULES)
    with hand.store() as again:
        assert again.state == State.of(expected, RULES)


def count_steps(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return a list that grows by an id at each step of a state."""
    steps: list[str] = []
    step = State.step

    def counted(state: State, one: Attempt) -> object:
        steps.append(one.id)
        return step(state, one)

    monkeypatch.setattr(State, "step", counted)
    return steps


def test_its_time_comes(hand: Hand) -> None:
    """The saved state is not used then: the log is counted anew, without a word."""
    hand.now = START + timedelta(days=364, hours=1)
    both = [attempt(0), attempt(0, day=365)]
    for _ in range(2):
        with hand.store() as opened:
            assert (opened.state, opened.notices) == (State.of(both, RULES), ())


def test_its_time_comes_while_the_program_runs(hand: Hand) -> None:
    """With the next answer; and a clock set back puts it ahead again."""
    with hand.store() as opened:
        hand.now = START + timedelta(days=366)
        opened.keep(attempt(0, day=366))
        every = [attempt(0), attempt(0, day=365), attempt(0, day=366)]
        assert opened.state == State.of(every, RULES)
        hand.now = START + timedelta(days=1)
        judged = opened.keep(attempt(0, day=1))
        assert judged.attempt == attempt(0, day=1)
        assert opened.state == State.of([attempt(0), attempt(0, day=1)], RULES)
        assert opened.keep(attempt(1, day=400)).attempt.id == attempt(1, day=400).id
        assert opened.state.attempts == 2
    assert len(opened.attempts) == 5


def test_a_reader_leaves_them_out_too(hand: Hand) -> None:
    """Without writing a state."""
    before = (hand.folder / "state.json").read_bytes()
    with hand.store(writable=False) as reader:
        assert reader.state.attempts == 1
        assert "dated in the future" in reader.notices[0]
    assert (hand.folder / "state.json").read_bytes() == before


def test_a_day_ahead_is_not_the_future(tmp_path: Path) -> None:
    """Another machine's clock may be a little off."""
    hand = Hand(tmp_path)
    with hand.store() as opened:
        opened.keep(attempt(0, day=1))
        assert opened.state.attempts == 1
    with hand.store() as again:
        assert again.notices == ()
