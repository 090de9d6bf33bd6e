from __future__ import annotations

from pathlib import Path

from drills.questions import Code
from tests.trainer.screens.playing import playing
from trainer.screens.drill import DrillScreen
from trainer.screens.opening import OpeningScreen

LABELS = Code("labels", 3, 41)


async def test_letters_are_typed_and_taken_away(tmp_path: Path) -> None:
    """While they stand, a letter marks and does nothing else; Escape takes a step back each time."""
    async with playing(tmp_path, LABELS) as play:
        await play.keys("a")
        assert "Type the digit at your crease" in play.said
        assert "1M" in play.drawing() or "M1" in play.drawing()
        await play.keys("1", "h")
        assert play.at(DrillScreen).flow.input.says()[-1] == "Marked: 1"
        assert "H" in play.drawing()
        await play.keys("escape", "escape")
        assert "letter" not in " ".join(play.panel)
        await play.keys("h", "escape")
        assert isinstance(play.screen, OpeningScreen)


async def test_letters_stand_for_what_another_window_shows(tmp_path: Path) -> None:
    """Zoomed closer, only what is in view has letters, and those are drawn."""
    async with playing(tmp_path, LABELS) as play:
        await play.keys("a")
        before = len(play.at(DrillScreen).flow.look.letters)
        await play.keys("plus", "plus", "plus")
        after = play.at(DrillScreen).flow.look.letters
        assert 0 < len(after) < before


async def test_the_words_of_the_line_put_letters_there_too(tmp_path: Path) -> None:
    """And take them away."""
    async with playing(tmp_path, LABELS) as play:
        await play.click_key("a letters")
        assert play.at(DrillScreen).flow.input.letters_on
        await play.click_key("a letters")
        assert not play.at(DrillScreen).flow.input.letters_on


async def test_a_page_key_goes_far(tmp_path: Path) -> None:
    """Five squares at once, and never off the paper."""
    async with playing(tmp_path, Code("steps", 4, 5, form="place")) as play:
        flow = play.at(DrillScreen).flow
        left, bottom, right, top = play.drill.pattern.box
        await play.keys("home", "home", "home", "pageup", "pageup", "pageup")
        assert flow.look.cursor_at == (left, top)
        await play.keys("end", "pagedown")
        assert flow.look.cursor_at == (min(left + 5, right), max(top - 5, bottom))
