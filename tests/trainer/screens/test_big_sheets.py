from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from drills.questions import Code
from tests.trainer.screens.large import (
    READ,
    ROOMS,
    SHEET,
    SIDE,
    SMALL,
    GivenDrills,
    cursor,
    large,
    overview,
    window,
)
from tests.trainer.screens.playing import WAITING, playing
from trainer.screens.drill import DrillScreen
from trainer.screens.side import SIDE_COLUMNS, Overview, Side


@pytest.mark.parametrize("size", ROOMS)
async def test_a_large_sheet_is_shown_in_part_with_an_overview(tmp_path: Path, size: tuple[int, int]) -> None:
    """The cursor is in view, the sheet is never said to be too large, and the question is all to be read."""
    async with large(tmp_path, size=size) as play:
        scale = window(play).scale
        assert scale.dots >= 5
        assert scale.shows(cursor(play))
        assert "◆" in play.drawing()
        assert ("◆" in "".join(overview(play))) is (size[1] > 20)
        assert overview(play)[-2:] == ["ijkl scroll  + - zoom  z whole", "v back"]
        assert "This sheet needs" not in play.drawing()
        panel = play.screen.query_one("#panel")
        assert panel.size.height >= 6
        assert "Mark every inside line." in panel.render_line(0).text + play.panel[0]
        below = play.screen.query_one(Overview).region
        assert below.bottom <= size[1] - 2
        assert below.y >= panel.region.bottom


async def test_a_sheet_that_fits_has_no_overview(tmp_path: Path) -> None:
    """It is as it was; who zooms in gets one, and loses it by zooming out."""
    async with large(tmp_path, SMALL) as play:
        before = play.drawing()
        assert not overview(play)
        await play.keys("plus")
        assert not window(play).scale.is_whole
        assert overview(play)
        await play.keys("minus")
        assert play.drawing() == before
        assert not overview(play)
        await play.keys("l", "shift+down")
        assert play.drawing() == before


@pytest.mark.parametrize(("keys", "way"), [("ijkl", "plain"), (("up", "left", "down", "right"), "shift")])
async def test_the_window_moves_by_keys(tmp_path: Path, keys: tuple[str, ...], way: str) -> None:
    """Up, left, down and right by as much, by plain keys as by Shift and an arrow; the cursor stays."""
    async with large(tmp_path) as play:
        at, before = cursor(play), window(play).scale.shift
        moved = []
        for key in keys:
            await play.keys(key if way == "plain" else f"shift+{key}")
            shift = window(play).scale.shift
            moved.append((shift.x - before.x, shift.y - before.y))
            before = shift
        columns, rows = window(play).key_step
        assert moved == [(0, -4 * rows), (-2 * columns, 0), (0, 4 * rows), (2 * columns, 0)]
        assert cursor(play) == at


async def test_a_key_brings_the_cursor_back(tmp_path: Path) -> None:
    """After a long way off, and a hint on the way moves nothing."""
    async with large(tmp_path) as play:
        await play.keys(*"llllllkkkk")
        assert not window(play).scale.shows(cursor(play))
        away = window(play).scale
        await play.keys("h", "space")
        assert window(play).scale == away
        await play.keys("v")
        assert window(play).scale.shows(cursor(play))


async def test_the_window_follows_the_cursor(tmp_path: Path) -> None:
    """To every point of the sheet, by arrows and by Tab."""
    async with large(tmp_path) as play:
        for key in ("right",) * 9 + ("down",) * 9 + ("tab",) * 4:
            await play.burst(key)
            assert window(play).scale.shows(cursor(play))
        assert "◆" in play.drawing()


async def test_the_asked_crease_is_in_view_and_comes_back(tmp_path: Path) -> None:
    """A crease to be read has no cursor: its start is what one goes back to."""
    async with large(tmp_path, READ) as play:
        start, end = SHEET.ends(SIDE)
        assert window(play).scale.shows(start)
        assert window(play).scale.shows(end)
        assert "●" in "".join(overview(play))
        await play.keys(*"iiiijjjj")
        assert not window(play).scale.shows(start)
        await play.keys("v")
        assert window(play).scale.shows(start)


async def test_a_verdict_out_of_view_is_shown_and_gone_through(tmp_path: Path) -> None:
    """A missed inside line comes into view; v goes on to the crease that was too many, far away."""
    async with large(tmp_path) as play:
        for _ in range(3):
            await play.burst("shift+tab")
        await play.keys(*["tab"] * 4, "space", *"iiijjj", "enter")
        screen = play.at(DrillScreen)
        assert screen.flow.verdict is not None
        assert not screen.flow.verdict.right
        assert "!" in play.drawing()
        seen = {play.drawing()}
        for _ in range(3):
            await play.keys("v")
            seen.add(play.drawing())
        assert any("×" in drawing for drawing in seen)  # noqa: RUF001  (the board's sign)


async def test_looking_round_counts_as_input(tmp_path: Path) -> None:
    """Who moves the window is there: a minute and more of that is no time away."""
    async with large(tmp_path) as play:
        for _ in range(3):
            play.time.seconds += 40
            await play.keys("l")
        await play.keys("0")
        session = play.at(DrillScreen).source
        assert isinstance(session, GivenDrills)
        assert session.measured is not None
        assert session.measured.milliseconds is not None
        assert session.measured.inputs == 4


async def test_blocks_and_another_window_size_keep_the_place(tmp_path: Path) -> None:
    """The overview changes its cursor's sign with the board; a larger terminal shows more about the place."""
    async with large(tmp_path) as play:
        await play.keys("l", "b")
        assert "■" in "".join(overview(play))
        middle = window(play).middle
        await play.pilot.resize_terminal(100, 30)
        await play.settle()
        assert window(play).middle == middle
        assert window(play).scale.columns > 47


async def test_the_overview_shows_where_something_was_missed(tmp_path: Path) -> None:
    """Where the panel leaves room for it; its frame and the keys below it are no part of the drawing."""
    async with large(tmp_path, size=(80, 40)) as play:
        await play.keys("space", "enter")
        verdict = play.at(DrillScreen).flow.verdict
        assert verdict is not None
        assert verdict.misses
        assert "!" in "".join(overview(play)[1:-3])


@pytest.mark.parametrize("blocks", [False, True])
async def test_a_sheet_to_be_looked_over_is_whole_where_a_narrow_panel_does_it(
    tmp_path: Path, blocks: bool
) -> None:
    """Thirty-six squares across in 80 columns; blocks are too coarse for it and open closer."""
    settings = replace(WAITING, blocks=blocks)
    async with playing(tmp_path, Code("find", 7, 11), settings=settings) as play:
        scale = window(play).scale
        assert scale.is_whole is not blocks
        assert scale.columns > 36 * 3 // 2
        await play.pilot.resize_terminal(120, 40)
        await play.settle()
        assert window(play).scale.columns <= 120 - SIDE_COLUMNS
        assert play.screen.query_one(Side).size.width == SIDE_COLUMNS - 1


async def test_the_overview_leaves_its_room_to_the_question(tmp_path: Path) -> None:
    """It comes once the sheet is drawn; where all that is said does not fit above it then, it goes again."""
    async with playing(tmp_path, Code("labels", 7, 11), settings=WAITING) as play:
        panel = play.screen.query_one("#panel")
        await play.until(lambda: not window(play).scale.is_whole and not panel.max_scroll_y)
        assert len(overview(play)) == 2
