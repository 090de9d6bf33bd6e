"""What is said to a step that was read, and to a crossing where one was said to end."""

from __future__ import annotations

import pytest

from drills.geometry import Point, Step
from drills.questions import Slip, Verdict, with_directions_of
from tests.drills.questions.known import edge, place_side, read_side

SIDE = {edge((1, 1), (4, 2)), edge((4, 2), (7, 3))}
NEXT = "From its start the crease meets the next crossing of the grid 3 across 1 up."
COUNT = "The step is right; the lit part makes it twice."


@pytest.mark.parametrize(
    ("given", "right", "slip", "answered", "truth", "why"),
    [
        ((3, -1, 2), True, "", "3 across 1 up, twice", "It is 3 across 1 up, twice.", NEXT),
        (
            (6, -2, 1),
            True,
            "not smallest",
            "6 across 2 up, once",
            "Right line; the smallest step is 3 across 1 up, twice.",
            NEXT,
        ),
        (
            (1, -3, 2),
            True,
            "exchanged",
            "1 across 3 up, twice",
            "The right numbers the other way round: it is 3 across 1 up, twice.",
            NEXT,
        ),
        (
            (2, -6, 1),
            True,
            "exchanged",
            "2 across 6 up, once",
            "The right numbers the other way round: it is 3 across 1 up, twice.",
            NEXT,
        ),
        ((3, 1, 2), False, "", "3 across 1 down, twice", "It is 3 across 1 up, twice.", NEXT),
        ((3, -1, 1), False, "", "3 across 1 up, once", "It is 3 across 1 up, twice.", COUNT),
        ((3, -1, 3), False, "", "3 across 1 up, 3 times", "It is 3 across 1 up, twice.", COUNT),
        ((6, -2, 2), False, "", "6 across 2 up, twice", "It is 3 across 1 up, twice.", COUNT),
        ((1, -3, 1), False, "", "1 across 3 up, once", "It is 3 across 1 up, twice.", NEXT),
        ((1, 3, 2), False, "", "1 across 3 down, twice", "It is 3 across 1 up, twice.", NEXT),
        ((4, -1, 2), False, "", "4 across 1 up, twice", "It is 3 across 1 up, twice.", NEXT),
        ((0, -1, 2), False, "", "0 across 1 up, twice", "It is 3 across 1 up, twice.", NEXT),
        ((3, 0, 2), False, "", "3 across 0 up, twice", "It is 3 across 1 up, twice.", NEXT),
        ((0, 0, 0), False, "", "0 across 0 up, 0 times", "It is 3 across 1 up, twice.", NEXT),
    ],
)
def test_a_step_with_its_count(
    given: tuple[int, int, int], right: bool, slip: Slip, answered: str, truth: str, why: str
) -> None:
    """The lit side leads 3 across 1 up, twice: answer, truth and reason, word for word."""
    verdict = read_side().judge(Step(*given))
    assert (verdict.right, verdict.slip) == (right, slip)
    assert (verdict.answered, verdict.truth, verdict.why) == (f"You read {answered}.", truth, why)
    assert (verdict.misses, verdict.false_alarms) == (int(not right), 0)


@pytest.mark.parametrize(
    ("given", "right", "slip", "answered", "truth"),
    [
        ((3, -1, 1), True, "", "3 across 1 up", "It is 3 across 1 up."),
        ((3, -1, 7), True, "", "3 across 1 up", "It is 3 across 1 up."),
        (
            (6, -2, 1),
            True,
            "not smallest",
            "6 across 2 up",
            "Right line; the smallest step is 3 across 1 up, twice.",
        ),
        (
            (1, -3, 1),
            True,
            "exchanged",
            "1 across 3 up",
            "The right numbers the other way round: it is 3 across 1 up.",
        ),
        ((3, 1, 1), False, "", "3 across 1 down", "It is 3 across 1 up."),
        ((2, -1, 1), False, "", "2 across 1 up", "It is 3 across 1 up."),
    ],
)
def test_a_step_without_its_count(
    given: tuple[int, int, int], right: bool, slip: Slip, answered: str, truth: str
) -> None:
    """Where the count is not asked for, none is judged, and none is told but for a step not reduced."""
    verdict = read_side(counts_repeats=False).judge(Step(*given))
    assert (verdict.right, verdict.slip) == (right, slip)
    assert (verdict.answered, verdict.truth, verdict.why) == (f"You read {answered}.", truth, NEXT)


def test_a_step_to_the_other_side_is_a_miss() -> None:
    """From its start the side leads to the right, so a step to the left is wrong, and so is the way back."""
    assert not read_side().judge(Step(-3, -1, 2)).right
    assert not read_side().judge(Step(-1, 3, 2)).right
    assert not read_side().judge(Step(-1, -3, 2)).right
    assert not read_side().judge(Step(-3, 1, 2)).right
    assert read_side(back=True).judge(Step(-3, 1, 2)).right
    assert not read_side(back=True).judge(Step(3, -1, 2)).right


@pytest.mark.parametrize("counts_repeats", [True, False])
def test_a_step_to_the_other_side_is_not_told_in_the_words_of_the_right_one(counts_repeats: bool) -> None:
    """Both are 3 across 1 up, so the side is named."""
    verdict = read_side(counts_repeats).judge(Step(-3, -1, 2))
    assert verdict.answered.startswith("You read 3 to the left, 1 up")
    assert verdict.truth.startswith("It is 3 to the right, 1 up")
    assert ("twice" in verdict.truth) == counts_repeats


@pytest.mark.parametrize("numbers", [(3, 1), (-3, 1), (3, -1), (-3, -1)])
def test_bare_numbers_take_their_directions_from_the_lit_arrow(numbers: tuple[int, int]) -> None:
    """Whichever way the crease is read, 3 and 1 are right, and the count stays as given."""
    for drill in (read_side(), read_side(back=True)):
        assert isinstance(drill.question.answer, Step)
        given = with_directions_of(Step(*numbers, 2), drill.question.answer)
        assert given == drill.question.answer
        assert drill.judge(given).right
        assert with_directions_of(Step(*numbers, 5), drill.question.answer).times == 5


def test_the_stairs_of_a_step_are_lit() -> None:
    """Across, then up, as often as it repeats, from the start to the end of the lit edges."""
    lit = read_side().judge(Step(1, 1, 1)).lit
    assert lit.staircase == ((1, 1), (4, 1), (4, 2), (7, 2), (7, 3))
    assert lit.right == SIDE
    back = read_side(back=True).judge(Step(1, 1, 1)).lit
    assert back.staircase == ((7, 3), (4, 3), (4, 2), (1, 2), (1, 1))


def place(x: int, y: int) -> Verdict:
    """Return the verdict on a crossing, y up, on a sheet 8 squares high."""
    return place_side().judge(Point(x, y))


def test_the_crossing_where_a_step_ends() -> None:
    """Places are told across and down from the top left corner; S is at (1; 7) and the end at (7; 5)."""
    right, wrong = place(7, 3), place(8, 3)
    assert (right.right, right.misses, wrong.right, wrong.misses) == (True, 0, False, 1)
    assert right.answered == "You chose (7; 5)."
    assert wrong.answered == "You chose (8; 5)."
    assert right.truth == wrong.truth == "It ends at (7; 5)."
    assert right.why == wrong.why == "3 across 1 up, twice: that is 6 across 2 up in all."


def test_the_crossing_chosen_and_the_one_missed_are_lit_apart() -> None:
    """A right one is lit as right; a wrong one as too much, and the true one as missed."""
    right, wrong = place(7, 3).lit, place(1, 1).lit
    assert right.right_points == wrong.missed_points == {(7, 3)}
    assert wrong.extra_points == {(1, 1)}
    assert not any((right.missed_points, right.extra_points, wrong.right_points))
    assert right.staircase == wrong.staircase == ((1, 1), (4, 1), (4, 2), (7, 2), (7, 3))


@pytest.mark.parametrize("given", [(4, 2), (3, 7), (7, 5), (1, 1)])
def test_no_other_crossing_is_right(given: tuple[int, int]) -> None:
    """Half way, the numbers exchanged, down in place of up and the start itself are misses without a slip."""
    verdict = place(*given)
    assert (verdict.right, verdict.slip) == (False, "")
