from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.widgets import Input, Static

from drills.questions import KINDS, newest, read_code
from tests.trainer.screens.playing import READ, WAITING, Play, playing, words_of
from trainer.actions import CONTEXTS, Context, actions_at
from trainer.screens.base_screen import BaseScreen
from trainer.screens.choice_screens import PickScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.opening import OpeningScreen
from trainer.screens.pages import HelpScreen
from trainer.screens.record import RecordScreen
from trainer.text.record import record_in_text

WAYS: dict[Context, tuple[str, ...]] = {
    "opening": (),
    "drill": ("n", "enter"),
    "feedback": ("n", "enter", "4", "3", "1", "enter"),
    "end": ("n", "enter", "4", "3", "1", "enter", "q"),
    "record": ("r",),
    "details": ("r", "enter"),
    "pick": ("n",),
    "help": ("f1",),
}
"""The keys that lead from the opening to a context."""


async def test_a_signal_before_a_screen_is_there_ends_the_program_too(tmp_path: Path) -> None:
    """It is taken down once it is put up, and the status says what ended it."""
    async with playing(tmp_path, READ) as play:
        play.app.push_screen(DrillScreen(play.at(DrillScreen).source))
        play.app.end_by(15)
        await play.until(lambda: play.app.return_code == 128 + 15)


async def test_a_drill_is_picked_by_arrows(tmp_path: Path) -> None:
    """Down goes to form and level, right to the next choice, left of the first is the last."""
    async with playing(tmp_path) as play:
        await play.keys("n", "right", "down", "left", "down", "right", "right", "enter")
        code = read_code(play.drill.code)
        assert (code.kind, play.drill.form, code.level) == ("sinks", "join", 3)


@pytest.mark.long
async def test_every_kind_and_form_can_be_picked(tmp_path: Path) -> None:
    """One after the other, by arrows alone, and leaving goes back to the opening."""
    async with playing(tmp_path) as play:
        picked = []
        for kind, entry in enumerate(KINDS.values()):
            for form in range(len(entry.forms)):
                await play.keys("n", *["right"] * kind, "down", *["right"] * form, "enter")
                picked.append((play.drill.kind, play.drill.form))
                await play.keys("q")
                play.at(OpeningScreen)
        assert picked == [(name, form) for name, entry in KINDS.items() for form in entry.forms]


async def test_the_levels_offered_are_those_of_the_kind(tmp_path: Path) -> None:
    """From 1 to 8, of finding from 2; a level that is set stays as another kind is, as far as that has it."""
    async with playing(tmp_path) as play:
        await play.keys("n")
        choices = play.at(PickScreen).query_one("#choices", Static)

        def levels() -> list[str]:
            return re.findall(r"\(?\d\)?", words_of(choices).split("Level")[1].splitlines()[0])

        assert levels() == ["(1)", *"2345678"]
        to_find = list(KINDS).index("find")
        await play.keys(*["right"] * to_find)
        assert levels() == ["(2)", *"345678"]
        await play.keys("down", "down", "left", "up", "up", *["left"] * to_find)
        assert levels() == [*"1234567", "(8)"]
        await play.keys(*["right"] * to_find, "enter")
        code = read_code(play.drill.code)
        assert (code.kind, code.level) == ("find", 8)


async def test_what_is_picked_is_made_in_the_way_of_today(tmp_path: Path) -> None:
    """Inside lines at level 4 have a later way of being made."""
    async with playing(tmp_path) as play:
        await play.keys("n", "right", "down", "down", *["right"] * 3, "enter")
        code = read_code(play.drill.code)
        assert (code.kind, code.level) == ("sinks", 4)
        assert code == newest(code)
        assert code.version > 1


async def test_a_code_is_typed(tmp_path: Path) -> None:
    """Up from the first row is the code; Enter starts it, and fresh ones like it follow."""
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys("n", "up", *"labels-3-41", "enter")
        assert play.drill.code == "labels-3-41"
        await play.keys("0", "enter")
        code = read_code(play.drill.code)
        assert (code.kind, code.level) == ("labels", 3)
        assert code.seed != 41


@pytest.mark.parametrize("code", ["labels", "labels-9-1", "nothing-1-1", "steps-1-3-mark", "[b]-1-1"])
async def test_a_bad_code_is_told_in_one_sentence(tmp_path: Path, code: str) -> None:
    """The screen stays, the code stays to be mended, and it can be."""
    async with playing(tmp_path) as play:
        await play.keys("n", "up")
        play.screen.query_one(Input).value = code
        await play.keys("enter")
        play.at(PickScreen)
        wrong = words_of(play.screen.query_one("#wrong", Static))
        assert wrong.endswith(".")
        assert wrong[0].isupper()
        assert "\n" not in wrong
        play.screen.query_one(Input).value = "steps-1-3"
        await play.keys("enter")
        assert play.drill.code == "steps-1-3"


async def test_letters_that_are_keys_elsewhere_are_typed_into_the_code(tmp_path: Path) -> None:
    """q, t, b and ? belong to the code while it is typed; Escape leaves, arrows go to another row."""
    async with playing(tmp_path) as play:
        await play.keys("n", "up", *"qtb")
        assert play.screen.query_one(Input).value == "qtb"
        await play.keys("up", "q")
        play.at(OpeningScreen)
        await play.keys("n", "up", "q", "escape")
        play.at(OpeningScreen)


async def test_the_record_is_the_text_of_the_command_line(tmp_path: Path) -> None:
    """Line by line, and leaving goes back."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("4", "3", "enter", "q", "enter", "r")
        play.at(RecordScreen)
        await play.keys("enter")
        store = play.store
        lines = record_in_text(store.record(), store.today)
        assert words_of(play.screen.query_one(".page", Static)).startswith("\n".join(lines))
        await play.keys("q", "q")
        play.at(OpeningScreen)


async def test_an_empty_record_is_shown(tmp_path: Path) -> None:
    """Before the first drill it is a record like any other."""
    async with playing(tmp_path) as play:
        await play.keys("r", "enter")
        assert words_of(play.screen.query_one(".page", Static)).strip()


@pytest.mark.parametrize("context", WAYS)
async def test_help_lists_every_key_of_its_place(tmp_path: Path, context: Context) -> None:
    """Those of the context it was asked from before those of all others; a second ? goes back."""
    async with playing(tmp_path, settings=WAITING) as play:
        below = await reached(play, context)
        await play.keys("f1")
        if context == "help":
            play.at(OpeningScreen)
            return
        text = words_of(play.at(HelpScreen).query_one(".page", Static))
        for other in CONTEXTS:
            for action in actions_at(other):
                assert action.words in " ".join(text.split()) or other == "help"
                assert action.shown in text
        titles = [text.index(f"\n{CONTEXTS[at]}\n") for at in CONTEXTS if at != "help"]
        asked_from = "drill" if context == "feedback" else context
        assert text.index(f"\n{CONTEXTS[asked_from]}\n") == min(titles)
        await play.keys("question_mark")
        assert play.screen is below


async def reached(play: Play, context: Context) -> BaseScreen:
    """Go from the opening to a context, and return its screen."""
    await play.keys(*WAYS[context])
    return play.screen


async def test_the_first_start_has_help_too(tmp_path: Path) -> None:
    """Its own keys first."""
    async with playing(tmp_path, settings=None) as play:
        await play.keys("question_mark")
        text = words_of(play.at(HelpScreen).query_one(".page", Static))
        assert text.index(f"\n{CONTEXTS['welcome']}\n") < text.index(f"\n{CONTEXTS['opening']}\n")


async def test_minutes_a_day_are_changed_and_remembered(tmp_path: Path) -> None:
    """Between 1 and 60; the opening says the new number, and the round lasts as long."""
    async with playing(tmp_path) as play:
        await play.keys("plus", "plus", "minus")
        assert play.settings_on_disk()["minutes_a_day"] == 6
        assert "6 minutes a day" in play.said
        await play.keys("enter")
        assert "6:00 left" in play.said
    async with playing(tmp_path, settings=None) as play:
        await play.keys(*["minus"] * 7)
        assert play.settings_on_disk()["minutes_a_day"] == 1
        assert "1 minute a day" in play.said


async def test_going_on_by_itself_is_switched_and_remembered(tmp_path: Path) -> None:
    """Off and on again."""
    async with playing(tmp_path) as play:
        await play.keys("g")
        assert play.settings_on_disk()["go_on_after_right"] is False
        await play.keys("g")
        assert play.settings_on_disk()["go_on_after_right"] is True
