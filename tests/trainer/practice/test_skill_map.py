"""The map of skills on the opening, and whether today's minutes are done."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from drills.questions import KINDS
from progress_store import Settings
from tests.trainer.practice.making import TODAY, Hands, attempt, played, state_of, store
from trainer.practice.resuming import left_of
from trainer.practice.rounds import today
from trainer.practice.skill_map import LEGEND, map_lines, minutes_today


def test_the_map_fills_by_signs() -> None:
    """By hand: right on one day, quick on three, kept after a week; not met and missed are new."""
    first, second, third, fourth, *_ = KINDS["steps"].skills
    days = [TODAY + timedelta(days=number) for number in range(9)]
    log = [
        attempt(first, days[0]),
        *(attempt(second, day, 1) for day in days[:3]),
        attempt(third, days[0], 2),
        attempt(third, days[7], 2),
        attempt(fourth, days[0], 3, right=False),
    ]
    lines = map_lines(state_of(log))
    assert lines[0].startswith(KINDS["steps"].title)
    assert lines[0].split()[-1] == "-=#" + "." * (len(KINDS["steps"].skills) - 3)
    assert {len(line.split()[-1]) for line in lines[:-1]} == {len(row.skills) for row in KINDS.values()}
    assert lines[-1] == LEGEND == ". new  - right  = quick  # kept"
    assert max(map(len, lines)) <= 38


def test_whether_todays_minutes_are_done(tmp_path: Path) -> None:
    """Before the round, in its middle, after it, and on the day after."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        kept.save_settings(Settings(minutes_a_day=1))
        assert minutes_today(kept) == "today's minutes to come"
        session = today(kept, hands.clock)
        hands.wait(20)
        kept.save_settings(replace(kept.settings, left=left_of(session)))
        assert minutes_today(kept) == "0:40 of today left"
        kept.save_settings(replace(kept.settings, left=None))
        played(today(kept, hands.clock), hands, 12)
        assert minutes_today(kept) == "today's minutes done"
        hands.wait(24 * 3600)
        assert minutes_today(kept) == "today's minutes to come"
