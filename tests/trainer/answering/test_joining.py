from __future__ import annotations

from drills.questions import Marks
from tests.trainer.answering.made import board, drill, marked, of_form
from trainer.answering import JoiningInput
from trainer.board import draw_board
from trainer.ways_of_asking import input_for


def joining(code: str = "sinks-1-1-join") -> JoiningInput:
    """Return the answer input of a drill that asks where a hidden line leads."""
    entry = input_for(drill(code))
    assert isinstance(entry, JoiningInput)
    return entry


def test_the_point_under_the_cursor_is_the_answer() -> None:
    """From the lit point on every arrow changes it; nothing has to be marked."""
    entry = joining()
    assert entry.cursor.vertex == entry.question.to_json()["from"]
    entry.go("left")
    assert entry.cursor.vertex != entry.start
    assert entry.answer() == marked([entry.cursor.vertex])
    before = entry.answer()
    entry.mark()
    assert entry.answer() == before


def test_the_lit_point_is_no_answer_yet() -> None:
    """What to do is said in one sentence."""
    entry = joining()
    assert entry.answer() is None
    assert entry.missing().endswith(".")


def test_taking_back_returns_to_the_lit_point() -> None:
    """From wherever the cursor is."""
    entry = joining()
    for _ in range(4):
        entry.next_point(back=False)
    entry.undo()
    assert entry.cursor.vertex == entry.start
    assert entry.answer() is None


def test_hidden_lines_cannot_be_reached() -> None:
    """No cursor is ever on one, by any arrow, turn or click, and none is drawn."""
    for made in of_form("sinks", "join", range(1, 3)):
        entry, hidden = joining(made.code), made.question.hidden
        assert hidden
        for vertex in entry.track.vertices:
            assert not hidden & set(entry.track.creases_at(vertex))
        assert entry.look().hidden == hidden
        assert entry.look().cursor_edge is None
        without = draw_board(made.pattern, entry.look(), board(made)).lines
        entry.turn(clockwise=True)
        entry.mark()
        assert draw_board(made.pattern, entry.look(), board(made)).lines == without


def test_every_right_answer_can_be_clicked() -> None:
    """The middle of the point's cell puts the cursor there; a second click on it changes nothing."""
    for made in of_form("sinks", "join"):
        entry, truth, scale = joining(made.code), made.question.answer, board(made)
        assert isinstance(truth, Marks)
        (vertex,) = truth.items
        column, row = scale.cell(made.pattern.vertices[vertex])
        for _ in range(2):
            entry.point_at(scale, column + 0.5, row + 0.5)
            assert entry.answer() == truth
        assert made.judge(truth).right


def test_every_right_answer_can_be_reached_by_keys() -> None:
    """Going on from point to point comes by it."""
    for made in of_form("sinks", "join"):
        entry, seen = joining(made.code), []
        for _ in entry.track.vertices:
            entry.next_point(back=False)
            seen.append(entry.answer())
        assert made.question.answer in seen


def test_the_words_say_two_places_and_no_way() -> None:
    """Neither how far the line goes nor which way; the lit point stays the same."""
    entry = joining()
    lit = entry.says()[0]
    entry.go("left")
    assert entry.says()[0] == lit
    assert not any(word in " ".join(entry.says()) for word in ("across", "down", "inside", "turning"))
