from typing import Any

import pytest

from progress_store import Mastery, Rules, State, Word
from tests.progress_store.making import FLOORS, RULES, attempt


def word(*days: tuple[int, bool]) -> Word:
    """Return the word after first drills on these days, right or not."""
    return State.of([attempt(0, day, right=right) for day, right in days], RULES).skills["steps 1:2"].word


def test_three_clean_days_make_a_skill_quick() -> None:
    """Rule 9 by hand: new until right, right until the third clean day."""
    assert word((0, False)) == "new"
    assert word((0, True)) == "right"
    assert word((0, True), (1, True)) == "right"
    assert word((0, True), (1, True), (2, True)) == "quick"


@pytest.mark.parametrize(("days", "expected"), [(6, "right"), (7, "kept"), (30, "kept")])
def test_clean_after_a_week_away_makes_a_skill_kept(days: int, expected: Word) -> None:
    """Away is counted in practice days since the skill was last met."""
    assert word((0, True), (days, True)) == expected


def test_a_warm_up_in_between_means_not_away() -> None:
    """A skill met yesterday in a warm-up was not kept over a week."""
    met = [attempt(0, 0), attempt(0, 6, purpose="warm-up"), attempt(0, 7)]
    assert State.of(met, RULES).skills["steps 1:2"].word == "right"


def test_a_miss_takes_the_word_back_to_right() -> None:
    """Quick and kept describe now, not once upon a time."""
    assert word((0, True), (8, True), (9, False)) == "right"
    assert word((0, True), (1, True), (2, True), (3, False), (4, True), (5, True)) == "right"
    assert word((0, True), (1, True), (2, True), (3, False), (4, True), (5, True), (6, True)) == "quick"


def test_slow_is_right_but_not_clean() -> None:
    """A slow first drill ends a run of clean days."""
    assert Mastery().after("slow", None) == Mastery(was_right=True)
    assert Mastery(True, 3, True).after("slow", 9).word == "right"


def test_more_drills_on_one_day_are_one_day() -> None:
    """Three clean drills in a row on one day are not three clean days."""
    assert State.of([attempt(number) for number in range(3)], RULES).skills["steps 1:2"].word == "right"


def level_after(results: str, level: int = 1, rules: Rules = RULES, **changes: Any) -> int:
    """Return the level of steps after drills of one day, r or w, each at the level the person then has."""
    state = State.of([attempt(level=level, purpose="placing")], rules) if level > 1 else State(rules)
    for number, result in enumerate(results, 1):
        at = state.level("steps")
        state = state.after(attempt(number, level=at, right=result == "r", **changes))
    return state.level("steps")


@pytest.mark.parametrize(
    ("results", "expected"),
    [("rrr", 1), ("rrrr", 2), ("rrrrrrr", 2), ("rrrrrrrr", 3), ("w", 1), ("rrrwrrr", 1), ("rrrwrrrr", 2)],
)
def test_four_right_running_raise_the_level(results: str, expected: int) -> None:
    """Rule 4 by hand, from level 1, below which there is none; each level asks for four of its own."""
    assert level_after(results) == expected


@pytest.mark.parametrize(("results", "expected"), [("w", 2), ("ww", 1), ("rrw", 2), ("wrrrr", 3), ("rrr", 4)])
def test_a_miss_lowers_the_level_and_the_count_begins_anew(results: str, expected: int) -> None:
    """Rule 4 by hand, placed at level 3 by one that was right there, which counts."""
    assert level_after(results, level=3) == expected


def test_slow_ones_count_and_helped_ones_do_not() -> None:
    """A slip is right, if slowly; what was helped neither raises nor lowers, nor ends a run."""
    assert level_after("rrrr", slip="exchanged") == 2
    assert level_after("rrrrrr", helped=True) == 1
    assert level_after("ww", level=3, helped=True) == 3


@pytest.mark.parametrize(
    ("purpose", "expected"),
    [("today", 2), ("picked", 2), ("placing", 2), ("warm-up", 1), ("walk", 1), ("yardstick", 1)],
)
def test_what_counts_for_the_level(purpose: str, expected: int) -> None:
    """Today, placing and picked do; a warm-up, the walk and the yardstick leave it."""
    assert level_after("rrrr", purpose=purpose) == expected


def test_all_skills_of_a_kind_raise_its_level_and_no_other() -> None:
    """Four right running of four skills, with drills of another kind between."""
    drills = [attempt(number, skill=f"steps {number}") for number in range(4)]
    drills += [attempt(number + 10, kind="sinks", skill="sinks a", right=False) for number in range(3)]
    state = State.of(drills, RULES)
    assert (state.level("steps"), state.level("sinks"), state.level("labels")) == (2, 1, 1)


def test_drills_at_another_level_leave_it() -> None:
    """Easy ones picked by hand raise nobody, and hard ones lower nobody."""
    above, below = (
        [attempt(10 + number, level=level, right=right, purpose="picked") for number in range(8)]
        for level, right in ((4, False), (2, True))
    )
    placed = attempt(level=3, purpose="placing")
    assert State.of([placed, *above], RULES).level("steps") == 3
    assert State.of([placed, *below], RULES).level("steps") == 3


def test_the_level_stays_within_the_top() -> None:
    """There is no level above the top one, and none but 1 for a kind that is not known."""
    two = Rules(FLOORS, {"steps": range(1, 3)})
    assert level_after("r" * 12, rules=two) == 2
    assert State.of([attempt(n, level=2) for n in range(9)], two).standing("steps").running == 0
    assert level_after("r" * 12, rules=Rules({}, {})) == 1


def test_placing_sets_the_highest_level_that_was_right() -> None:
    """At the first start, at level 1 at least and at the top at most; a helped one places nobody."""
    placing = [(1, True), (3, True), (5, False), (4, True), (9, False)]
    drills = [
        attempt(number, level=level, right=right, purpose="placing")
        for number, (level, right) in enumerate(placing)
    ]
    assert State.of(drills, RULES).level("steps") == 4
    assert State.of([attempt(level=3, right=False, purpose="placing")], RULES).level("steps") == 1
    assert State.of([attempt(level=9, purpose="placing")], RULES).level("steps") == 7
    assert State.of([attempt(level=3, purpose="placing", helped=True)], RULES).level("steps") == 1
    assert State.of(drills, RULES).level("sinks") == 1


def test_a_kind_begins_at_its_lowest_level() -> None:
    """A kind whose levels go from 2 starts there, and a miss does not lower it."""
    found = attempt(kind="find", skill="find roof", level=2, right=False)
    assert State.of([], RULES).level("find") == State.of([found], RULES).level("find") == 2
    assert State.of([attempt(kind="find", level=1, purpose="placing")], RULES).level("find") == 2


@pytest.mark.parametrize(
    ("results", "expected"), [("w", True), ("r", False), ("wr", False), ("ww", False), ("www", True)]
)
def test_a_miss_of_the_round_is_owed_until_it_came_back_once(results: str, expected: bool) -> None:
    """Met again it has come back, however that goes; the next miss after that is owed anew."""
    drills = [attempt(number, right=result == "r") for number, result in enumerate(results)]
    assert State.of(drills, RULES).skills["steps 1:2"].owed is expected
    for purpose in ("placing", "picked", "warm-up", "walk"):
        others = [attempt(number, right=False, purpose=purpose) for number in range(3)]
        assert not State.of(others, RULES).skills["steps 1:2"].owed
