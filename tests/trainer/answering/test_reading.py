from __future__ import annotations

import pytest

from drills.geometry import Step
from drills.questions import ReadStep
from tests.trainer.answering.made import board, drill, of_form
from trainer.answering import LARGEST, ReadingInput
from trainer.board import Look
from trainer.ways_of_asking import input_for


def reading(code: str = "steps-1-3") -> ReadingInput:
    """Return the answer input of a drill that asks for a step; by default it goes 4 to the left and 3 up."""
    entry = input_for(drill(code))
    assert isinstance(entry, ReadingInput)
    return entry


def pressed(entry: ReadingInput, keys: str) -> ReadingInput:
    """Return the answer input after single keys: digits, a comma to go on, < to take back."""
    for key in keys:
        if key == ",":
            entry.next_number()
        elif key == "<":
            entry.undo()
        else:
            entry.number(int(key))
    return entry


def typed(entry: ReadingInput, *numbers: int) -> ReadingInput:
    """Return the answer input after these numbers, digit by digit, each ended by a comma."""
    return pressed(entry, "".join(f"{number}," for number in numbers))


def test_two_digits_are_the_whole_answer() -> None:
    """The second number is up after the first digit; no key is needed between them."""
    entry = reading()
    assert entry.names == ("across", "up")
    entry.number(4)
    assert (entry.numbers, entry.at) == ([4, 0], 1)
    entry.number(3)
    assert entry.answer() == Step(-4, -3)


def test_every_step_is_answered_without_a_direction() -> None:
    """Bare numbers take the arrow's two directions, whichever of the four quarters it points to."""
    quarters = set()
    for made in of_form("steps", "read", range(1, 7)):
        truth = made.question.answer
        assert isinstance(truth, Step)
        entry = reading(made.code)
        numbers = (abs(truth.across), abs(truth.down), truth.times)
        given = typed(entry, *numbers[: len(entry.numbers)]).answer()
        assert given is not None
        assert made.judge(given).right
        assert given[:2] == truth[:2]
        assert entry.names[1] == ("down" if truth.down > 0 else "up")
        quarters.add((truth.across > 0, truth.down > 0))
    assert len(quarters) == 4


def test_where_repeats_count_there_is_a_third_number() -> None:
    """There an answer of two numbers is not whole yet."""
    entry = typed(reading("steps-3-1"), 1, 2)
    assert entry.names == ("across", "down", "times")
    assert entry.answer() is None
    assert typed(entry, 3).answer() == Step(1, 2, 3)


@pytest.mark.parametrize(("digits", "lacks"), [((), "across"), ((1,), "down"), ((1, 2), "times")])
def test_what_is_missing_is_named(digits: tuple[int, ...], lacks: str) -> None:
    """The first number that is not there, in one sentence."""
    entry = typed(reading("steps-3-1"), *digits)
    assert entry.answer() is None
    assert lacks in entry.missing()
    assert entry.missing().endswith(".")


@pytest.mark.parametrize(
    ("keys", "numbers"),
    [
        ("12,5,1", [12, 5, 1]),
        ("1,2,5", [1, 2, 5]),
        ("1251", [12, 5, 1]),
        ("10,7,1", [10, 7, 1]),
        ("26,11,2", [26, 11, 2]),
        ("39,1", [3, 9, 1]),
        ("1,9,1", [1, 9, 1]),
    ],
)
def test_a_second_digit_joins_the_first_as_far_as_the_sheet_goes(keys: str, numbers: list[int]) -> None:
    """On 26 by 11 squares 12 is a number across, 39 and 91 none; the comma ends what could go on."""
    entry = pressed(reading("steps-7-11"), keys)
    assert entry.numbers == numbers


def test_what_waits_for_a_second_digit_says_so() -> None:
    """A 1 that may become 12 waits; 12 on 26 squares does not, nor does 9 on eleven."""
    entry = pressed(reading("steps-7-11"), "1")
    assert (entry.at, entry.waits) == (0, True)
    assert (pressed(entry, "2").at, entry.waits) == (1, False)
    assert pressed(entry, ",9").at == 2
    assert not entry.waits


def test_how_often_waits_only_where_so_many_steps_would_fit() -> None:
    """On 26 by 11 squares: 2 across 1 down ten times, but not 12 across 5 down."""
    assert not pressed(reading("steps-7-11"), "12,5,1").waits
    assert pressed(reading("steps-7-11"), "2,1,1").waits


def test_on_a_small_sheet_every_digit_goes_on_at_once() -> None:
    """A comma after it changes nothing, so that the fingers need not know."""
    assert pressed(reading(), "43").answer() == pressed(reading(), "4,3,").answer() == Step(-4, -3)
    assert pressed(reading(), "4,").at == 1


def test_a_number_begins_with_no_nought() -> None:
    """It only ever joins another digit."""
    assert pressed(reading("steps-7-11"), "0").numbers == [0, 0, 0]
    assert pressed(reading("steps-7-11"), "10").numbers == [10, 0, 0]


def test_typing_on_begins_again_at_the_first_number() -> None:
    """So that a whole answer can simply be typed once more."""
    entry = pressed(reading(), "9943")
    assert (entry.numbers, entry.at) == ([4, 3], 0)


def test_taking_back_goes_number_by_number() -> None:
    """The last number first, then the one before it; with nothing left it does nothing."""
    entry = typed(reading(), 4, 3)
    entry.undo()
    assert (entry.numbers, entry.at) == ([4, 0], 1)
    entry.undo()
    assert (entry.numbers, entry.at) == ([0, 0], 0)
    entry.undo()
    assert (entry.numbers, entry.at) == ([0, 0], 0)
    assert typed(entry, 4, 3).answer() == Step(-4, -3)


def test_taking_back_goes_digit_by_digit() -> None:
    """From 12 to 1, which another digit may join; over numbers that are not there."""
    entry = pressed(reading("steps-7-11"), "12,<")
    assert (entry.numbers, entry.at, entry.waits) == ([1, 0, 0], 0, True)
    assert pressed(entry, "3").numbers == [13, 0, 0]
    assert pressed(entry, "<<").numbers == [0, 0, 0]
    entry = pressed(reading("steps-7-11"), "12,,")
    assert pressed(entry, "<").numbers == [1, 0, 0]


def test_taking_back_what_the_arrows_changed() -> None:
    """The number in hand, not the one before it."""
    entry = pressed(reading("steps-7-11"), "12,")
    entry.go("up")
    assert pressed(entry, "<").numbers == [12, 0, 0]


def test_up_and_down_change_a_number_by_one() -> None:
    """From nothing to 1, never below it, and never past two digits."""
    entry = reading()
    entry.go("up")
    entry.go("up")
    assert entry.numbers == [2, 0]
    for _ in range(4):
        entry.go("down")
    assert entry.numbers == [1, 0]
    for _ in range(LARGEST + 5):
        entry.go("up")
    assert entry.numbers == [LARGEST, 0]


def test_left_and_right_go_round_the_numbers() -> None:
    """So do the keys for the next and the last point; no number changes by it."""
    entry = typed(reading("steps-3-1"), 1, 2, 3)
    assert entry.at == 0
    entry.go("left")
    assert entry.at == 2
    entry.go("right")
    assert entry.at == 0
    entry.go("left")
    entry.next_point(back=True)
    assert entry.at == 1
    entry.next_point(back=False)
    assert (entry.at, entry.numbers) == (2, [1, 2, 3])


def test_a_click_changes_its_own_number() -> None:
    """And goes to it, so that a digit then goes there."""
    entry = reading()
    entry.change(1, 1)
    entry.change(1, 1)
    entry.change(1, -1)
    assert (entry.numbers, entry.at) == ([0, 1], 1)
    entry.number(3)
    assert entry.numbers == [0, 3]


def test_nothing_is_counted_for_the_person() -> None:
    """The board has the lit crease, its start and its arrow, whatever was typed; no word has a number."""
    for made in of_form("steps", "read"):
        assert isinstance(made.question, ReadStep)
        entry, lit = reading(made.code), made.question.lit
        start = frozenset({made.pattern.vertices[lit.start]})
        only = Look(lit=frozenset(lit.edges), arrow=(lit.start, lit.end), points=start)
        assert entry.look() == typed(entry, 1, 2).look() == only
        assert not any(sign.isdigit() for sign in " ".join(entry.says()))


def test_keys_of_other_questions_change_nothing() -> None:
    """There is nothing to mark, to turn to or to point at."""
    entry = typed(reading(), 4)
    entry.mark()
    entry.turn(clockwise=True)
    entry.point_at(board(entry.drill), 3, 3)
    assert (entry.numbers, entry.at) == ([4, 0], 1)
