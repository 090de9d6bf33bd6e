from __future__ import annotations

from pathlib import Path

import pytest

from drills.questions import Code, read_code
from tests.trainer.screens.answering import click_answer
from tests.trainer.screens.playing import (
    FIND,
    JOIN,
    LABELS,
    MARK,
    NOTHING_WRONG,
    PLACE,
    POINTS,
    READ,
    WAITING,
    playing,
)
from trainer.screens.choice_screens import PickScreen, WarmUpScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.opening import OpeningScreen
from trainer.screens.record import RecordScreen


@pytest.mark.parametrize("code", [READ, PLACE, MARK, POINTS, JOIN, LABELS, NOTHING_WRONG, FIND], ids=str)
async def test_every_manner_of_asking_is_answered_by_mouse_alone(tmp_path: Path, code: Code) -> None:
    """Creases, points and crossings on the board, numbers on the panel, the words that answer and go on."""
    async with playing(tmp_path, code, settings=WAITING) as play:
        await click_answer(play)
        verdict = play.at(DrillScreen).flow.verdict
        assert verdict is not None
        assert verdict.right
        assert [(line["code"], line["right"]) for line in play.log()] == [(str(code), True)]
        await play.click_key("Enter go on")
        assert play.at(DrillScreen).flow.verdict is None
        assert play.drill.code != str(code)


@pytest.mark.parametrize("code", [READ, PLACE, MARK], ids=str)
async def test_what_the_mouse_answered_is_logged_as_such(tmp_path: Path, code: Code) -> None:
    """A person's pace by mouse is not mixed with that by keys, however few clicks a drill takes."""
    async with playing(tmp_path, code, settings=WAITING) as play:
        await click_answer(play)
        assert play.log()[0]["means"] == "mouse"


async def test_a_click_on_the_board_goes_on_after_the_answer(tmp_path: Path) -> None:
    """And marks nothing on the next one."""
    async with playing(tmp_path, LABELS, settings=WAITING) as play:
        await play.keys("0")
        await play.click(play.board, 5, 5)
        screen = play.at(DrillScreen)
        assert screen.flow.verdict is None
        assert screen.flow.drill.code != str(LABELS)
        assert screen.flow.input.look().marked.edges == frozenset()


async def test_signs_beside_a_number_change_it(tmp_path: Path) -> None:
    """[+] and [-], and the board is still the same."""
    async with playing(tmp_path, READ) as play:
        text = play.screen.query_one("#panel-text")
        before = play.drawing()
        await play.click_words(text, "[+]")
        await play.click_words(text, "[+]")
        await play.click_words(text, "[-]")
        assert "1 [+] across" in play.said
        assert play.drawing() == before


async def test_the_menu_is_clicked(tmp_path: Path) -> None:
    """Every line of the opening leads where its letter leads, and every screen has words to leave it."""
    async with playing(tmp_path) as play:
        menu = play.screen.query_one("#menu-text")
        for words, kind in (
            ("n  Pick", PickScreen),
            ("r  Record", RecordScreen),
            ("w  Two", WarmUpScreen),
        ):
            await play.click_words(menu, words)
            play.at(kind)
            await play.click_key("q leave")
            play.at(OpeningScreen)
        await play.click_words(menu, "[+]")
        await play.click_words(menu, "[+]")
        await play.click_words(menu, "[-]")
        assert play.settings_on_disk()["minutes_a_day"] == 6
        await play.click_words(menu, "6 MINUTES")
        play.at(DrillScreen)


async def test_a_drill_is_picked_by_mouse(tmp_path: Path) -> None:
    """A kind, a form and a level are words to click."""
    async with playing(tmp_path) as play:
        await play.click_words(play.screen.query_one("#menu-text"), "n  Pick")
        choices = play.screen.query_one("#choices")
        await play.click_words(choices, " Inside lines ")
        await play.click_words(choices, " turning points ")
        await play.click_words(choices, " 3 ")
        await play.click_key("Enter start")
        code = read_code(play.drill.code)
        assert (code.kind, code.form, code.level) == ("sinks", "points", 3)


async def test_the_end_is_left_by_mouse(tmp_path: Path) -> None:
    """Back to the opening."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("4", "3", "enter", "q")
        play.at(EndScreen)
        await play.click_key("Enter go on")
        play.at(OpeningScreen)
