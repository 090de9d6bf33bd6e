from typing import Any

import pytest

from progress_store import Mastery, Rules, State, Word
from tests.progress_store.making import FLOORS, RULES, attempt

Block = list[tuple[int, dict[str, Any]]]


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


def block(rights: int, *, level: int = 1, start: int = 0, **changes: object) -> Block:
    """Return arguments for twelve first drills, so many of them right."""
    return [
        (day, {"level": level, "right": day - start < rights, **changes}) for day in range(start, start + 12)
    ]


def level_after(*blocks: Block, rules: Rules = RULES) -> int:
    """Return the level of steps after blocks of first drills on days of their own."""
    drills = [attempt(0, day, **changes) for each in blocks for day, changes in each]
    return State.of(drills, rules).level("steps")


@pytest.mark.parametrize(("rights", "expected"), [(12, 2), (11, 2), (10, 1), (9, 1), (8, 1), (0, 1)])
def test_a_block_of_twelve_with_eleven_right_goes_up(rights: int, expected: int) -> None:
    """Rule 8 by hand, from level 1, below which there is none."""
    assert level_after(block(rights)) == expected


@pytest.mark.parametrize(("rights", "expected"), [(12, 3), (11, 3), (10, 2), (9, 2), (8, 1), (0, 1)])
def test_a_block_of_twelve_with_eight_right_goes_down(rights: int, expected: int) -> None:
    """Rule 8 by hand, from level 2."""
    assert level_after(block(12), block(rights, level=2, start=12)) == expected


def test_eleven_drills_are_no_block() -> None:
    """The level waits for the twelfth."""
    assert level_after(block(12)[:11]) == 1


def test_right_but_slow_does_not_go_up() -> None:
    """By hand: a goal of 5000 ms, then a block of 6000 ms each: the median is over the goal."""
    practice = [attempt(number, skill="steps 1:3", purpose="warm-up") for number in range(12)]
    slow = [attempt(0, day, milliseconds=6000) for day in range(1, 13)]
    quick = [attempt(0, day, milliseconds=5000) for day in range(1, 13)]
    assert State.of([*practice, *slow], RULES).level("steps") == 1
    assert State.of([*practice, *quick], RULES).level("steps") == 2


def test_the_level_stays_within_the_top() -> None:
    """There is no level above the top one, and none but 1 for a kind that is not known."""
    two = Rules(FLOORS, {"steps": range(1, 3)})
    assert level_after(block(12), block(12, level=2, start=12), rules=two) == 2
    assert level_after(block(12), rules=Rules({}, {})) == 1


def test_drills_at_another_level_are_not_in_the_block() -> None:
    """Easy drills picked by hand raise nobody."""
    first = block(12)
    assert level_after(first, block(0, level=1, start=12)) == 2


def test_placing_sets_the_highest_level_that_was_right() -> None:
    """Six drills at the first start place a person, at level 1 at least and at the top at most."""
    placing = [(1, True), (3, True), (5, False), (4, True), (9, False)]
    drills = [
        attempt(number, level=level, right=right, purpose="placing")
        for number, (level, right) in enumerate(placing)
    ]
    assert State.of(drills, RULES).level("steps") == 4
    assert State.of([attempt(level=3, right=False, purpose="placing")], RULES).level("steps") == 1
    assert State.of([attempt(level=9, purpose="placing")], RULES).level("steps") == 7
    assert State.of(drills, RULES).level("sinks") == 1


def test_a_kind_begins_at_its_lowest_level() -> None:
    """A kind whose levels go from 2 starts there, and eight of twelve right do not lower it."""
    found = [attempt(0, day, kind="find", skill="find roof", level=2, right=day < 9) for day in range(1, 13)]
    assert State.of([], RULES).level("find") == State.of(found, RULES).level("find") == 2
    assert State.of([attempt(kind="find", level=1, purpose="placing")], RULES).level("find") == 2
