from __future__ import annotations

from drills.questions import Marks
from tests.trainer.answering.made import board, drill, marked, of_form
from trainer.answering import PointsInput
from trainer.board import ROLES, points_at
from trainer.ways_of_asking import input_for


def points(code: str = "sinks-1-1-points") -> PointsInput:
    """Return the hand of a drill that asks for points."""
    hand = input_for(drill(code))
    assert isinstance(hand, PointsInput)
    return hand


def test_the_point_under_the_cursor_is_marked() -> None:
    """And the mark is taken away by the same key; the board and the words say so."""
    hand = points()
    vertex = hand.cursor.vertex
    hand.mark()
    assert hand.answer() == marked([vertex])
    assert hand.look().marked.points == {hand.drill.pattern.vertices[vertex]}
    assert "(marked)" in hand.says()[0]
    hand.go("right")
    assert "(marked)" not in hand.says()[0]
    hand.go("left")
    hand.mark()
    assert hand.look().marked.points == set()


def test_taking_back_takes_the_latest_mark_first() -> None:
    """Point by point, and at last it does nothing."""
    hand = points()
    chosen = []
    for _ in range(3):
        hand.next_point(back=False)
        hand.mark()
        chosen.append(hand.cursor.vertex)
    for left in (chosen[:2], chosen[:1], [], []):
        hand.undo()
        assert hand.look().marked.points == points_at(hand.drill.pattern, left)


def test_every_right_answer_can_be_clicked() -> None:
    """The middle of a turning point's cell marks that point, however close its neighbours are."""
    for made in of_form("sinks", "points"):
        hand, truth, scale = points(made.code), made.question.answer, board(made)
        assert isinstance(truth, Marks)
        for vertex in truth.items:
            column, row = scale.cell(made.pattern.vertices[vertex])
            hand.point_at(scale, column + 0.5, row + 0.5)
        assert hand.answer() == truth
        assert made.judge(truth).right


def test_a_second_click_takes_the_mark_away() -> None:
    """Where one point alone is near."""
    hand = points()
    scale = board(hand.drill)
    vertex = hand.track.reading_order[0]
    column, row = scale.cell(hand.drill.pattern.vertices[vertex])
    hand.point_at(scale, column + 0.5, row + 0.5)
    assert hand.answer() == marked([vertex])
    hand.point_at(scale, column + 0.5, row + 0.5)
    assert hand.look().marked.points == set()


def test_no_word_says_which_points_turn() -> None:
    """Of each point its place alone is said, and how many are marked."""
    for made in of_form("sinks", "points", range(1, 3)):
        hand = points(made.code)
        for _ in hand.track.vertices:
            hand.next_point(back=False)
            words = " ".join(hand.says())
            assert "turning" not in words
            assert not any(role in words for role in ROLES.values())


def test_creases_are_not_turned_to() -> None:
    """Points are asked for: turning round a point changes nothing and no crease is under the cursor."""
    hand = points()
    before = hand.cursor
    hand.turn(clockwise=True)
    assert hand.cursor == before
    assert hand.look().cursor_edge is None
