"""From one drill to the next: by itself after a quick right answer, else by a key."""

from __future__ import annotations

from pathlib import Path
from time import monotonic

import pytest

from progress_store import Settings
from tests.trainer.screens.answering import answer
from tests.trainer.screens.playing import READ, SETTLED, WAITING, Play, playing
from trainer.screens.drill import GOES_ON_AFTER, DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.pages import HelpScreen

SOON = 0.6


async def test_a_quick_right_answer_goes_on_by_itself(tmp_path: Path) -> None:
    """After eight tenths of a second, not sooner, with no key pressed."""
    async with playing(tmp_path, known=True) as play:
        await play.keys("enter")
        screen = play.at(DrillScreen)
        first = screen.flow.drill
        start = monotonic()
        await answer(play)
        await play.until(lambda: screen.flow.verdict is None)
        assert monotonic() - start >= GOES_ON_AFTER == 0.8
        assert screen.flow.drill is not first
        assert play.log()[-1]["purpose"] == "today"


async def waits(play: Play) -> bool:
    """Whether the verdict still stands when the shortened wait is well over."""
    screen = play.at(DrillScreen)
    verdict = screen.flow.verdict
    await play.pilot.pause(SOON + 0.2)
    return verdict is not None and screen.flow.verdict is verdict


@pytest.fixture
def _soon(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("trainer.screens.drill.GOES_ON_AFTER", SOON)


@pytest.mark.usefixtures("_soon")
@pytest.mark.parametrize(
    ("settings", "right", "hint"), [(WAITING, True, False), (SETTLED, False, False), (SETTLED, True, True)]
)
async def test_all_else_waits_for_a_key(tmp_path: Path, settings: Settings, right: bool, hint: bool) -> None:
    """A miss, an answer after a hint, and every answer where going on by itself is off."""
    async with playing(tmp_path, settings=settings, known=True) as play:
        await play.keys("enter", *["h"] * hint)
        await answer(play, right)
        assert await waits(play)
        await play.keys("enter")
        assert play.at(DrillScreen).flow.verdict is None


@pytest.mark.usefixtures("_soon")
async def test_a_key_stops_the_going_on(tmp_path: Path) -> None:
    """Whoever copies the drill, or asks for help, reads in peace."""
    async with playing(tmp_path, READ) as play:
        screen = play.at(DrillScreen)
        await play.keys("4", "3", "enter", "x")
        assert await waits(play)
        await play.keys("space")
        assert screen.flow.verdict is None


@pytest.mark.usefixtures("_soon")
async def test_a_click_on_help_stops_the_going_on(tmp_path: Path) -> None:
    """The next drill does not begin, nor its time run, behind the help."""
    async with playing(tmp_path, READ) as play:
        screen = play.at(DrillScreen)
        await play.keys("4", "3", "enter")
        await play.click_key("? help")
        play.at(HelpScreen)
        await play.pilot.pause(SOON + 0.2)
        assert screen.flow.verdict is not None


async def test_leaving_the_verdict_does_not_go_on(tmp_path: Path) -> None:
    """The answered drill is in, whether its verdict was left or read to the end."""
    async with playing(tmp_path, READ) as play:
        await play.keys("4", "3", "enter", "q")
        play.at(EndScreen)
        assert len(play.log()) == 1
