from statistics import median
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from progress_store import Floor, Gaps, Pace, PaceKey, Result, State, net_ms, replay
from tests.progress_store.making import READ, RULES, attempt


def timed(times: list[int], day: int = 0) -> list[int | None]:
    """Return the goal that each of these right answers was held against."""
    _, judged = replay([attempt(number, day, milliseconds=ms) for number, ms in enumerate(times)], RULES)
    return [each.goal_ms for each in judged]


def test_moving_about_is_not_part_of_reading() -> None:
    """Rule 1 by hand: 5000 ms with 9 inputs at 250 ms at first is 5000 - 8 x 250 = 3000 ms."""
    assert net_ms(attempt(milliseconds=5000, inputs=9), Gaps()) == 3000


def test_an_input_costs_the_persons_own_quick_gap() -> None:
    """By hand: of the gaps 10, 20, ..., 400 the 25th percentile (nearest rank, the 10th of 40) is 100 ms."""
    gaps = Gaps.of([400 - 10 * number for number in range(40)])
    assert gaps.input_ms == 100
    assert net_ms(attempt(milliseconds=5000, inputs=9), gaps) == 4200


def test_no_time_is_under_nothing_and_no_time_stays_none() -> None:
    """Many quick inputs cannot make a negative time, and a time that was not kept is not made up."""
    assert net_ms(attempt(milliseconds=900, inputs=9), Gaps()) == 0
    assert net_ms(attempt(milliseconds=None, inputs=9), Gaps()) is None
    assert net_ms(attempt(milliseconds=4000, inputs=0), Gaps()) == 4000


def test_gaps_are_known_for_each_means_apart() -> None:
    """A quick hand on the keys does not make the mouse quick."""
    keys = attempt(0, gaps=(100,) * 40, inputs=41)
    state, judged = replay([keys, attempt(1, inputs=3), attempt(2, inputs=3, means="mouse")], RULES)
    assert [each.net_ms for each in judged[1:]] == [4000 - 2 * 100, 4000 - 2 * 250]
    assert state.gaps["keys"].input_ms == 100


@given(st.lists(st.lists(st.integers(0, 900), max_size=40), max_size=12))
def test_the_sorted_gaps_are_those_of_the_last_two_hundred(batches: list[list[int]]) -> None:
    """Adding bit by bit keeps what sorting the last 200 at once gives."""
    gaps, everything = Gaps(), list[int]()
    for batch in batches:
        gaps = gaps.after(batch)
        everything += batch
    assert gaps == Gaps.of(everything[-200:])


@pytest.mark.parametrize(
    ("marks", "band"), [(0, "1"), (1, "1"), (2, "2-3"), (3, "2-3"), (4, "4+"), (40, "4+")]
)
def test_a_form_keeps_few_and_many_marks_apart(marks: int, band: str) -> None:
    """Times are compared only at the same kind, form, level, marks and means."""
    assert PaceKey.of(attempt(marks=marks)) == PaceKey("steps", "read", 1, band, "keys")


def test_there_is_no_goal_under_twelve_right_answers() -> None:
    """Rule 2 by hand: after twelve times of 4000 ms the goal is 1.25 x 4000 = 5000 ms, and not before."""
    assert timed([4000] * 13) == [None] * 12 + [5000]


def test_a_goal_falls_and_never_rises() -> None:
    """By hand: 12 x 4000, then 12 x 3200 (goal 4000 at the end), then 12 x 9000 that change nothing."""
    goals = timed([4000] * 12 + [3200] * 12 + [9000] * 13)
    assert goals[12] == 5000
    assert goals[24] == 4000
    assert set(goals[24:]) == {4000}


def test_a_goal_is_not_under_the_floor() -> None:
    """Floors (common practice, no source): 3 s for a step, 1.5 s for each inside line."""
    assert timed([1000] * 13)[-1] == 3000
    marked = [attempt(number, kind="sinks", form="mark", marks=3, milliseconds=1000) for number in range(13)]
    assert replay(marked, RULES)[1][-1].goal_ms == 4500
    assert Floor(1500, each=True).of(0) == 1500


def test_misses_helped_untimed_and_walked_answers_do_not_set_the_pace() -> None:
    """Only right answers of one's own, with a time, say how quick one is."""
    others = [
        attempt(0, right=False, milliseconds=1),
        attempt(1, helped=True, milliseconds=1),
        attempt(2, milliseconds=None),
        attempt(3, purpose="walk", milliseconds=1),
    ]
    assert State.of(others, RULES).paces == {}


@pytest.mark.parametrize(("away", "goal"), [(20, 5000), (21, None), (25, None)])
def test_a_goal_is_measured_anew_after_three_weeks_away(away: int, goal: int | None) -> None:
    """After 25 days away nobody is held to the pace of before."""
    before = [attempt(number) for number in range(12)]
    _, judged = replay([*before, attempt(0, day=away)], RULES)
    assert judged[-1].goal_ms == goal
    assert judged[-1].result == "clean"


def test_after_three_weeks_the_new_goal_may_be_higher() -> None:
    """Measured anew means that the old best does not hold the goal down."""
    before = [attempt(number) for number in range(12)]
    after = [attempt(number, day=25, milliseconds=8000) for number in range(12)]
    state = State.of([*before, *after], RULES)
    assert state.goal_ms(READ, 1) == 10_000


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"right": False, "milliseconds": 100}, "miss"),
        ({"milliseconds": 5000}, "clean"),
        ({"milliseconds": 5001}, "slow"),
        ({"milliseconds": 1000, "helped": True}, "slow"),
        ({"milliseconds": 1000, "slip": "not smallest"}, "slow"),
        ({"milliseconds": None}, "slow"),
    ],
)
def test_results_against_a_goal_of_five_seconds(changes: dict[str, Any], expected: Result) -> None:
    """Rule 3 by hand; a time that was not kept is not shown to be within the goal."""
    before = [attempt(number) for number in range(12)]
    _, judged = replay([*before, attempt(20, **changes)], RULES)
    assert (judged[-1].goal_ms, judged[-1].result) == (5000, expected)


@pytest.mark.parametrize(
    ("changes", "expected"),
    [({"milliseconds": None}, "clean"), ({"milliseconds": 50_000}, "clean"), ({"helped": True}, "slow")],
)
def test_any_right_answer_of_ones_own_is_clean_while_there_is_no_goal(
    changes: dict[str, Any], expected: Result
) -> None:
    """Rule 3: without a goal no time is slow."""
    assert replay([attempt(0, **changes)], RULES)[1][0].result == expected


@given(st.lists(st.integers(0, 60_000), max_size=40))
def test_the_goal_is_the_lowest_median_of_any_twelve(times: list[int]) -> None:
    """Kept step by step it equals the plain definition over all windows."""
    pace = Pace()
    for ms in times:
        pace = pace.with_time(ms)
    windows = [times[start : start + 12] for start in range(len(times) - 11)]
    assert pace.best == (min(int(median(window)) for window in windows) if windows else None)
