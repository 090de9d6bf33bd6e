from __future__ import annotations

import pytest

from drills.geometry import Point
from drills.pattern import Paper, build
from drills.questions import Code, make
from tests.trainer.board.sheets import fitted
from tests.trainer.screens.playing import FIND, LABELS, PLACE, READ
from trainer.answering import verdict_look
from trainer.board import Look, draw_board, with_rulers
from trainer.board.scale import Scale, scale_around
from trainer.ways_of_asking import way_of

SHEET = build([], Paper(0, 0, 12, 7))


def ruled(scale: Scale, shown: bool = True) -> list[str]:
    """Return the text of a ruled board without creases."""
    lines = with_rulers(draw_board(SHEET, Look(), scale), shown)
    return ["".join(span.text for span in line) for line in lines]


def test_every_fifth_square_is_counted_from_the_top_left_corner() -> None:
    """Each number above the column of its crossing, or beside its row."""
    scale = fitted(SHEET, 44, 19)
    above, *rows = ruled(scale)
    for count in (0, 5, 10):
        column = 3 + scale.cell(Point(count, 7)).column
        assert above[column:].split()[0] == str(count)
    assert above.split() == ["0", "5", "10"]
    numbers = {at: row[:3] for at, row in enumerate(rows) if row[:3].strip()}
    assert numbers == {scale.cell(Point(0, 7)).row: " 0 ", scale.cell(Point(0, 2)).row: " 5 "}
    assert {len(row) for row in (above, *rows)} == {scale.columns + 3}


def test_a_part_of_a_sheet_has_the_numbers_of_that_part() -> None:
    """The window at the lower right has neither zero."""
    above, *rows = ruled(scale_around(SHEET, 20, 8, Point(12, 0)))
    assert above.split() == ["10"]
    assert "".join(row[:3] for row in rows).split() == ["5"]


def test_without_numbers_the_board_stands_where_it_stood() -> None:
    """The room is kept, so that nothing moves when the answer is told."""
    scale = fitted(SHEET, 44, 19)
    assert [row[3:] for row in ruled(scale, False)[1:]] == [row[3:] for row in ruled(scale)[1:]]
    assert not any(row[:3].strip() for row in ruled(scale, False))
    assert not ruled(scale, False)[0].strip()


@pytest.mark.parametrize(("code", "counts"), [(READ, True), (PLACE, True), (LABELS, False), (FIND, False)])
def test_rulers_come_after_the_answer_where_they_would_give_it(code: Code, counts: bool) -> None:
    """In steps and places counting is what is asked; everywhere else and after the answer they are there."""
    drill = make(code)
    asked = way_of(drill).input(drill, drill.question).look()
    assert asked.ruled is not counts
    assert verdict_look(drill, drill.judge(drill.question.right_answer(drill)), asked).ruled
