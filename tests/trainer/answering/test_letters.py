from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import pytest

from drills.geometry import Point
from drills.questions import Drill, JoinPoints, Marks
from drills.structures import lies_within
from tests.drills.questions.codes import right_answer
from tests.trainer.answering.made import FORMS, board, drill, of_form
from trainer.actions import DIGITS, LETTERS
from trainer.answering import CreasesInput, FindingInput, JoiningInput, PointsInput, verdict_look
from trainer.answering.letters import Lettered, lettered
from trainer.ways_of_asking import input_for

ROW = {number: Point(number, 0) for number in range(40)}


def lettering(made: Drill) -> CreasesInput | PointsInput | FindingInput:
    """Return the answer input of a drill with the whole sheet in view and letters on it."""
    entry = input_for(made)
    assert isinstance(entry, CreasesInput | PointsInput | FindingInput)
    entry.sees(board(made))
    entry.letters()
    assert entry.letters_on
    return entry


def type_to(entry: CreasesInput | PointsInput | FindingInput, item: int | Point) -> str:
    """Type the letter of an item, before it that of its part; return its own."""
    shown: Lettered[int] | Lettered[Point] | None = entry.lettered
    assert shown is not None
    part = next(number for number, items in enumerate(shown.parts) if item in items)
    if shown.open != part:
        entry.letter(DIGITS[part])
    own = shown.signs[list(shown.parts[part]).index(item)]
    entry.letter(own)
    return own


def marked_forms() -> Iterator[Drill]:
    """Yield drills of all forms in which something is marked or chosen."""
    for kind, form in FORMS:
        for made in of_form(kind, form, range(1, 3), range(2, 5)):
            if isinstance(input_for(made), CreasesInput | PointsInput | FindingInput):
                yield made


def to_be_marked(made: Drill, entry: CreasesInput | PointsInput | FindingInput) -> list[int] | list[Point]:
    """Return what is to be marked; of a stretch the first place in it that has a letter."""
    if not isinstance(entry, FindingInput):
        return sorted(made.question.answer.items)
    assert entry.lettered is not None
    places = [at for part in entry.lettered.parts for at in part]
    inside = partial(lies_within, made.pattern)
    return [next(at for at in places if inside(edges, at)) for edges in made.question.answer.edges]


def test_few_items_have_a_letter_each_in_reading_order() -> None:
    """From the left along the top, then the next row."""
    shown = lettered({1: Point(0, 0), 2: Point(4, 0), 3: Point(2, 1)})
    assert shown.shown() == {3: "b", 1: "d", 2: "e"}


def test_many_items_are_in_parts_of_like_size_that_do_not_overlap() -> None:
    """Forty in a row: three parts from left to right, in each a letter for every one."""
    shown = lettered(ROW)
    assert [len(part) for part in shown.parts] == [14, 13, 13]
    assert shown.parts[0] == tuple(range(14))
    assert shown.shown()[39] == "3"
    assert shown.item("3") is None
    opened = shown.opening("3")
    assert opened.shown() == dict(zip(range(27, 40), LETTERS, strict=False))
    assert opened.item("b") == 27
    assert shown.opening("y") is shown
    assert opened.opening("1").open == 0
    assert list(opened.other_parts().values()) == ["1", "2"]


def test_up_to_as_many_as_there_are_signs_each_has_its_own() -> None:
    """Fifteen letters, then the digits; one more, and there are parts."""
    number = len(LETTERS + DIGITS)
    few = lettered({n: Point(n, 0) for n in range(number)})
    assert "".join(few.shown().values()) == LETTERS + DIGITS
    assert few.item("9") == number - 1
    assert len(lettered({n: Point(n, 0) for n in range(number + 1)}).parts) == 2


def test_the_right_answer_is_typed_letter_by_letter() -> None:
    """In every form where something is marked: each mark by its letters, the cursor is there too."""
    for made in marked_forms():
        entry = lettering(made)
        wanted = to_be_marked(made, entry)
        for item in wanted:
            type_to(entry, item)
        given = entry.answer() if wanted else entry.nothing()
        assert given is not None
        assert made.judge(given).right


def test_a_letter_typed_twice_takes_the_mark_away() -> None:
    """A capital says that there is one; undo works as ever."""
    entry = lettering(drill("labels-1-1"))
    assert isinstance(entry, CreasesInput)
    own = type_to(entry, 9)
    assert (entry.marks, entry.cursor.edge) == ([9], 9)
    assert own.upper() in {sign for _, sign in entry.look().letters}
    entry.letter(own)
    assert entry.marks == []
    assert own in {sign for _, sign in entry.look().letters}


def test_back_goes_from_a_part_to_all_and_then_to_none() -> None:
    """The key that puts the letters there takes them away at once."""
    entry = lettering(drill("labels-3-1"))
    entry.letter("2")
    entry.letters_back()
    assert entry.lettered is not None
    assert entry.lettered.open is None
    entry.letters_back()
    assert not entry.letters_on
    assert entry.look().letters == ()
    entry.letters()
    entry.letter("1")
    entry.letters()
    assert not entry.letters_on


def test_a_digit_leads_from_part_to_part() -> None:
    """Of each part one sign is shown, in its middle; the letters of the chosen one stay after a mark."""
    entry = lettering(drill("find-3-1"))
    assert entry.lettered is not None
    number = len(entry.lettered.parts)
    assert {sign for _, sign in entry.look().letters} == set(DIGITS[:number])
    entry.letter("1")
    assert len(entry.look().letters) == len(entry.lettered.parts[0]) + number - 1
    entry.letter("b")
    assert len(entry.marks) == 1
    assert entry.lettered.open == 0
    entry.letter("2")
    entry.letter("b")
    assert len(entry.marks) == 2
    assert entry.lettered.open == 1


def test_what_has_a_digit_wears_a_star_once_it_is_marked() -> None:
    """As a digit has no capital."""
    entry = lettering(drill("sinks-2-1-points"))
    assert isinstance(entry, PointsInput)
    assert entry.lettered is not None
    (vertex,) = (vertex for vertex, sign in entry.lettered.shown().items() if sign == "1")
    entry.letter("1")
    assert entry.marks == [vertex]
    signs = [sign for _, sign in entry.look().letters]
    assert "*" in signs
    assert "1" not in signs
    entry.letter("1")
    assert entry.marks == []


def test_joined_points_are_gone_to() -> None:
    """There is nothing to mark; Enter answers with the point under the cursor."""
    made = next(of_form("sinks", "join", range(1, 2), [2]))
    assert isinstance(made.question, JoinPoints)
    entry = lettering(made)
    assert isinstance(entry, JoiningInput)
    (target,) = made.question.answer.items
    type_to(entry, target)
    assert entry.answer() == Marks(frozenset({target}))


@pytest.mark.parametrize("code", ["labels-3-1", "sinks-2-1", "find-3-1"])
def test_the_panel_says_what_letters_do_and_how_they_go(code: str) -> None:
    """In words, as other letters do nothing then."""
    entry = lettering(drill(code))
    assert "letter" in entry.says()[0]
    assert "no letters" in entry.says()[1]
    entry.letters()
    assert not any("letter" in said for said in entry.says())


def test_letters_follow_the_view() -> None:
    """Another window shows other creases; the same one changes nothing."""
    made = drill("labels-3-1")
    entry = input_for(made)
    assert entry.sees(board(made)) is False
    entry.letters()
    assert entry.sees(board(made)) is False
    part = board(made).__class__(made.pattern.box, 8, 20, 10)
    assert entry.sees(part) is True
    assert len(entry.look().letters) < len(made.pattern.creases)


def test_the_verdict_shows_no_letters() -> None:
    """They would stand on what is told."""
    made = drill("labels-3-3")
    entry = lettering(made)
    asked = entry.look()
    assert asked.letters
    assert verdict_look(made, made.judge(right_answer(made)), asked).letters == ()
