from __future__ import annotations

from drills.pattern import ROLES
from drills.questions import Marks
from tests.trainer.answering.made import board, drill, marked, of_form
from trainer.answering import PointsInput
from trainer.board import points_at
from trainer.ways_of_asking import input_for


def points(code: str = "sinks-1-1-points") -> PointsInput:
    """Return the answer input of a drill that asks for points."""
    entry = input_for(drill(code))
    assert isinstance(entry, PointsInput)
    return entry


def test_the_point_under_the_cursor_is_marked() -> None:
    """And the mark is taken away by the same key; the board and the words say so."""
    entry = points()
    vertex = entry.cursor.vertex
    entry.mark()
    assert entry.answer() == marked([vertex])
    assert entry.look().marked.points == {entry.drill.pattern.vertices[vertex]}
    assert "(marked)" in entry.says()[0]
    entry.go("right")
    assert "(marked)" not in entry.says()[0]
    entry.go("left")
    entry.mark()
    assert entry.look().marked.points == set()


def test_taking_back_takes_the_latest_mark_first() -> None:
    """Point by point, and at last it does nothing."""
    entry = points()
    chosen = []
    for _ in range(3):
        entry.next_point(back=False)
        entry.mark()
        chosen.append(entry.cursor.vertex)
    for left in (chosen[:2], chosen[:1], [], []):
        entry.undo()
        assert entry.look().marked.points == points_at(entry.drill.pattern, left)


def test_every_right_answer_can_be_clicked() -> None:
    """The middle of a turning point's cell marks that point, however close its neighbours are."""
    for made in of_form("sinks", "points"):
        entry, truth, scale = points(made.code), made.question.answer, board(made)
        assert isinstance(truth, Marks)
        for vertex in truth.items:
            column, row = scale.cell(made.pattern.vertices[vertex])
            entry.point_at(scale, column + 0.5, row + 0.5)
        assert entry.answer() == truth
        assert made.judge(truth).right


def test_a_second_click_takes_the_mark_away() -> None:
    """Where one point alone is near."""
    entry = points()
    scale = board(entry.drill)
    vertex = entry.track.reading_order[0]
    column, row = scale.cell(entry.drill.pattern.vertices[vertex])
    entry.point_at(scale, column + 0.5, row + 0.5)
    assert entry.answer() == marked([vertex])
    entry.point_at(scale, column + 0.5, row + 0.5)
    assert entry.look().marked.points == set()


def test_no_word_says_which_points_turn() -> None:
    """Of each point its place alone is said, and how many are marked."""
    for made in of_form("sinks", "points", range(1, 3)):
        entry = points(made.code)
        for _ in entry.track.vertices:
            entry.next_point(back=False)
            words = " ".join(entry.says())
            assert "turning" not in words
            assert not any(role in words for role in ROLES.values())


def test_creases_are_not_turned_to() -> None:
    """Points are asked for: turning round a point changes nothing and no crease is under the cursor."""
    entry = points()
    before = entry.cursor
    entry.turn(clockwise=True)
    assert entry.cursor == before
    assert entry.look().cursor_edge is None
