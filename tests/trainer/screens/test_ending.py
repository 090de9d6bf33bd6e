"""The end of a round, and what was missed in it, looked at once more."""

from __future__ import annotations

from pathlib import Path

from textual.widgets import Static

from drills.questions import Code, read_code, skill_of
from progress_store import Settings
from tests.trainer.screens.answering import answer
from tests.trainer.screens.playing import playing, words_of
from trainer.practice.flow import Told
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import BACK, EndScreen
from trainer.screens.opening import OpeningScreen

WAITING = Settings(go_on_after_right=False)


async def test_each_miss_is_looked_at_and_another_like_it_asked(tmp_path: Path) -> None:
    """Enter shows board, own answer and truth, a asks a fresh one; the list ends with the way back."""
    async with playing(tmp_path, Code("steps", 1, 7), settings=WAITING) as play:
        missed = play.drill
        await answer(play, right=False)
        told = play.at(DrillScreen).flow.state
        assert isinstance(told, Told)
        await play.keys("q")
        page = words_of(play.at(EndScreen).query_one(".page", Static))
        assert "0 of 1 right." in page
        assert f"  {BACK}" in page
        await play.keys("enter")
        again = play.at(DrillScreen).flow.state
        assert isinstance(again, Told)
        assert (play.drill.code, again.given) == (missed.code, told.given)
        await play.keys("q", "a")
        assert play.drill.code != missed.code
        assert skill_of(read_code(play.drill.code)) == missed.skill
        await answer(play)
        await play.keys("enter")
        assert len(play.log()) == 2
        assert play.at(EndScreen).missed[0].code == missed.code
        await play.keys("down", "enter")
        play.at(OpeningScreen)
