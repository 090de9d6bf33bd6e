from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from textual.containers import VerticalScroll
from textual.widgets import Static

from tests.trainer.month import SCRIPT, practise
from tests.trainer.screens.playing import WAITING, Play, playing, words_of
from trainer.screens.record import GlanceView, RecordInWordsScreen, RecordScreen
from trainer.text.record import record_in_text

WIDE = 74
"""What the page is wide in a window of 80 columns."""


async def test_the_screen_says_what_the_command_line_says(month: Path, tmp_path: Path) -> None:
    """Line by line, with the plots, which are wide as the page at most."""
    async with playing(copied(month, tmp_path)) as play:
        play.time.seconds += 39 * 86400
        await play.keys("r", "enter")
        page = words_of(play.at(RecordInWordsScreen).query_one(".page", Static))
        store = play.store
        assert page.startswith("\n".join(record_in_text(store.record(), store.today)))
        plots = [line for line in page.splitlines() if "|" in line or "#" in line]
        assert plots
        assert max(map(len, plots)) <= WIDE


@pytest.fixture(scope="module")
def month(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a data folder with practice up to the first yardstick, and three days after it."""
    folder = tmp_path_factory.mktemp("month")
    practise(folder, SCRIPT[:9])
    return folder


def copied(month: Path, folder: Path) -> Path:
    """Return a copy of the folder, so that no test writes into another's."""
    shutil.copy(month / "attempts.jsonl", folder)
    return folder


async def test_the_yardstick_comes_first_and_the_rest_is_scrolled_to(month: Path, tmp_path: Path) -> None:
    """By arrows and by whole pages, down to the last line and back."""
    async with playing(copied(month, tmp_path)) as play:
        await play.keys("r", "enter")
        assert "Yardstick:" in shown(play)
        assert "16 drills cannot show a change under about 25 points." in shown(play)
        assert "Days (the last 14):" not in shown(play)
        await play.keys(*["pagedown"] * 12)
        scroll = play.screen.query_one(VerticalScroll)
        await play.until(lambda: scroll.scroll_y == scroll.max_scroll_y)
        assert "Days (the last 14):" in shown(play)
        await play.keys(*["pageup"] * 12)
        await play.until(lambda: scroll.scroll_y == 0)


def shown(play: Play) -> str:
    """Return the signs of the whole window, row by row."""
    return "\n".join("".join(segment.text for segment in strip) for strip in play.strips)


async def test_plots_are_of_signs_that_every_font_has(month: Path, tmp_path: Path) -> None:
    """Nothing but ASCII, so that neither colour nor braille is needed."""
    async with playing(copied(month, tmp_path)) as play:
        await play.keys("r", "enter")
        assert words_of(play.screen.query_one(".page", Static)).isascii()


async def test_four_charts_fill_the_screen_in_dots_and_in_blocks(month: Path, tmp_path: Path) -> None:
    """Every row as wide as the window, with its four titles; blocks need no braille."""
    async with playing(copied(month, tmp_path)) as play:
        play.time.seconds += 39 * 86400
        await play.keys("r")
        charts = play.at(RecordScreen).query_one(GlanceView)
        for is_braille in (True, False):
            rows = [charts.render_line(row) for row in range(charts.size.height)]
            assert {strip.cell_length for strip in rows} == {80}
            text = "\n".join(strip.text for strip in rows)
            assert all(chart.title in text for chart in charts.charts)
            assert any("\u2800" < sign < "\u2900" for sign in text) == is_braille
            await play.keys("b")


async def test_an_empty_record_says_how_each_chart_begins(tmp_path: Path) -> None:
    """Four titles and four sentences, and Enter still leads on."""
    async with playing(tmp_path) as play:
        await play.keys("r")
        assert all(not chart.figures and chart.says for chart in play.screen.query_one(GlanceView).charts)
        await play.keys("enter")
        play.at(RecordInWordsScreen)


async def test_the_experiment_is_off_until_it_is_turned_on(tmp_path: Path) -> None:
    """A key of the record in words turns it on and off, and both are remembered."""
    async with playing(tmp_path, settings=WAITING) as play:
        assert not play.store.settings.experiment
        await play.keys("r", "enter")
        for is_on in (True, False):
            await play.keys("e")
            assert play.settings_on_disk()["experiment"] is is_on
            assert f"Experiment for yourself: {'on' if is_on else 'off'}" in play.said
