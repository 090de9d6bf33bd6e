from __future__ import annotations

from drills.questions import Marks
from tests.trainer.answering.made import board, drill, marked, of_form
from trainer.answering import JoiningInput
from trainer.board import draw_board
from trainer.ways_of_asking import input_for


def joining(code: str = "sinks-1-1-join") -> JoiningInput:
    """Return the hand of a drill that asks where a hidden line leads."""
    hand = input_for(drill(code))
    assert isinstance(hand, JoiningInput)
    return hand


def test_the_point_under_the_cursor_is_the_answer() -> None:
    """From the lit point on every arrow changes it; nothing has to be marked."""
    hand = joining()
    assert hand.cursor.vertex == hand.question.to_json()["from"]
    hand.go("left")
    assert hand.cursor.vertex != hand.start
    assert hand.answer() == marked([hand.cursor.vertex])
    before = hand.answer()
    hand.mark()
    assert hand.answer() == before


def test_the_lit_point_is_no_answer_yet() -> None:
    """What to do is said in one sentence."""
    hand = joining()
    assert hand.answer() is None
    assert hand.missing().endswith(".")


def test_taking_back_returns_to_the_lit_point() -> None:
    """From wherever the cursor is."""
    hand = joining()
    for _ in range(4):
        hand.next_point(back=False)
    hand.undo()
    assert hand.cursor.vertex == hand.start
    assert hand.answer() is None


def test_hidden_lines_cannot_be_reached() -> None:
    """No cursor is ever on one, by any arrow, turn or click, and none is drawn."""
    for made in of_form("sinks", "join", range(1, 3)):
        hand, hidden = joining(made.code), made.question.hidden
        assert hidden
        for vertex in hand.track.vertices:
            assert not hidden & set(hand.track.creases_at(vertex))
        assert hand.look().hidden == hidden
        assert hand.look().cursor_edge is None
        without = draw_board(made.pattern, hand.look(), board(made)).lines
        hand.turn(clockwise=True)
        hand.mark()
        assert draw_board(made.pattern, hand.look(), board(made)).lines == without


def test_every_right_answer_can_be_clicked() -> None:
    """The middle of the point's cell puts the cursor there; a second click on it changes nothing."""
    for made in of_form("sinks", "join"):
        hand, truth, scale = joining(made.code), made.question.answer, board(made)
        assert isinstance(truth, Marks)
        (vertex,) = truth.items
        column, row = scale.cell(made.pattern.vertices[vertex])
        for _ in range(2):
            hand.point_at(scale, column + 0.5, row + 0.5)
            assert hand.answer() == truth
        assert made.judge(truth).right


def test_every_right_answer_can_be_reached_by_keys() -> None:
    """Going on from point to point comes by it."""
    for made in of_form("sinks", "join"):
        hand, seen = joining(made.code), []
        for _ in hand.track.vertices:
            hand.next_point(back=False)
            seen.append(hand.answer())
        assert made.question.answer in seen


def test_the_words_say_two_places_and_no_way() -> None:
    """Neither how far the line goes nor which way; the lit point stays the same."""
    hand = joining()
    lit = hand.says()[0]
    hand.go("left")
    assert hand.says()[0] == lit
    assert not any(word in " ".join(hand.says()) for word in ("across", "down", "inside", "turning"))
