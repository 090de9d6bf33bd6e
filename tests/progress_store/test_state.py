import json
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from progress_store import Attempt, State, replay, state_from_json, state_to_json
from tests.progress_store.making import RULES, START, attempt

FIELDS = st.fixed_dictionaries(
    {
        "hours": st.integers(0, 24 * 60),
        "offset_minutes": st.sampled_from([-480, 0, 60, 540]),
        "kind": st.sampled_from(["steps", "sinks", "unheard of"]),
        "level": st.integers(1, 3),
        "marks": st.integers(0, 5),
        "skill": st.sampled_from(["one", "two", "three"]),
        "right": st.booleans() | st.just(True),
        "slip": st.none() | st.just("mixed up"),
        "helped": st.booleans(),
        "means": st.sampled_from(["keys", "mouse", "text"]),
        "milliseconds": st.none() | st.integers(0, 60_000),
        "inputs": st.integers(0, 12),
        "gaps": st.lists(st.integers(50, 900), max_size=11).map(tuple),
        "purpose": st.sampled_from(["today", "warm-up", "placing", "picked", "walk", "yardstick"]),
    }
)


def made(number: int, fields: dict[str, Any]) -> Attempt:
    """Return an attempt of these fields, so many hours after the start."""
    at = START + timedelta(hours=fields.pop("hours"))
    return attempt(number, at=at, **fields)


LOGS = st.lists(FIELDS, max_size=40).map(
    lambda log: [made(number, dict(each)) for number, each in enumerate(log)]
)


def test_the_state_of_nothing_is_the_state_at_first() -> None:
    """Without attempts nothing follows, and every kind is at level 1."""
    assert State.of([], RULES) == State(RULES)
    assert State(RULES).level("steps") == 1


@settings(max_examples=60, deadline=None)
@given(LOGS, st.integers(0, 40))
def test_going_on_from_a_saved_state_equals_making_it_anew(log: list[Attempt], cut: int) -> None:
    """At any point the state can be saved, read back and carried on without a difference."""
    ordered = sorted(log, key=lambda each: each.order)
    state = State.of(ordered[:cut], RULES)
    state = state_from_json(json.loads(json.dumps(state_to_json(state))), RULES)
    for each in ordered[cut:]:
        state = state.after(each)
    assert state == State.of(log, RULES)


@settings(max_examples=30, deadline=None)
@given(LOGS, st.randoms(use_true_random=False))
def test_the_order_of_the_lines_makes_no_difference(log: list[Attempt], chance: Any) -> None:
    """Two logs laid together in any order give the same state."""
    mixed = list(log)
    chance.shuffle(mixed)
    assert State.of(mixed, RULES) == State.of(log, RULES)


@settings(max_examples=30, deadline=None)
@given(LOGS)
def test_first_drills_are_once_a_day_alone_and_of_a_moving_purpose(log: list[Attempt]) -> None:
    """Replaying marks at most one first drill for a skill and day, and never a helped one."""
    judged = replay(log, RULES)[1]
    firsts = [each.attempt for each in judged if each.first]
    days = [(each.skill, each.practice_day) for each in firsts]
    assert len(set(days)) == len(days)
    assert all(not each.helped and each.purpose in {"today", "placing", "picked"} for each in firsts)


def test_an_earlier_attempt_cannot_be_added_after_a_later_one() -> None:
    """The state is carried on in order of time only."""
    state = State.of([attempt(5)], RULES)
    with pytest.raises(ValueError, match="order of time"):
        state.after(attempt(4))


def test_a_skill_remembers_its_last_ten_results_and_its_latest_form() -> None:
    """What fills a session can be read from it: misses of the last ten, days met."""
    drills = [attempt(number, right=number != 14) for number in range(15)]
    state = State.of([*drills, attempt(0, day=2, marks=2, milliseconds=6000)], RULES)
    skill = state.skills["steps 1:2"]
    assert skill.results == ("clean",) * 8 + ("miss", "clean")
    assert (skill.pace_key.marks, skill.marks) == ("2-3", 2)
    assert (skill.last_day - skill.first_day).days == 2


def test_the_walk_leaves_no_result() -> None:
    """Being shown a skill is meeting it, not trying it."""
    skill = State.of([attempt(purpose="walk", right=False)], RULES).skills["steps 1:2"]
    assert (skill.results, skill.word, skill.next) == ((), "new", None)
