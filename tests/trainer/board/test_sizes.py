"""A board is drawn in any room, however small, in every look that a drill has."""

from __future__ import annotations

import pytest

from drills.questions import KINDS, Code, make
from tests.trainer.screens.playing import FIND, JOIN, LABELS, MARK, PLACE, POINTS, READ
from trainer.answering import verdict_look
from trainer.board import GLYPHS, Room, draw_board, draw_overview
from trainer.board.window import followed, opened
from trainer.ways_of_asking import way_of

LARGE = [pytest.param(Code(kind, 7, 11), marks=pytest.mark.long) for kind in KINDS if kind != "find"]
CODES = [READ, PLACE, MARK, POINTS, JOIN, LABELS, FIND, Code("find", 7, 11), *LARGE]
SIDES = [(columns, rows) for columns in (1, 2, 3, 5, 8, 32, 90) for rows in (1, 2, 3, 6, 20, 36)]


@pytest.mark.parametrize("code", CODES, ids=str)
def test_every_drill_is_drawn_in_every_room(code: Code) -> None:
    """From one cell up, asked and told, whole and from close by, with its overview."""
    drill = make(code)
    asked = way_of(drill).input(drill, drill.question).look()
    told = verdict_look(drill, drill.judge(drill.question.right_answer(drill)), asked)
    for sides in SIDES:
        window = opened(drill.pattern, Room(*sides), asked)
        for seen, look in (
            (window, asked),
            (window.zoomed(closer=True), asked),
            (followed(window, asked, told), told),
        ):
            for glyphs in ("braille", "blocks"):
                board = draw_board(drill.pattern, look, seen.scale, glyphs)
                assert {sum(len(span.text) for span in line) for line in board.lines} == {seen.scale.columns}
                assert (seen.scale.columns, len(board.lines)) <= sides
                assert draw_overview(drill.pattern, look, seen.scale, GLYPHS[glyphs])
