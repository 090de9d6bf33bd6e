from __future__ import annotations

from progress_store import Result
from trainer.practice.choosing import Done, History


def history_of(*drills: tuple[str, Result]) -> History:
    """Return the history with these drills; the kind is the first word of the skill."""
    history = History()
    for skill, result in drills:
        history = history.with_drill(Done(skill, skill.split()[0], result))
    return history


def test_a_look_alike_waits_within_two_drills_until_it_is_met() -> None:
    """What was answered in place of what was asked is next, or after one more where it may not be."""
    taken = History((Done("steps a", "steps", "miss", "steps b"),))
    assert list(taken.look_alikes()) == ["steps b"]
    other = taken.with_drill(Done("sinks c", "sinks", "clean"))
    assert list(other.look_alikes()) == ["steps b"]
    assert list(other.with_drill(Done("sinks d", "sinks", "clean")).look_alikes()) == []
    assert list(taken.with_drill(Done("steps b", "steps", "clean")).look_alikes()) == []
    assert list(history_of(("steps a", "miss")).look_alikes()) == []


def test_others_are_counted_since_a_skill_was_met() -> None:
    """All of them, where it was not met at all."""
    history = history_of(("steps a", "miss"), ("sinks b", "clean"), ("labels c", "clean"))
    assert [history.others_since(skill) for skill in ("steps a", "labels c", "find d")] == [2, 0, 3]


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
