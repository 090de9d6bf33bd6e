from __future__ import annotations

from pathlib import Path

from textual.events import (
    MouseDown,
    MouseMove,
    MouseScrollDown,
    MouseScrollLeft,
    MouseScrollRight,
    MouseScrollUp,
    MouseUp,
)

from drills.geometry import Step
from drills.questions import Code, Drill
from tests.trainer.screens.large import MARK, SMALL, cursor, drag, large, marks, mouse, overview, window
from tests.trainer.screens.playing import SETTLED, playing
from trainer.board import Scale, creases_near
from trainer.practice.flow import Told
from trainer.screens.drill import DrillScreen
from trainer.screens.side import Overview


async def test_a_drag_moves_the_sheet_and_marks_nothing(tmp_path: Path) -> None:
    """What is under the pointer stays under it."""
    async with large(tmp_path) as play:
        before = window(play).scale
        await drag(play, (20, 10), (12, 7))
        after = window(play).scale
        assert (after.shift.x - before.shift.x, after.shift.y - before.shift.y) == (16, 12)
        assert marks(play) == frozenset()
        await mouse(play, MouseMove, 30, 3)
        assert window(play).scale == after


async def test_a_click_points_at_what_is_under_it(tmp_path: Path) -> None:
    """In a moved window too, with a trembling hand too; the window stays where it was looked at."""
    async with large(tmp_path) as play:
        await play.keys("l", "k")
        before = window(play).scale
        column, row, edge = lone_crease(MARK, before)
        left, top = play.board.corner(before)
        await mouse(play, MouseDown, left + column, top + row)
        await mouse(play, MouseMove, left + column + 1, top + row)
        await mouse(play, MouseUp, left + column + 1, top + row)
        assert marks(play) == {edge}
        assert window(play).scale == before


def lone_crease(drill: Drill, scale: Scale) -> tuple[int, int, int]:
    """Return a cell near the rim with one crease near it, and that crease."""
    for column in range(scale.columns - 2, 0, -1):
        for row in range(scale.rows):
            if len(near := creases_near(drill.pattern, scale, column + 0.5, row + 0.5)) == 1:
                return column, row, near[0]
    raise AssertionError("no crease stands alone")


async def test_the_wheel_moves_and_zooms(tmp_path: Path) -> None:
    """Up and down; to the sides with Shift or a wheel of its own; with Ctrl it zooms round the pointer."""
    async with large(tmp_path) as play:
        start = window(play).scale
        columns, rows = window(play).cells_a_square
        for kind, shift, way in (
            (MouseScrollUp, False, (0, -1)),
            (MouseScrollDown, False, (0, 0)),
            (MouseScrollUp, True, (-1, 0)),
            (MouseScrollDown, True, (0, 0)),
            (MouseScrollLeft, False, (-1, 0)),
            (MouseScrollRight, False, (0, 0)),
        ):
            await mouse(play, kind, 20, 9, shift=shift)
            now = window(play).scale.shift
            assert (now.x - start.shift.x, now.y - start.shift.y) == (
                2 * columns * way[0],
                4 * rows * way[1],
            )
        place = start.crossing_near(20, 9)
        at, corner = start.cell(place), play.board.corner(start)
        pointer = at.column + corner.x, at.row + corner.y
        await mouse(play, MouseScrollUp, *pointer, ctrl=True)
        assert window(play).scale.dots == 10
        assert window(play).scale.cell(place) == at
        await mouse(play, MouseScrollDown, *pointer, ctrl=True)
        assert window(play).scale.dots == 8


async def test_a_click_on_the_overview_goes_there(tmp_path: Path) -> None:
    """To a corner of the sheet; its frame and its words lead nowhere."""
    async with large(tmp_path) as play:
        shown = play.screen.query_one(Overview)
        await play.click(shown, 1, 1)
        assert window(play).scale.goes_on[:2] == (False, False)
        there = window(play).scale
        await play.click(shown, 0, 0)
        await play.click(shown, 2, shown.size.height - 2)
        assert window(play).scale == there
        await play.click_words(shown, "v back")
        assert window(play).scale.shows(cursor(play))


async def test_after_the_answer_a_drag_looks_round_and_a_click_goes_on(tmp_path: Path) -> None:
    """The next sheet starts anew."""
    async with large(tmp_path, MARK, SMALL) as play:
        await play.keys("plus", "0")
        verdict = play.at(DrillScreen).flow.verdict
        assert verdict is not None
        await drag(play, (20, 10), (30, 12))
        await play.keys("l", "minus")
        assert play.at(DrillScreen).flow.verdict is verdict
        await play.click(play.board, 20, 10)
        assert play.at(DrillScreen).flow.verdict is None
        assert window(play).scale.is_whole
        assert not overview(play)


async def test_looking_round_stops_going_on_by_itself(tmp_path: Path) -> None:
    """The wheel does, as any key does; the drill after a quick right answer then waits."""
    async with playing(tmp_path, Code("steps", 1, 3), settings=SETTLED) as play:
        screen, code = play.at(DrillScreen), play.drill.code
        step = play.drill.question.answer
        assert isinstance(step, Step)
        await play.keys(*(str(abs(number)) for number in step[:2]), "enter")
        assert isinstance(screen.flow.state, Told)
        assert screen.flow.state.goes_on
        await mouse(play, MouseScrollDown, 5, 5)
        assert not screen.flow.state.goes_on
        assert play.drill.code == code
