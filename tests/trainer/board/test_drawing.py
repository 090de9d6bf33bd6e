from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point
from drills.pattern import CreasePattern, Line, Paper, build, faces, straight_runs
from tests.trainer.board.sheets import edge_between, fitted, of_role, patterns, stretch, vertex_at
from trainer.board import Board, GlyphName, Look, Marked, Scale, TooSmall, draw_board, points_at, scale_for
from trainer.board.palette import Ink, Mark, Style
from trainer.board.raster import Dot, cell_of, doubled
from trainer.board.scale import scale_around
from trainer.board.static_layer import layer_of
from trainer.board.window import CLOSE_DOTS


def text(board: Board) -> str:
    """Return the characters of a board, row by row."""
    return "\n".join("".join(span.text for span in line) for line in board.lines)


def style_at(board: Board, point: Point) -> Style:
    """Return the style of the cell that holds a grid point."""
    column, row = board.scale.cell(point)
    styles = [span.style for span in board.lines[row] for _ in span.text]
    return styles[column]


def sign_at(board: Board, point: Point) -> str:
    """Return the character of the cell that holds a grid point."""
    column, row = board.scale.cell(point)
    return "".join(span.text for span in board.lines[row])[column]


def edge_styles(board: Board, pattern: CreasePattern, edge: int) -> set[Style]:
    """Return the styles of the cells an edge runs through."""
    sheet = layer_of(pattern, board.scale, False, frozenset())
    flat = [span.style for line in board.lines for span in line for _ in span.text]
    return {flat[cell] for cell in sheet.edges[edge]}


def drawn(pattern: CreasePattern, look: Look, glyphs: GlyphName = "braille") -> Board:
    """Return the board in the room an 80 x 24 terminal leaves."""
    return draw_board(pattern, look, fitted(pattern, 44, 19), glyphs)


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


def test_letters_stand_only_where_labels_are_shown() -> None:
    """Without labels there is no M or V, and no crease in their inks."""
    pattern = stretch()
    shown, unshown = drawn(pattern, Look(labels=True)), drawn(pattern, Look())
    assert {"M", "V"} <= set(text(shown))
    assert not {"M", "V"} & set(text(unshown))
    inks = {span.style.ink for line in unshown.lines for span in line}
    assert inks == {Ink.GRID, Ink.PAPER, Ink.CREASE}


@settings(max_examples=30, deadline=None)
@given(patterns, st.sampled_from((6, 8, 12)))
def test_a_letter_stands_only_where_it_is_plain_whose_it_is(pattern: CreasePattern, dots: int) -> None:
    """On one crease alone, which is seen before and after it; no crease beside it, no other letter near."""
    sheet = layer_of(pattern, scale_around(pattern, 999, 999, Point(0, 0), dots), True, frozenset())
    for cell, letter in sheet.letters.items():
        (owner,) = [edge for edge, cells in enumerate(sheet.edges) if cell in cells]
        assert pattern.edges[owner].label == letter
        cells = list(sheet.edges[owner])
        for own in cells[cells.index(cell) - 1 :][:3]:
            assert [own in other for other in sheet.edges].count(True) == 1
        for side in (cell - 1, cell + 1):
            assert all(side not in cells for edge, cells in enumerate(sheet.edges) if edge != owner)
        assert not {cell - 2, cell - 1, cell + 1, cell + 2} & set(sheet.letters)


@settings(max_examples=30, deadline=None)
@given(patterns)
def test_at_ten_dots_no_crease_lies_all_under_others(pattern: CreasePattern) -> None:
    """Each has a cell of its own; that is how near a board with labels opens where it must."""
    sheet = layer_of(pattern, scale_around(pattern, 999, 999, Point(0, 0), CLOSE_DOTS), True, frozenset())
    crowd = Counter(cell for cells in sheet.edges for cell in cells)
    assert all(any(crowd[cell] == 1 for cell in sheet.edges[edge]) for edge in pattern.creases)


@settings(max_examples=30, deadline=None)
@given(patterns, st.sampled_from((5, 8, 12)), st.booleans(), st.data())
def test_mountain_and_valley_differ_by_their_dots(
    pattern: CreasePattern, dots: int, doubles: bool, data: st.DataObject
) -> None:
    """Without letter and colour: a second row of dots, or gaps; at five dots only long creases have gaps."""
    edge = data.draw(st.sampled_from(pattern.creases))
    scale = scale_around(pattern, 999, 999, Point(0, 0), dots)
    one, other = (
        layer_of(sheet, scale, True, frozenset(), doubles).edges[edge]
        for sheet in (pattern, pattern.switched([edge]))
    )
    if doubles or len(one) > 4:
        assert one != other


def test_a_doubled_line_along_the_grid_stays_in_its_cells() -> None:
    """The second row of dots lies towards the middle of the cell, whichever row the first is in."""
    for at in range(4):
        line = [Dot(x, at) for x in range(7)]
        assert {cell_of(dot) for dot in doubled(line)} == {cell_of(dot) for dot in line}
        upright = [Dot(at, y) for y in range(9)]
        assert {cell_of(dot) for dot in doubled(upright)} == {cell_of(dot) for dot in upright}


def test_hidden_creases_leave_no_trace() -> None:
    """A sheet with its inside lines hidden is the same whatever their labels are."""
    pattern = stretch(2)
    inside = of_role(pattern, "inside")
    look = Look(labels=True, hidden=frozenset(inside))
    assert drawn(pattern, look).lines == drawn(pattern.switched(inside), look).lines
    assert drawn(pattern, look).lines != drawn(pattern, Look(labels=True)).lines


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


def test_a_mark_never_covers_a_letter() -> None:
    """While answering, the label of a marked crease stays readable."""
    pattern = stretch(2)
    plain = text(drawn(pattern, Look(labels=True)))
    marked = text(drawn(pattern, Look(labels=True, marked=Marked(frozenset(pattern.creases)))))
    assert [i for i, sign in enumerate(plain) if sign in "MV"] == [
        i for i, sign in enumerate(marked) if sign in "MV"
    ]


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


@settings(max_examples=40, deadline=None)
@given(patterns, st.sampled_from((5, 8, 12)), st.booleans(), st.data())
def test_a_window_is_the_same_part_of_the_whole_drawing(
    pattern: CreasePattern, dots: int, labels: bool, data: st.DataObject
) -> None:
    """Dot by dot: dashes, the gaps of the paper's edge and the grid do not depend on where the window is."""
    whole = layer_of(pattern, scale_around(pattern, 999, 999, Point(0, 0), dots), labels, frozenset())
    left, bottom, right, top = map(int, pattern.box)
    centre = Point(data.draw(st.integers(left, right)), data.draw(st.integers(bottom, top)))
    part = layer_of(pattern, scale_around(pattern, 20, 9, centre, dots), labels, frozenset())
    assert _rows(part.drawn, part.scale) == _cut(whole.drawn, whole.scale, part.scale)
    assert _rows(part.grid, part.scale) == _cut(whole.grid, whole.scale, part.scale)


def _rows(cells: tuple[int, ...], scale: Scale) -> list[tuple[int, ...]]:
    return [cells[row * scale.columns : (row + 1) * scale.columns] for row in range(scale.rows)]


def _cut(cells: tuple[int, ...], whole: Scale, part: Scale) -> list[tuple[int, ...]]:
    column, row = part.shift.x // 2, part.shift.y // 4
    rows = _rows(cells, whole)[row : row + part.rows]
    return [cells[column : column + part.columns] for cells in rows]


def test_arrows_at_the_rim_say_where_the_sheet_goes_on() -> None:
    """One a side in the grid's ink, none at the paper's edge, none on a whole sheet."""
    pattern = stretch(2)
    corner = draw_board(pattern, Look(), scale_around(pattern, 20, 9, Point(0, 99)))
    middle = draw_board(pattern, Look(), scale_around(pattern, 20, 9, Point(4, 4)))
    assert {sign for sign in text(corner) if sign in "←↑→↓"} == set("→↓")
    assert sorted(sign for sign in text(middle) if sign in "←↑→↓") == sorted("←↑→↓")
    assert not set("←↑→↓") & set(text(drawn(pattern, Look())))
    rows = text(middle).split("\n")
    assert ("←" in {row[0] for row in rows}, "→" in {row[-1] for row in rows}) == (True, True)
    assert ("↑" in rows[0], "↓" in rows[-1]) == (True, True)


def test_a_rim_full_of_creases_has_its_arrow_beside_it() -> None:
    """A crease along the last column leaves no place for it there."""
    lines = [Line(Point(x, 0), Point(x, 40), "pleat", "M") for x in range(1, 40)]
    pattern = build(lines, Paper(0, 0, 40, 40))
    board = draw_board(pattern, Look(), scale_around(pattern, 21, 9, Point(Fraction(31, 2), 20)))
    rows = text(board).split("\n")
    assert all(row[0] == row[-1] == "⡇" for row in rows)
    assert any(row[1] == "←" for row in rows)
    assert any(row[-2] == "→" for row in rows)


def test_signs_outside_the_window_are_cut() -> None:
    """Nothing of a cursor, a mark, a fault or an arrow out of view is drawn at the rim."""
    pattern = stretch(2, 4)
    far = vertex_at(pattern, 0, 0), next(iter(pattern.interior))
    look = Look(
        points=frozenset([Point(0, 0)]),
        cursor_at=Point(0, 0),
        fault_points=frozenset([Point(0, 0)]),
        wrong=Marked(points=frozenset([Point(0, 0)])),
        arrow=(far[1], far[0]),
    )
    scale = scale_around(pattern, 20, 9, Point(*pattern.box[2:]))
    assert draw_board(pattern, look, scale) == draw_board(pattern, Look(), scale)
