from __future__ import annotations

import pytest

from drills.geometry import Step
from drills.questions import ReadStep
from tests.trainer.answering.made import board, drill, of_form
from trainer.answering import LARGEST, ReadingInput
from trainer.board import Look
from trainer.ways_of_asking import input_for


def reading(code: str = "steps-1-3") -> ReadingInput:
    """Return the hand of a drill that asks for a step; by default it goes 4 to the left and 3 up."""
    hand = input_for(drill(code))
    assert isinstance(hand, ReadingInput)
    return hand


def typed(hand: ReadingInput, *digits: int) -> ReadingInput:
    """Return the hand after these digits."""
    for digit in digits:
        hand.number(digit)
    return hand


def test_two_digits_are_the_whole_answer() -> None:
    """The second number is in hand after the first digit; no key is needed between them."""
    hand = reading()
    assert hand.names == ("across", "up")
    hand.number(4)
    assert (hand.numbers, hand.at) == ([4, 0], 1)
    hand.number(3)
    assert hand.answer() == Step(-4, -3)


def test_every_step_is_answered_without_a_direction() -> None:
    """Bare numbers take the arrow's two directions, whichever of the four quarters it points to."""
    quarters = set()
    for made in of_form("steps", "read", range(1, 13)):
        truth = made.question.answer
        assert isinstance(truth, Step)
        hand = reading(made.code)
        numbers = (abs(truth.across), abs(truth.down), truth.times)
        given = typed(hand, *numbers[: len(hand.numbers)]).answer()
        assert given is not None
        assert made.judge(given).right
        assert given[:2] == truth[:2]
        assert hand.names[1] == ("down" if truth.down > 0 else "up")
        quarters.add((truth.across > 0, truth.down > 0))
    assert len(quarters) == 4


def test_where_repeats_count_there_is_a_third_number() -> None:
    """From level 3 on an answer of two numbers is not whole yet."""
    hand = typed(reading("steps-3-1"), 1, 2)
    assert hand.names == ("across", "down", "times")
    assert hand.answer() is None
    assert typed(hand, 3).answer() == Step(1, 2, 3)


@pytest.mark.parametrize(("digits", "lacks"), [((), "across"), ((1,), "down"), ((1, 2), "times")])
def test_what_is_missing_is_named(digits: tuple[int, ...], lacks: str) -> None:
    """The first number that is not there, in one sentence."""
    hand = typed(reading("steps-3-1"), *digits)
    assert hand.answer() is None
    assert lacks in hand.missing()
    assert hand.missing().endswith(".")


def test_typing_on_begins_again_at_the_first_number() -> None:
    """So that a whole answer can simply be typed once more."""
    hand = typed(reading(), 9, 9, 4, 3)
    assert (hand.numbers, hand.at) == ([4, 3], 0)


def test_taking_back_goes_number_by_number() -> None:
    """The last number first, then the one before it; with nothing left it does nothing."""
    hand = typed(reading(), 4, 3)
    hand.undo()
    assert (hand.numbers, hand.at) == ([4, 0], 1)
    hand.undo()
    assert (hand.numbers, hand.at) == ([0, 0], 0)
    hand.undo()
    assert (hand.numbers, hand.at) == ([0, 0], 0)
    assert typed(hand, 4, 3).answer() == Step(-4, -3)


def test_up_and_down_change_a_number_by_one() -> None:
    """From nothing to 1, never below it, and never past two digits."""
    hand = reading()
    hand.go("up")
    hand.go("up")
    assert hand.numbers == [2, 0]
    for _ in range(4):
        hand.go("down")
    assert hand.numbers == [1, 0]
    for _ in range(LARGEST + 5):
        hand.go("up")
    assert hand.numbers == [LARGEST, 0]


def test_left_and_right_go_round_the_numbers() -> None:
    """So do the keys for the next and the last point; no number changes by it."""
    hand = typed(reading("steps-3-1"), 1, 2, 3)
    hand.go("left")
    assert hand.at == 2
    hand.go("right")
    assert hand.at == 0
    hand.go("left")
    hand.next_point(back=True)
    assert hand.at == 1
    hand.next_point(back=False)
    assert (hand.at, hand.numbers) == (2, [1, 2, 3])


def test_a_click_changes_its_own_number() -> None:
    """And takes it in hand, so that a digit then goes there."""
    hand = reading()
    hand.change(1, 1)
    hand.change(1, 1)
    hand.change(1, -1)
    assert (hand.numbers, hand.at) == ([0, 1], 1)
    hand.number(3)
    assert hand.numbers == [0, 3]


def test_nothing_is_counted_for_the_person() -> None:
    """The board has the lit crease, its start and its arrow, whatever was typed; no word has a number."""
    for made in of_form("steps", "read"):
        assert isinstance(made.question, ReadStep)
        hand, lit = reading(made.code), made.question.lit
        start = frozenset({made.pattern.vertices[lit.start]})
        only = Look(lit=frozenset(lit.edges), arrow=(lit.start, lit.end), points=start)
        assert hand.look() == typed(hand, 1, 2).look() == only
        assert not any(sign.isdigit() for sign in " ".join(hand.says()))


def test_keys_of_other_questions_change_nothing() -> None:
    """There is nothing to mark, to turn to or to point at."""
    hand = typed(reading(), 4)
    hand.mark()
    hand.turn(clockwise=True)
    hand.point_at(board(hand.drill), 3, 3)
    assert (hand.numbers, hand.at) == ([4, 0], 1)
