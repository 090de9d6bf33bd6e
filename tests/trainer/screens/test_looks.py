from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.screens.answering import answer
from tests.trainer.screens.playing import LABELS, MARK, READ, SETTLED, WAITING, Play, playing
from trainer.board import COLOURLESS, DARK, LIGHT
from trainer.screens.base_screen import LEAST_COLUMNS, LEAST_ROWS
from trainer.screens.drill import DrillScreen
from trainer.screens.opening import OpeningScreen

BRAILLE = {chr(sign) for sign in range(0x2801, 0x2900)}
MARKUP = ("[@click", "[/", "[bold", "@click")


async def test_the_theme_is_switched_and_remembered(tmp_path: Path) -> None:
    """On every board, also that of the screen below, and at the next start."""
    async with playing(tmp_path) as play:
        assert play.board.palette is DARK
        await play.keys("n", "enter", "t")
        assert play.board.palette is LIGHT
        assert play.settings_on_disk()["theme"] == "light"
        await play.keys("q")
        assert play.at(OpeningScreen)
        assert play.board.palette is LIGHT
    async with playing(tmp_path, settings=None) as play:
        assert play.app.theme == "light"
        assert play.board.palette is LIGHT
        await play.keys("t")
        assert play.settings_on_disk()["theme"] == "dark"


async def test_dots_are_switched_and_remembered(tmp_path: Path) -> None:
    """Blocks have no braille in them, and come back at the next start."""
    async with playing(tmp_path) as play:
        assert BRAILLE & set(play.drawing())
        await play.keys("b")
        assert not BRAILLE & set(play.drawing())
        assert play.settings_on_disk()["blocks"] is True
    async with playing(tmp_path, READ, settings=None) as play:
        assert not BRAILLE & set(play.drawing())
        await play.keys("b")
        assert BRAILLE & set(play.drawing())


async def test_a_linux_console_gets_blocks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its font has no braille; who chooses dots all the same gets them."""
    monkeypatch.setenv("TERM", "linux")
    async with playing(tmp_path) as play:
        assert not BRAILLE & set(play.drawing())
        await play.keys("b")
        assert BRAILLE & set(play.drawing())
        assert play.settings_on_disk()["blocks"] is False


async def test_no_color_draws_without_colour(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In either theme, on every board."""
    monkeypatch.setenv("NO_COLOR", "1")
    async with playing(tmp_path, settings=WAITING) as play:
        assert play.board.palette is COLOURLESS
        await play.keys("t", "n", "enter")
        assert play.board.palette is COLOURLESS
        await answer(play, right=False)
        assert play.board.palette is COLOURLESS


SMALL = [(71, 24), (80, 19), (20, 5)]


@pytest.mark.parametrize(
    "keys",
    [
        (),
        ("n", "enter", "9", "9", "enter"),
        *(pytest.param((key,), marks=pytest.mark.long) for key in ("n", "r", "f1", "enter")),
    ],
)
async def test_a_small_window_is_told_and_comes_back(tmp_path: Path, keys: tuple[str, ...]) -> None:
    """At any moment: one line says what is needed and what there is, and nothing else is drawn."""
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys(*keys)
        before = shown(play)
        for columns, rows in SMALL:
            await resized(play, columns, rows)
            assert str(columns) in play.too_small
            assert str(rows) in play.too_small
            assert f"{LEAST_COLUMNS} columns and {LEAST_ROWS} rows" in play.too_small
            assert " ".join(shown(play).split()) == play.too_small
        await resized(play, 80, 24)
        assert play.too_small == ""
        assert shown(play) == before


async def test_the_smallest_window_shows_a_drill(tmp_path: Path) -> None:
    """At 72 by 20 and at 200 by 60 the board is drawn as large as it fits."""
    async with playing(tmp_path, LABELS) as play:
        dots = []
        for columns, rows in ((LEAST_COLUMNS, LEAST_ROWS), (80, 24), (200, 60)):
            await resized(play, columns, rows)
            assert play.too_small == ""
            assert BRAILLE & set(play.drawing())
            dots.append(play.scale.dots)
        assert dots == sorted(dots)
        assert dots[0] < dots[-1]


async def test_a_drill_goes_on_after_a_small_window(tmp_path: Path) -> None:
    """Marks made before are still there; help asked for in the small window is the help in the large one."""
    async with playing(tmp_path, MARK) as play:
        await play.keys("space")
        screen = play.at(DrillScreen)
        marks = screen.flow.input.look().marked
        await resized(play, 40, 10)
        await play.keys("f1")
        await resized(play, 100, 30)
        assert play.too_small == ""
        await play.keys("escape")
        assert play.at(DrillScreen) is screen
        await play.until(lambda: play.too_small == "")
        assert screen.flow.input.look().marked == marks
        await play.keys("u")
        await answer(play)


async def test_a_hint_is_in_sight(tmp_path: Path) -> None:
    """Also on the page of the first three minutes that tells most."""
    async with playing(tmp_path) as play:
        await play.keys("f", "h")
        assert play.drill.question.hint(play.drill).split()[-1] in shown(play)


def shown(play: Play) -> str:
    """Return the signs of the whole window, row by row."""
    return "\n".join("".join(segment.text for segment in strip) for strip in play.strips)


async def resized(play: Play, columns: int, rows: int) -> None:
    """Give the window another size, and wait until it is drawn."""
    await play.pilot.resize_terminal(columns, rows)
    await play.until(lambda: tuple(play.screen.size) == (columns, rows))
    await play.settle()


@pytest.mark.parametrize(
    "keys",
    [(), ("n",), ("r",), ("f1",), ("n", "enter"), ("n", "enter", "9", "8", "enter", "x"), ("f",), ("w", "h")],
    ids="".join,
)
async def test_no_markup_is_left_on_the_screen(tmp_path: Path, keys: tuple[str, ...]) -> None:
    """Words that can be clicked show their words alone, in the exported picture as in the window."""
    async with playing(tmp_path, settings=SETTLED, notes=True) as play:
        await play.keys(*keys)
        picture = play.app.export_screenshot()
        assert "Slantwise" in picture
        assert not any(markup in picture for markup in MARKUP)
        assert not any(markup in shown(play) for markup in MARKUP)
