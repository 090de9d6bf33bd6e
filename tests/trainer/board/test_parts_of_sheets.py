"""A board that shows a part of a sheet: the same drawing, cut, with signs where the sheet goes on."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point
from drills.pattern import CreasePattern, Line, Paper, build
from tests.trainer.board.drawn_boards import drawn, text
from tests.trainer.board.sheets import patterns, stretch, vertex_at
from trainer.board import Look, Marked, Scale, draw_board
from trainer.board.scale import scale_around
from trainer.board.static_layer import layer_of


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
