from __future__ import annotations

from errno import ENOSPC
from pathlib import Path

import pytest

from progress_store import Settings
from tests.trainer.screens.answering import answer
from tests.trainer.screens.playing import READ, WAITING, playing
from trainer.practice.placing import kinds_placed
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.opening import OpeningScreen

FULL = "The disk is full"


ALL_RIGHT = 3
"""Drills of a kind until it is sure."""


@pytest.fixture
def _fails_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the first answer not be written, and every one after it."""
    refused = list[int]()

    def syncing(handle: int) -> None:
        if not refused:
            refused.append(handle)
            raise OSError(ENOSPC, FULL)

    monkeypatch.setattr("progress_store.log.sync", syncing)


@pytest.mark.usefixtures("_fails_once")
async def test_an_answer_that_cannot_be_written_is_written_with_the_next(tmp_path: Path) -> None:
    """The sentence stands where "Kept." would; nothing crashes, and both are in the log then, in order."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("4", "3", "enter")
        assert any(FULL in line for line in play.panel)
        assert "Kept." not in play.said
        assert play.log() == []
        await play.keys("enter")
        await answer(play)
        assert "Kept." in play.said
        first, second = play.log()
        assert first["code"] == str(READ)
        assert first["at"] < second["at"]
        assert second["code"] == play.drill.code


@pytest.mark.usefixtures("_fails_once")
async def test_an_unwritten_answer_is_written_when_the_round_is_left(tmp_path: Path) -> None:
    """Nothing that was answered is lost, also where no other answer follows."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("4", "3", "enter", "q")
        play.at(EndScreen)
        assert [line["code"] for line in play.log()] == [str(READ)]


@pytest.mark.usefixtures("_fails_once")
async def test_an_unwritten_answer_counts_in_its_round(tmp_path: Path) -> None:
    """The same drill is not asked once more with its answer just told, and placing goes no further."""
    async with playing(tmp_path, READ, settings=WAITING) as play:
        await play.keys("4", "3", "enter", "enter")
        assert play.drill.code != str(READ)


@pytest.mark.usefixtures("_fails_once")
async def test_placing_goes_no_further(tmp_path: Path) -> None:
    """Whether or not each could be written at once."""
    async with playing(tmp_path, settings=Settings(go_on_after_right=False)) as play:
        await play.keys("p")
        while isinstance(play.screen, DrillScreen):
            await answer(play)
            await play.keys("enter")
        play.at(EndScreen)
        assert len(play.log()) == ALL_RIGHT * len(kinds_placed())


async def test_settings_that_cannot_be_written_hold_for_this_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sentence is shown; the theme has changed all the same."""

    def full(path: Path, content: bytes) -> None:
        raise OSError(28, "No space left on device")

    async with playing(tmp_path, notes=True) as play:
        monkeypatch.setattr("progress_store.files.replace_file", full)
        await play.keys("t", "b")
        assert play.app.theme == "light"
        assert play.app.glyphs == "blocks"
        assert "No space left on device" in play.noted
        assert play.settings_on_disk()["theme"] is None


async def test_what_the_store_tells_is_shown_as_it_is(tmp_path: Path) -> None:
    """A damaged file is told of on the opening; square brackets in a folder's name stay brackets."""
    folder = tmp_path / "[red]mine[@click=app.quit]"
    folder.mkdir()
    (folder / "settings.json").write_text("{")
    async with playing(folder, settings=None) as play:
        await play.keys("s")
        play.at(OpeningScreen)
        assert "settings" in play.told
        assert play.told == "\n".join(play.store.notices)
        assert all(notice in play.told for notice in play.store.notices)


async def test_a_state_that_cannot_be_saved_is_told_at_the_opening(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The answer is kept: the log has it, and the state is made from the log."""

    def full(path: Path, content: bytes) -> None:
        raise OSError(28, "No space left on device")

    async with playing(tmp_path, READ, settings=WAITING) as play:
        monkeypatch.setattr("progress_store.files.replace_file", full)
        await play.keys("4", "3", "enter")
        assert "Kept." in play.said
        assert play.at(DrillScreen).flow.verdict is not None
        await play.keys("q", "enter")
        play.at(OpeningScreen)
        assert "The log has every attempt." in play.told
