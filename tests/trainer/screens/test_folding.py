"""What a sheet becomes, on the screen: stepped, played, turned over."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tests.trainer.screens.answering import right_keys
from tests.trainer.screens.playing import MARK, WAITING, Play, playing
from trainer.board import SEEN
from trainer.practice.rounds import picked
from trainer.screens.drill import DrillScreen
from trainer.screens.folding import A_FRAME, FoldingScreen

STILL = replace(WAITING, motion=False)


async def fold_after_answer(play: Play) -> None:
    """Answer a drill and ask what its sheet becomes."""
    play.app.practise(picked(play.store, play.time.clock, MARK))
    await play.until(lambda: isinstance(play.app.screen, DrillScreen))
    await play.keys("f")
    assert isinstance(play.app.screen, DrillScreen)
    await play.keys(*right_keys(play.drill), "f")
    await play.until(lambda: isinstance(play.app.screen, FoldingScreen) and f" of {SEEN}" in play.said)


async def test_without_motion_it_is_stepped_by_keys(tmp_path: Path) -> None:
    """It begins with the sheet and stays; Enter goes to the shape and back, o turns it over."""
    async with playing(tmp_path, settings=STILL) as play:
        await fold_after_answer(play)
        assert "The sheet." in play.said
        assert f"0 of {SEEN}" in play.said
        await play.keys("right", "right", "left")
        assert f"1 of {SEEN}" in play.said
        assert "A schematic" in play.said
        await play.keys("enter", "o")
        assert f"{SEEN} of {SEEN}" in play.said
        assert "turned over left to right" in play.said
        await play.keys("q")
        play.at(DrillScreen)


async def test_with_motion_it_plays_to_its_end(tmp_path: Path) -> None:
    """In less than two seconds, by the figures; a key stops it, and m remembers that it is not wanted."""
    assert A_FRAME * SEEN < 2
    async with playing(tmp_path, settings=WAITING) as play:
        await fold_after_answer(play)
        await play.until(lambda: f"{SEEN} of {SEEN}" in play.said)
        assert "as it is seen" in play.said
        await play.keys("m")
        assert "Motion: off" in play.said
        assert play.settings_on_disk()["motion"] is False
