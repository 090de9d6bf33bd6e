from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point
from drills.pattern import CreasePattern, faces, straight_runs
from tests.trainer.board.drawn_boards import drawn, edge_styles, sign_at, style_at, text
from tests.trainer.board.sheets import edge_between, of_role, patterns, stretch, vertex_at
from trainer.board import GlyphName, Look, Marked, TooSmall, draw_board, points_at, scale_for
from trainer.board.palette import Ink, Mark, Style
from trainer.board.static_layer import layer_of


@settings(max_examples=40, deadline=None)
@given(patterns, st.booleans(), st.sampled_from(("braille", "blocks")))
def test_every_row_fills_the_board(pattern: CreasePattern, labels: bool, glyphs: GlyphName) -> None:
    """Rows and columns are those of the scale, and neighbouring spans differ in style."""
    scale = scale_for(pattern, 60, 30)
    assert not isinstance(scale, TooSmall)
    board = draw_board(pattern, Look(labels=labels), scale, glyphs)
    assert len(board.lines) == scale.rows
    for line in board.lines:
        assert sum(len(span.text) for span in line) == scale.columns
        assert all(a.style != b.style for a, b in pairwise(line))


def test_moving_the_cursor_changes_only_the_rows_it_leaves_and_enters() -> None:
    """Unchanged rows are equal, so a screen repaints the others only."""
    pattern = stretch()
    before = drawn(pattern, Look(labels=True))
    edge = edge_between(pattern, (1, 4), (2, 4))
    after = drawn(pattern, Look(labels=True, cursor_edge=edge, cursor_at=Point(1, 4)))
    row = before.scale.cell(Point(1, 4)).row
    changed = [i for i, (a, b) in enumerate(zip(before.lines, after.lines, strict=True)) if a != b]
    assert changed == [row]


def test_cursor_moves_take_the_drawn_sheet_from_memory() -> None:
    """Only a new sheet, scale, set of labels or hidden creases is drawn dot by dot."""
    pattern = stretch(2)
    drawn(pattern, Look(labels=True))
    before = layer_of.cache_info().misses
    for edge in pattern.creases:
        drawn(pattern, Look(labels=True, cursor_edge=edge, marked=Marked(frozenset([edge]))))
    assert layer_of.cache_info().misses == before


def test_a_bare_board_has_grid_and_paper_only() -> None:
    """The place question shows no crease; its cursor stands on the bare grid."""
    pattern = stretch()
    board = drawn(pattern, Look(bare=True, cursor_at=Point(2, 2)))
    inks = {span.style.ink for line in board.lines for span in line}
    assert inks == {Ink.GRID, Ink.PAPER, Ink.CURSOR}
    assert style_at(board, Point(2, 2)) == Style(Ink.CURSOR)
    assert all(sign_at(board, point) != " " for point in board.scale.crossings())


def test_marks_come_before_the_cursor_and_both_are_seen() -> None:
    """A marked crease under the cursor wears both."""
    pattern = stretch()
    edge = edge_between(pattern, (1, 1), (5, 4))
    board = drawn(pattern, Look(marked=Marked(frozenset([edge])), cursor_edge=edge))
    styles = edge_styles(board, pattern, edge)
    assert all(style.mark is Mark.MARKED and style.cursor for style in styles)


def test_verdicts_are_told_by_signs() -> None:
    """Each crease right, missed or wrong has its sign on it, in braille and in blocks."""
    pattern = stretch(2)
    right, missed, wrong, *_ = of_role(pattern, "outline")
    look = Look(
        labels=True,
        right=Marked(frozenset([right])),
        missed=Marked(frozenset([missed])),
        wrong=Marked(frozenset([wrong]), frozenset([Point(1, 7)])),
    )
    for glyphs in ("braille", "blocks"):
        signs = {sign for sign in text(drawn(pattern, look, glyphs)) if sign in "+!×?"}  # noqa: RUF001
        assert signs == set("+!×")  # noqa: RUF001


def test_a_line_of_several_creases_has_one_sign_in_its_middle() -> None:
    """Missed or too many; where each crease has a label of its own, each has its sign."""
    pattern = stretch(2)
    runs = [run for run in straight_runs(pattern, "outline") if len(run.edges) > 1]
    for run in runs:
        missed = Marked(frozenset(run.edges))
        for labels, number in ((False, 1), (True, len(run.edges))):
            signs = [sign for sign in text(drawn(pattern, Look(labels=labels, missed=missed))) if sign == "!"]
            assert len(signs) == number
    assert runs


def test_the_lit_crease_has_its_arrow_head_at_the_end() -> None:
    """From S along the shallow side to the right; the other way round the head is at S."""
    pattern = stretch()
    near, far = vertex_at(pattern, 1, 1), vertex_at(pattern, 4, 2)
    edge = edge_between(pattern, (1, 1), (4, 2))
    there = drawn(pattern, Look(lit=frozenset([edge]), arrow=(near, far)))
    back = drawn(pattern, Look(lit=frozenset([edge]), arrow=(far, near)))
    assert (sign_at(there, Point(4, 2)), sign_at(back, Point(1, 1))) == ("►", "◄")
    assert {style.ink for style in edge_styles(there, pattern, edge)} == {Ink.LIT}


def test_points_and_faults_have_their_signs() -> None:
    """A pencil dot on the point itself, an exclamation mark beside a point that does not balance."""
    pattern = stretch()
    turning = points_at(pattern, [vertex_at(pattern, 1, 1)])
    board = drawn(pattern, Look(points=turning, fault_points=frozenset([Point(4, 2)])))
    assert sign_at(board, Point(1, 1)) == "●"
    assert style_at(board, Point(4, 2)).ink is Ink.FAULT
    assert text(board).count("!") == 1
    assert sign_at(board, Point(4, 2)) != "!"


def test_shading_stays_inside_its_face_and_off_the_creases() -> None:
    """No cell of a crease changes, and only cells within the face's box are shaded."""
    pattern = stretch()
    face = next(face for face in faces(pattern) if vertex_at(pattern, 1, 1) in face and len(face) == 3)
    plain, shaded = drawn(pattern, Look()), drawn(pattern, Look(shaded=((face,),)))
    columns = [shaded.scale.cell(pattern.vertices[vertex]).column for vertex in face]
    for before, after in zip(plain.lines, shaded.lines, strict=True):
        old = [span.style for span in before for _ in span.text]
        new = [span.style for span in after for _ in span.text]
        for column, (was, now) in enumerate(zip(old, new, strict=True)):
            assert was == now or (was.ink, now.ink) == (Ink.GRID, Ink.HATCH)
            assert was == now or min(columns) <= column <= max(columns)


@pytest.mark.parametrize("glyphs", ["braille", "blocks"])
def test_two_parts_are_shaded_apart(glyphs: GlyphName) -> None:
    """One hatched, one dotted: the same face has other signs as the first part than as the second."""
    pattern = stretch()
    face = next(face for face in faces(pattern) if vertex_at(pattern, 1, 1) in face and len(face) == 3)
    plain, hatched, dotted = (
        text(drawn(pattern, Look(shaded=parts), glyphs)) for parts in ((), ((face,),), ((), (face,)))
    )
    shaded = [
        (one, other) for one, other, was in zip(hatched, dotted, plain, strict=True) if one != was != other
    ]
    assert len(shaded) > 3
    assert all(one != other for one, other in shaded)


def test_the_staircase_says_its_two_numbers() -> None:
    """From 1,1 to 5,4: 4 across and then 3 up."""
    pattern = stretch()
    way = (Point(1, 1), Point(5, 1), Point(5, 4))
    board = drawn(pattern, Look(staircase=way))
    assert [sign for sign in text(board) if sign.isdigit()] == ["3", "4"]
    assert Ink.REASON in {span.style.ink for line in board.lines for span in line}
