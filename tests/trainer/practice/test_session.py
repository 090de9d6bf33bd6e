from __future__ import annotations

import pytest

from progress_store import Result
from trainer.practice.choosing import Done, History


def test_a_missed_skill_returns_after_three_others() -> None:
    """Missed as the first: not before three other drills were done, and then for as long as it takes."""
    assert when_it_returns("miss") == [3, 4, 5, 6, 7, 8]


def when_it_returns(*results: Result, above: bool = False) -> list[int]:
    """Return after how many other drills the skill is to be met again, after drills of it in a row."""
    session = sitting(*[("steps a", result) for result in results], above=above)
    found = []
    for others in range(9):
        if "steps a" in session.returns():
            found.append(others)
        session = session.with_drill(Done(f"sinks {others}", "sinks", "clean"))
    return found


def sitting(*drills: tuple[str, Result], above: bool = False) -> History:
    """Return the sitting with these drills; the kind is the first word of the skill."""
    session = History()
    for skill, result in drills:
        session = session.with_drill(Done(skill, skill.split()[0], result, above))
    return session


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
    session = sitting(("steps a", "miss"), *[(f"sinks {n}", "clean") for n in range(3)])
    above = session.with_drill(Done("steps b", "steps", "miss", above=True))
    assert list(above.returns()) == ["steps a"]


def test_those_that_wait_longest_come_first() -> None:
    """Two missed one after the other come back in that order."""
    others: list[tuple[str, Result]] = [(f"sinks {number}", "clean") for number in range(4)]
    first: tuple[str, Result] = "steps b", "miss"
    second: tuple[str, Result] = "steps a", "miss"
    assert list(sitting(first, second, *others).returns()) == ["steps b", "steps a"]
    assert list(sitting(first, second, first, *others).returns()) == ["steps a", "steps b"]


def test_what_was_met_is_counted() -> None:
    """How often, and where last; -1 for what was not met."""
    session = sitting(("steps a", "clean"), ("sinks b", "miss"), ("steps a", "miss"))
    assert (session.times("steps a"), session.times("sinks b"), session.times("labels c")) == (2, 1, 0)
    assert (session.last_met("steps a"), session.last_met("sinks b"), session.last_met("labels c")) == (
        2,
        1,
        -1,
    )


def test_a_kind_runs_when_the_last_two_were_of_it() -> None:
    """One drill is no run, nor are two of different kinds."""
    assert sitting().kinds_running() is None
    assert sitting(("steps a", "clean")).kinds_running() is None
    assert sitting(("steps a", "clean"), ("steps b", "miss")).kinds_running() == "steps"
    assert sitting(("steps a", "clean"), ("sinks b", "clean")).kinds_running() is None
    assert sitting(("sinks b", "clean"), ("steps a", "clean"), ("steps a", "slow")).kinds_running() == "steps"


def test_adding_a_drill_leaves_the_sitting_as_it_was() -> None:
    """Sittings are values."""
    before = sitting(("steps a", "clean"))
    assert before.with_drill(Done("steps b", "steps", "clean")) != before
    assert len(before.done) == 1
