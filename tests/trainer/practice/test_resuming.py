"""A round of the day is left at any drill and taken up the same day, even by a program started anew."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from drills.questions import Drill, read_code
from tests.trainer.practice.making import Hands, go_through, store
from trainer.practice.flow import Asking, DrillFlow
from trainer.practice.resuming import left_of, seconds_left_today
from trainer.practice.rounds import picked, today
from trainer.practice.session import PracticeSession


def begun(session: PracticeSession, hands: Hands, number: int) -> Drill:
    """Go through so many drills, 20 s each, and return the next one, which is then in hand."""
    for _ in range(number):
        drill = session.next_drill()
        assert drill is not None
        go_through(session, hands, drill, seconds=20)
    in_hand = session.next_drill()
    assert in_hand is not None
    return in_hand


@pytest.mark.parametrize("number", [0, 1, 2, 5, 9])
def test_a_round_is_taken_up_where_it_was_left(tmp_path: Path, number: int) -> None:
    """The same drill comes first, as much time is left, what was done is known, and it goes on to its end."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        drill, stage = begun(session, hands, number), session.stage
        left = left_of(session)
        assert left is not None
        kept.save_settings(replace(kept.settings, left=left))
    hands.wait(3600)
    with store(tmp_path, hands) as kept:
        assert seconds_left_today(kept) == 300 - 20 * number
        again = today(kept, hands.clock)
        assert again.history == session.history
        assert again.seconds_left == 300 - 20 * number
        first = again.next_drill()
        assert first is not None
        assert (first.code, again.stage, again.why) == (drill.code, stage, session.why)
        assert again.progress == f"Drill {number + 1}"


def test_a_drill_that_was_seen_before_is_not_timed(tmp_path: Path) -> None:
    """Whoever looks at a drill, leaves and comes back has had it in view for longer than the watch saw."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        begun(session, hands, 5)
        kept.save_settings(replace(kept.settings, left=left_of(session)))
        flow = DrillFlow(today(kept, hands.clock), hands.clock.ticks, lambda _: None)
        for is_timed in (False, True):
            flow.begin_next()
            while not isinstance(flow.state, Asking):
                flow.press("go_on")
            hands.wait(3)
            flow.give(flow.drill.question.right_answer(flow.drill))
            assert (kept.attempts[-1].milliseconds is not None) is is_timed


def test_the_next_day_begins_a_new_round(tmp_path: Path) -> None:
    """What was left yesterday is gone: today has its own minutes."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        begun(session, hands, 2)
        kept.save_settings(replace(kept.settings, left=left_of(session)))
        hands.now += timedelta(days=1)
        assert seconds_left_today(kept) is None
        assert today(kept, hands.clock).seconds_left == 300


def test_only_rounds_of_the_day_with_time_left_are_remembered(tmp_path: Path) -> None:
    """Neither one that is over nor a picked drill."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = today(kept, hands.clock)
        begun(session, hands, 1)
        hands.wait(275)
        assert left_of(session) is None
        assert left_of(picked(kept, hands.clock, read_code("steps-1-1"))) is None


NO_SKILL = ["steps 9:9", "steps", "clean", "", "alone"]
OLD = ["steps read 1:2", "steps", "clean", False, "alone"]
CHOICE = ["steps read 1:2", 1, "known", "alone"]
DAMAGED: dict[str, tuple[object, ...]] = {
    "done": (3, [3], [[]], [[[]] * 5], [NO_SKILL], [OLD], [[*NO_SKILL[1:], {}]]),
    "code": ("cake-1-1", ["steps-1-1"], 3, "steps-1-1\x00"),
    "choice": (
        [1],
        [[], [], [], []],
        ["stept read 1:2", *CHOICE[1:]],
        *([CHOICE[0], level, *CHOICE[2:]] for level in (10**400, "1", 99, -1)),
        *([*CHOICE[:2], *rest] for rest in (["?", "alone"], ["known", "?"], ["known", []])),
    ),
    "why": ([],),
}


@pytest.mark.parametrize("change", [{}, *({name: value} for name, each in DAMAGED.items() for value in each)])
def test_what_does_not_fit_begins_anew_in_the_minutes_left(tmp_path: Path, change: dict[str, object]) -> None:
    """A settings file changed by hand costs the place in the round, never the program."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        whole: dict[str, object] = {"done": [], "code": "steps-1-1", "why": "", "choice": None}
        left = {"day": kept.today.isoformat(), "seconds": 100, **(whole | change if change else {})}
        kept.save_settings(replace(kept.settings, left=left))
        session = today(kept, hands.clock)
        assert session.seconds_left == 100
        assert session.history.done == ()
        assert session.next_drill() is not None


@pytest.mark.parametrize("seconds", [10**400, -1, 1e9, True, "100", [], None, float("nan")])
def test_no_time_left_is_believed_that_a_round_cannot_have(tmp_path: Path, seconds: object) -> None:
    """Then the round begins anew with the minutes of a day."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        kept.save_settings(replace(kept.settings, left={"day": kept.today.isoformat(), "seconds": seconds}))
        assert seconds_left_today(kept) is None
        assert today(kept, hands.clock).seconds_left == 60 * kept.settings.minutes_a_day
