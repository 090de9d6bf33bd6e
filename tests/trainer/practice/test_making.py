"""Drills made ahead: the same drills as without, and an end of the thread whatever happens."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import Future, wait
from contextlib import contextmanager
from pathlib import Path
from threading import Event
from threading import enumerate as threads

import pytest

from drills.questions import Code, Drill, DrillError, make, read_code
from progress_store import Store
from tests.trainer.practice.making import Hands, go_through, store
from trainer.practice.lesson import Lesson
from trainer.practice.lesson_pages import LESSON
from trainer.practice.making import Making, MakingAhead, NotReadyError, Wanted, made
from trainer.practice.placing import placing
from trainer.practice.rounds import Target, picked, today, warm_up
from trainer.practice.session import PracticeSession
from trainer.practice.yardstick import yardstick

ONE, OTHER, THIRD = (Code("steps", 1, seed) for seed in (3, 4, 5))
DEADLINE = 20.0


class Slow:
    """Makes a drill only once it is let, or once it is stopped."""

    def __init__(self) -> None:
        self.begun, self.let = Event(), Event()
        self.asked: list[Wanted] = []

    def __call__(self, wanted: Wanted) -> Drill:
        """Wait, then make it."""
        self.asked.append(wanted)
        self.begun.set()
        assert self.let.wait(DEADLINE)
        return made(wanted)


@contextmanager
def ahead(slow: Slow) -> Iterator[MakingAhead]:
    """Make drills ahead slowly; at the end no thread is left."""
    making = MakingAhead(slow, slow.let.set)
    try:
        yield making
    finally:
        making.close()
    assert not [thread for thread in threads() if thread.name == "making drills ahead"]


def test_what_is_prepared_is_made_in_its_order_and_taken() -> None:
    """The same one is taken as was made; asked for once more, nothing is made again."""
    slow = Slow()
    slow.let.set()
    with ahead(slow) as making:
        making.prepare([ONE, OTHER, ONE])
        found = [making.on_its_way(code) for code in (ONE, OTHER)]
        drills = [each.result(DEADLINE) for each in found if each]
        making.prepare([OTHER, ONE])
        assert [making.take(ONE), making.take(OTHER)] == drills == [make(ONE), make(OTHER)]
        assert slow.asked == [ONE, OTHER]


def taken(making: MakingAhead, wanted: Wanted) -> Drill:
    """Take a drill, waiting for it as a screen does."""
    while True:
        try:
            return making.take(wanted)
        except NotReadyError as waiting:
            wait([waiting.drill], DEADLINE)


def test_what_was_not_begun_is_made_next() -> None:
    """After the one that is being made, before all others; whoever takes it is never kept waiting."""
    slow = Slow()
    with ahead(slow) as making:
        making.prepare([ONE, OTHER])
        assert slow.begun.wait(DEADLINE)
        for _ in range(2):
            with pytest.raises(NotReadyError):
                making.take(THIRD)
        slow.let.set()
        assert taken(making, THIRD) == make(THIRD)
        assert taken(making, OTHER) == make(OTHER)
    assert slow.asked == [ONE, THIRD, OTHER]


def test_what_was_dropped_can_be_taken_all_the_same() -> None:
    """It is made then."""
    slow = Slow()
    with ahead(slow) as making:
        making.prepare([ONE, OTHER])
        assert slow.begun.wait(DEADLINE)
        making.prepare([ONE])
        assert making.on_its_way(OTHER) is None
        slow.let.set()
        assert taken(making, OTHER) == make(OTHER)


def test_what_was_taken_too_early_is_kept_whatever_is_prepared_meanwhile() -> None:
    """Somebody waits for it: once it is made it is taken, and not made anew."""
    slow = Slow()
    with ahead(slow) as making:
        with pytest.raises(NotReadyError) as waiting:
            making.take(ONE)
        assert slow.begun.wait(DEADLINE)
        making.prepare([OTHER])
        slow.let.set()
        drill = waiting.value.drill.result(DEADLINE)
        assert making.take(ONE) is drill
        making.prepare([OTHER])
        assert making.on_its_way(ONE) is None
    assert slow.asked.count(ONE) == 1


def test_what_is_being_made_is_waited_for() -> None:
    """Not made a second time."""
    slow = Slow()
    with ahead(slow) as making:
        making.prepare([ONE])
        assert slow.begun.wait(DEADLINE)
        slow.let.set()
        assert taken(making, ONE) == make(ONE)
    assert slow.asked == [ONE]


def test_it_ends_while_a_drill_is_being_made() -> None:
    """What is under way is stopped; what waits is dropped."""
    slow = Slow()
    with ahead(slow) as making:
        making.prepare([ONE, OTHER])
        assert slow.begun.wait(DEADLINE)
    waiting = making.on_its_way(OTHER)
    assert waiting
    assert waiting.cancelled()
    assert slow.asked == [ONE]


def test_where_the_maker_fails_the_drill_is_made_without_it() -> None:
    """And what is wrong with the drill itself is said as it always is."""

    def failing(wanted: Wanted) -> Drill:
        raise EOFError

    def refused() -> Drill:
        raise DrillError(ONE, ("No.",))

    making = MakingAhead(failing)
    making.prepare([ONE, refused])
    assert taken(making, ONE) == make(ONE)
    with pytest.raises(DrillError, match="take another seed"):
        taken(making, refused)
    making.close()


SESSIONS = {
    "today": today,
    "placing": placing,
    "warm-up": warm_up,
    "rising": lambda kept, clock: warm_up(kept, clock, Target(5, "5-12-13")),
    "picked": lambda kept, clock: picked(kept, clock, read_code("labels-3-41")),
    "of a triangle": lambda kept, clock: picked(kept, clock, read_code("sinks-5-1"), "5-12-13"),
    "yardstick": yardstick,
}


class Told(Making):
    """Makes nothing ahead, but remembers what was announced and what was taken."""

    def __init__(self) -> None:
        self.told: list[Wanted] = []
        self.taken: list[str] = []
        self.missed: list[str] = []

    def prepare(self, wanted: object) -> None:
        """Remember what may come."""
        assert isinstance(wanted, list)
        self.told = wanted

    def take(self, wanted: Wanted) -> Drill:
        """Remember what came."""
        self.taken.append(str(wanted))
        if wanted not in self.told:
            self.missed.append(str(wanted))
        return made(wanted)


def gone_through(kept: Store, hands: Hands, session: PracticeSession, making: Told, looks: bool) -> None:
    """Go through a session, every third missed and every fifth slow, looking ahead before each answer."""
    number = 0
    while number < 16:
        if looks and number == 0:
            making.prepare(list(session.coming()))
        drill = session.next_drill(making.take)
        if drill is None:
            return
        if looks:
            making.prepare(list(session.coming()))
        go_through(session, hands, drill, number % 3 != 1, seconds=90 if number % 5 == 4 else 3)
        number += 1


@pytest.mark.parametrize("name", SESSIONS)
def test_prepared_or_not_the_drills_are_the_same(tmp_path: Path, name: str) -> None:
    """And each one is among those that were announced while the one before was in hand.

    In the warm-up time moves the level, so a few are not foreseen.
    """
    taken, missed = [], []
    for looks in (True, False):
        hands, making = Hands(), Told()
        with store(tmp_path / str(looks), hands) as kept:
            for _ in range(2):
                session = SESSIONS[name](kept, hands.clock)
                gone_through(kept, hands, session, making, looks)
                hands.wait(24 * 3600)
        taken.append(making.taken)
        missed.append(making.missed)
    assert taken[0] == taken[1]
    assert len(missed[0]) <= (4 if name in ("warm-up", "rising") else 0)
    assert len(missed[1]) == len(taken[1]) > 5


def test_looking_ahead_keeps_nothing_and_moves_nothing(tmp_path: Path) -> None:
    """State, history and time left are as before; asked twice it says the same."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        drill = session.next_drill()
        assert drill
        before = kept.state, session.history, session.seconds_left, session.in_hand
        assert list(session.coming()) == list(session.coming())
        assert (kept.state, session.history, session.seconds_left, session.in_hand) == before
        assert kept.attempts == ()


def test_a_session_begun_at_the_same_moment_begins_alike(tmp_path: Path) -> None:
    """So the opening can prepare the first drill of one that is begun later."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        announced = list(today(kept, hands.clock).coming())
        hands.wait(77)
        assert next(iter(announced)) == read_code(str(_first(today(kept, hands.clock)).spec.code))


def _first(session: PracticeSession) -> Drill:
    drill = session.next_drill()
    assert drill
    return drill


def unready(wanted: Wanted) -> Drill:
    """Have no drill."""
    raise NotReadyError(Future())


@pytest.mark.parametrize("name", SESSIONS)
def test_a_session_asked_again_takes_the_drill_that_was_not_ready(tmp_path: Path, name: str) -> None:
    """Time that goes by in between chooses no other; it is not counted twice."""
    codes = []
    for waits in (False, True):
        hands = Hands()
        with store(tmp_path / str(waits), hands) as kept:
            session = SESSIONS[name](kept, hands.clock)
            for _ in range(3 * waits):
                with pytest.raises(NotReadyError):
                    session.next_drill(unready)
                assert session.in_hand is None
            codes.append(_first(session).code)
            assert session.progress.startswith(("1 ", "Drill 1"))
    assert codes[0] == codes[1]


def test_the_lesson_asked_again_is_where_it_was() -> None:
    """On the same page, which is remembered only once it is seen."""
    remembered: list[int] = []
    lesson = Lesson(LESSON, 1, remembered.append)
    with pytest.raises(NotReadyError):
        lesson.next_drill(unready)
    assert remembered == []
    assert lesson.next_drill() == LESSON.pages[0].parts[0].make()


@pytest.mark.parametrize("turns", [False, True])
def test_the_lesson_announces_its_next_part_and_all_pages(turns: bool) -> None:
    """Whichever way it goes on, what comes was announced."""
    lesson, making = Lesson(LESSON), Told()
    making.prepare(list(lesson.coming()))
    while (not turns or lesson.turn_on()) and lesson.next_drill(making.take):
        making.prepare(list(lesson.coming()))
    while turns and lesson.turn_back():
        lesson.next_drill(making.take)
        making.prepare(list(lesson.coming()))
    assert making.taken
    assert making.missed == []
