from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point, is_whole
from tests.drills.questions.codes import levels_of
from tests.trainer.answering.made import board, drill, of_form
from trainer.answering import ARROW_MOVES, PlacingInput
from trainer.board import Arrow
from trainer.ways_of_asking import input_for

ARROWS: tuple[Arrow, ...] = ("left", "right", "up", "down")
CODES = [f"steps-{level}-{seed}-place" for level in levels_of("steps") for seed in (1, 2, 3)]


def placing(code: str = "steps-1-3-place") -> PlacingInput:
    """Return the answer input of a drill that asks for a place: 4 to the right and 3 up from 0,0."""
    entry = input_for(drill(code))
    assert isinstance(entry, PlacingInput)
    return entry


def test_arrows_go_square_by_square_to_the_answer() -> None:
    """Four to the right and three up are seven keys."""
    entry = placing()
    assert entry.at == entry.start == Point(0, 0)
    for arrow in ("right", "right", "right", "right", "up", "up", "up"):
        entry.go(arrow)
    assert entry.answer() == entry.drill.question.answer == Point(4, 3)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.sampled_from(CODES), st.lists(st.sampled_from(ARROWS), max_size=40))
def test_the_cursor_stays_on_paper(code: str, arrows: list[Arrow]) -> None:
    """At an edge an arrow does nothing; elsewhere it goes one square and back again."""
    entry = placing(code)
    left, bottom, right, top = entry.drill.pattern.box
    for arrow in arrows:
        before = entry.at
        entry.go(arrow)
        assert left <= entry.at.x <= right
        assert bottom <= entry.at.y <= top
        assert is_whole(entry.at)
        assert entry.at == before or (entry.at.x - before.x, entry.at.y - before.y) == ARROW_MOVES[arrow]


def test_every_crossing_is_clicked_where_it_is_drawn() -> None:
    """The middle of a crossing's cell puts the cursor there; outside the sheet it is the nearest one."""
    entry = placing("steps-3-2-place")
    scale = board(entry.drill)
    for crossing in scale.crossings():
        column, row = scale.cell(crossing)
        entry.point_at(scale, column + 0.5, row + 0.5)
        assert entry.at == crossing
    entry.point_at(scale, -50, -50)
    left, _, _, top = entry.drill.pattern.box
    assert entry.at == Point(left, top)


def test_the_start_is_no_answer_yet() -> None:
    """What to do is said, before the cursor has moved and when it is back."""
    entry = placing()
    assert entry.answer() is None
    entry.go("right")
    assert entry.answer() == Point(1, 0)
    entry.go("left")
    assert entry.answer() is None
    assert entry.missing().endswith(".")


def test_taking_back_returns_to_the_start() -> None:
    """From wherever the cursor is."""
    entry = placing()
    for arrow in ("right", "up", "up"):
        entry.go(arrow)
    entry.undo()
    assert entry.at == entry.start
    assert entry.answer() is None


def test_the_squares_are_not_counted_for_the_person() -> None:
    """The words are the same wherever the cursor is, and the board shows start and cursor alone."""
    for made in of_form("steps", "place", range(1, 4)):
        entry = placing(made.code)
        said = entry.says()
        entry.point_at(board(made), 0, 0)
        look = entry.look()
        assert entry.says() == said
        assert look.bare
        assert look.points == {entry.start}
        assert look.cursor_at == entry.at
        assert not look.staircase
        assert not look.right.points


def test_every_place_can_be_answered_right() -> None:
    """The end of the step is a crossing on the paper, some arrows away."""
    for made in of_form("steps", "place"):
        entry, truth = placing(made.code), made.question.answer
        assert isinstance(truth, Point)
        entry.undo()
        across, up = int(truth.x - entry.start.x), int(truth.y - entry.start.y)
        for arrow, number in zip(ARROWS, (-across, across, up, -up), strict=True):
            for _ in range(number):
                entry.go(arrow)
        given_answer = entry.answer()
        assert given_answer is not None
        assert made.judge(given_answer).right
