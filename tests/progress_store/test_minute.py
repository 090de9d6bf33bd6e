"""Minutes by the clock: what counts in them, and what they leave as it was."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from progress_store import Attempt, MinuteByClock, Record, State, minutes_by_clock
from tests.progress_store.making import RULES, START, attempt, store


def answers(seconds: list[int], day: int = 0, right: int = 99, **changes: object) -> list[Attempt]:
    """Return answers so many seconds after a minute began, each a second in hand."""
    return [
        replace(
            attempt(number, day, purpose="minute", sitting=f"minute of day {day}", milliseconds=1000),
            at=START + timedelta(days=day, seconds=second),
            right=number < right,
            **changes,  # type: ignore[arg-type]
        )
        for number, second in enumerate(seconds)
    ]


def test_what_came_within_the_minute_counts() -> None:
    """By hand: the first was begun at 0 s, so 60 s is the last that counts, with a second of grace."""
    first, second = minutes_by_clock([*answers([1, 20, 60, 62, 63]), *answers([1, 30], day=1, right=1)])
    assert first == MinuteByClock("steps", "read", 1, START.date(), right=3, drills=3)
    assert (second.right, second.drills, second.day) == (1, 2, START.date() + timedelta(days=1))
    assert first.of == second.of
    assert minutes_by_clock([]) == []


def test_a_minute_moves_neither_level_nor_schedule_nor_pace_nor_figures() -> None:
    """The state and the record after it against those without it; the day has its minutes all the same."""
    before = [attempt(number, level=1, milliseconds=9000) for number in range(13)]
    raced = [replace(each, at=each.at + timedelta(hours=2)) for each in answers(list(range(1, 40)), right=30)]
    state, after = State.of(before, RULES), State.of([*before, *raced], RULES)
    assert (after.levels, after.paces) == (state.levels, state.paces)
    for skill, known in state.skills.items():
        assert after.skills[skill]._replace(met=known.met, pace_key=known.pace_key) == known
    record, raced_record = Record.of(before, RULES), Record.of([*before, *raced], RULES)
    for figure in ("skills", "weekly_pace", "errors", "confusions", "pace_changes", "after_a_week_away"):
        assert getattr(raced_record, figure) == getattr(record, figure)
    assert raced_record.days[0].right.drills == 13 + 39


def test_a_store_tells_its_minutes_by_both_ways(tmp_path: Path) -> None:
    """With its ledger, and as a reader without one."""
    with store(tmp_path) as made:
        for each in answers([1, 20, 40], right=2):
            made.keep(each)
        told = made.minutes_by_clock()
    with store(tmp_path, writable=False) as read:
        assert read.minutes_by_clock() == told
    assert [(each.right, each.drills) for each in told] == [(2, 3)]
