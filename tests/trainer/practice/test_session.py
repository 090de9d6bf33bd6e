from __future__ import annotations

import pytest

from progress_store import Result
from trainer.practice.choosing import Done, History


def test_a_missed_skill_returns_after_three_others() -> None:
    """Missed as the first: not before three other drills were done, and then for as long as it takes."""
    assert when_it_returns("miss") == [3, 4, 5, 6, 7, 8]


def when_it_returns(*results: Result, above: bool = False) -> list[int]:
    """Return after how many other drills the skill is to be met again, after drills of it in a row."""
    history = history_of(*[("steps a", result) for result in results], above=above)
    found = []
    for others in range(9):
        if "steps a" in history.returns():
            found.append(others)
        history = history.with_drill(Done(f"sinks {others}", "sinks", "clean"))
    return found


def history_of(*drills: tuple[str, Result], above: bool = False) -> History:
    """Return the history with these drills; the kind is the first word of the skill."""
    history = History()
    for skill, result in drills:
        history = history.with_drill(Done(skill, skill.split()[0], result, above))
    return history


@pytest.mark.parametrize(
    ("results", "returns"),
    [
        (["miss"], range(3, 9)),
        (["slow"], range(6, 9)),
        (["clean"], []),
        (["clean", "clean", "clean"], []),
        (["miss", "clean"], range(6, 9)),
        (["miss", "slow"], range(6, 9)),
        (["slow", "miss"], range(3, 9)),
        (["miss", "clean", "clean"], []),
        (["slow", "clean", "clean"], []),
        (["miss", "clean", "slow", "clean"], range(6, 9)),
        (["clean", "miss"], range(3, 9)),
        (["clean", "clean", "clean", "clean", "miss"], range(3, 9)),
        (["miss", "clean", "clean", "clean", "miss"], range(3, 9)),
        (["miss", "clean", "clean", "miss"], range(3, 9)),
        (["miss", "miss", "miss", "miss"], range(3, 9)),
        (["miss", "miss", "miss", "miss", "miss"], []),
        (["slow", "miss", "slow", "miss", "clean"], []),
    ],
)
def test_done_at_two_clean_in_a_row_or_four_extra(results: list[Result], returns: range | list[int]) -> None:
    """After a miss three others, after slow or one clean six; five drills in all are the most."""
    assert when_it_returns(*results) == list(returns)


def test_a_miss_above_the_level_is_not_sent_on() -> None:
    """What was a little harder costs nothing; the same skill missed at the level does return."""
    assert when_it_returns("miss", above=True) == []
    history = history_of(("steps a", "miss"), *[(f"sinks {n}", "clean") for n in range(3)])
    above = history.with_drill(Done("steps b", "steps", "miss", above=True))
    assert list(above.returns()) == ["steps a"]


def test_those_that_wait_longest_come_first() -> None:
    """Two missed one after the other come back in that order."""
    others: list[tuple[str, Result]] = [(f"sinks {number}", "clean") for number in range(4)]
    first: tuple[str, Result] = "steps b", "miss"
    second: tuple[str, Result] = "steps a", "miss"
    assert list(history_of(first, second, *others).returns()) == ["steps b", "steps a"]
    assert list(history_of(first, second, first, *others).returns()) == ["steps a", "steps b"]


def test_what_was_met_is_counted() -> None:
    """How often, and where last; -1 for what was not met."""
    history = history_of(("steps a", "clean"), ("sinks b", "miss"), ("steps a", "miss"))
    assert (history.times("steps a"), history.times("sinks b"), history.times("labels c")) == (2, 1, 0)
    assert (history.last_met("steps a"), history.last_met("sinks b"), history.last_met("labels c")) == (
        2,
        1,
        -1,
    )


def test_a_kind_runs_when_the_last_two_were_of_it() -> None:
    """One drill is no run, nor are two of different kinds."""
    assert history_of().kinds_running() is None
    assert history_of(("steps a", "clean")).kinds_running() is None
    assert history_of(("steps a", "clean"), ("steps b", "miss")).kinds_running() == "steps"
    assert history_of(("steps a", "clean"), ("sinks b", "clean")).kinds_running() is None
    assert (
        history_of(("sinks b", "clean"), ("steps a", "clean"), ("steps a", "slow")).kinds_running() == "steps"
    )


def test_adding_a_drill_leaves_the_sitting_as_it_was() -> None:
    """Histories are values."""
    before = history_of(("steps a", "clean"))
    assert before.with_drill(Done("steps b", "steps", "clean")) != before
    assert len(before.done) == 1
