from __future__ import annotations

import pytest

from drills.geometry import Point
from drills.pattern import CreasePattern, Paper, build
from tests.trainer.board.sheets import of_role, stretch
from trainer.board import Look, Marked, Room, Scale, draw_overview, plan_of
from trainer.board.raster import BLOCKS, BRAILLE, Glyphs
from trainer.board.scale import scale_around
from trainer.board.window import window_on

ROOM = Room(47, 20)


def blank(width: int, height: int) -> CreasePattern:
    """Return a sheet without creases."""
    return build([], Paper(0, 0, width, height))


def shown(pattern: CreasePattern, centre: Point) -> Scale:
    """Return what an 80 x 24 terminal shows around a place."""
    return scale_around(pattern, *ROOM, centre)


def drawing(pattern: CreasePattern, look: Look, scale: Scale, glyphs: Glyphs = BRAILLE) -> list[str]:
    """Return the overview's signs, row by row."""
    return ["".join(text for text, _ in row) for row in draw_overview(pattern, look, scale, glyphs)]


def windowed(pattern: CreasePattern, scale: Scale) -> list[str]:
    """Return the rows with a hash where the window is."""
    rows = draw_overview(pattern, Look(), scale, BRAILLE)
    return ["".join("#."[not shown] * len(text) for text, shown in row) for row in rows]


def test_the_overview_shows_paper_window_and_cursor() -> None:
    """Sixty-four squares in 26 columns: the window at the left, half as high as the sheet."""
    sheet = blank(64, 20)
    assert drawing(sheet, Look(cursor_at=Point(1, 19)), shown(sheet, Point(0, 20))) == [
        "┌──────────────────────────┐",
        "│◆                         │",
        "│                          │",
        "│                          │",
        "│                          │",
        "└──────────────────────────┘",
    ]
    assert windowed(sheet, shown(sheet, Point(0, 20))) == [
        "." * 28,
        ".#####......................",
        ".#####......................",
        *["." * 28] * 3,
    ]


@pytest.mark.parametrize("sides", [(24, 12), (24, 24), (48, 16), (64, 20), (64, 12)])
def test_the_overview_is_small_and_in_proportion(sides: tuple[int, int]) -> None:
    """At most 30 columns and 6 rows with its frame; a character is twice as high as wide."""
    sheet = blank(*sides)
    rows = drawing(sheet, Look(), shown(sheet, Point(0, 0)))
    assert len(rows) <= 6
    assert len({len(row) for row in rows}) == 1
    assert len(rows[0]) <= 30
    wide, high = len(rows[0]) - 2, 2 * (len(rows) - 2)
    assert wide / high == pytest.approx(sides[0] / sides[1], rel=0.35)


@pytest.mark.parametrize("sides", [(12, 24), (20, 64)])
def test_a_narrow_sheet_is_drawn_wider_than_it_is(sides: tuple[int, int]) -> None:
    """In eight columns, so that its window and the cursor have room."""
    sheet = blank(*sides)
    rows = drawing(sheet, Look(), shown(sheet, Point(0, 0)))
    assert (len(rows), len(rows[0])) == (6, 10)


@pytest.mark.parametrize("glyphs", [BRAILLE, BLOCKS])
def test_the_overview_needs_no_braille(glyphs: Glyphs) -> None:
    """Frame and signs are whole characters, in either manner of drawing."""
    sheet = blank(48, 16)
    look = Look(cursor_at=Point(3, 3), points=frozenset([Point(40, 9)]))
    signs = set("".join(drawing(sheet, look, shown(sheet, Point(9, 9)), glyphs)))
    assert signs == {*"┌─┐│└┘ ", glyphs.cursor, glyphs.point}


def test_the_overview_draws_the_creases_that_the_board_shows() -> None:
    """Each of them in its place, in dots or blocks; none that is hidden, and none of a bare grid."""
    pattern = stretch(2, 9)
    left, bottom, right, top = map(int, pattern.box)
    scale = shown(pattern, Point(5, 5))
    empty = drawing(build([], Paper(left, bottom, right, top)), Look(), scale)
    whole = drawing(pattern, Look(), scale)
    assert sum(one != other for one, other in zip("".join(whole), "".join(empty), strict=True)) > 30
    assert drawing(pattern, Look(hidden=frozenset(pattern.creases)), scale) == empty
    assert drawing(pattern, Look(bare=True), scale) == empty
    inside = frozenset(of_role(pattern, "inside"))
    assert drawing(pattern, Look(hidden=inside), scale) != whole
    assert set("".join(drawing(pattern, Look(), scale, BLOCKS))) <= {*"┌─┐│└┘", *BLOCKS.dots}


def test_marks_and_verdict_have_their_signs() -> None:
    """A missed crease out of view is found on the overview; the cursor covers what is under it."""
    pattern = stretch(2, 9)
    inside = of_role(pattern, "inside")
    scale = shown(pattern, Point(0, 0))
    for look, sign in (
        (Look(marked=Marked(frozenset(inside))), "*"),
        (Look(missed=Marked(frozenset(inside))), "!"),
        (Look(wrong=Marked(points=frozenset([Point(20, 20)]))), "×"),  # noqa: RUF001  (the board's sign)
        (Look(right=Marked(points=frozenset([Point(20, 20)]))), "+"),
        (Look(fault_points=frozenset([Point(20, 20)])), "!"),
    ):
        assert sign in "".join(drawing(pattern, look, scale))
    both = Look(marked=Marked(points=frozenset([Point(9, 9)])), cursor_at=Point(9, 9))
    assert "*" not in "".join(drawing(pattern, both, scale))


def test_every_place_has_a_cell_and_every_cell_a_place() -> None:
    """A click on a cell leads to a place that lies in that cell."""
    plan = plan_of((0, 0, 64, 20))
    for column in range(plan.columns):
        for row in range(plan.rows):
            assert plan.cell(plan.point(column, row)) == (column, row)
    corners = [plan.cell(Point(x, y)) for x, y in ((0, 20), (64, 20), (0, 0), (64, 0))]
    assert corners == [(0, 0), (plan.columns - 1, 0), (0, plan.rows - 1), (plan.columns - 1, plan.rows - 1)]


def test_a_window_of_any_zoom_is_seen() -> None:
    """However small it is on the sheet, a cell of the overview is."""
    window = window_on(blank(64, 20), Room(10, 4))
    for _ in range(6):
        window = window.zoomed(closer=True)
        assert "#" in "".join(windowed(window.pattern, window.scale))
