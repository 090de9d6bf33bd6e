from __future__ import annotations

from pathlib import Path

from progress_store import Settings
from tests.trainer.screens.answering import answer, click_answer
from tests.trainer.screens.playing import playing
from trainer.practice.lesson import Lesson
from trainer.practice.placing import kinds_placed, most_drills
from trainer.practice.session import PracticeSession
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.opening import OpeningScreen
from trainer.screens.pages import WelcomeScreen


async def test_keys_alone_lead_from_the_first_start_to_the_opening(tmp_path: Path) -> None:
    """Three pages that are told and not kept, drills that are kept, the end, the opening."""
    async with playing(tmp_path, settings=Settings(go_on_after_right=False)) as play:
        play.at(WelcomeScreen)
        await play.keys("enter")
        told = set()
        for page in range(3):
            lesson = play.at(DrillScreen).source
            assert isinstance(lesson, Lesson)
            assert lesson.tells in play.panel
            told.add(lesson.tells)
            await answer(play, right=page != 1)
            assert "Kept." not in play.said
            await play.keys("enter")
        assert len(told) == 3
        assert play.log() == []
        play.at(WelcomeScreen)
        await play.keys("enter")
        while isinstance(play.screen, DrillScreen):
            await answer(play, right=len(play.log()) != 3)
            await play.keys("enter")
        assert len(play.log()) <= most_drills()
        play.at(EndScreen)
        await play.keys("enter")
        play.at(OpeningScreen)
        assert {line["kind"] for line in play.log()} == set(kinds_placed())
        assert [line["level"] for line in play.log()][:4] == [2, 2, 2, 4]
        assert {line["purpose"] for line in play.log()} == {"placing"}
        assert play.settings_on_disk()["started"] is True


async def test_the_mouse_alone_leads_through_the_first_three_minutes(tmp_path: Path) -> None:
    """Every step of the way to the opening has words to click."""
    async with playing(tmp_path, settings=Settings()) as play:
        await play.click_words(play.page, "Three minutes")
        for _ in range(3):
            await click_answer(play)
            await play.click_key("Enter go on")
        assert play.at(WelcomeScreen).first_minutes_over
        # what the page does not offer any more, the line of keys does not either
        assert "p find my level" not in play.said
        await play.click_key("s skip")
        play.at(OpeningScreen)


async def test_both_can_be_skipped(tmp_path: Path) -> None:
    """The opening comes at once, and is where the next start begins."""
    async with playing(tmp_path, settings=None) as play:
        await play.keys("s")
        play.at(OpeningScreen)
    async with playing(tmp_path, settings=None) as play:
        play.at(OpeningScreen)


async def test_leaving_the_first_start_is_no_start(tmp_path: Path) -> None:
    """It is offered at the next one."""
    async with playing(tmp_path, settings=None) as play:
        await play.keys("q")
        await play.until(lambda: not play.app.is_running)
    async with playing(tmp_path, settings=None) as play:
        play.at(WelcomeScreen)


async def test_leaving_the_first_minutes_leads_back_to_the_first_choice(tmp_path: Path) -> None:
    """It was not gone through, so it is offered again; nothing was kept."""
    async with playing(tmp_path, settings=None) as play:
        await play.keys("enter", "1", "3", "escape")
        assert not play.at(WelcomeScreen).first_minutes_over
        await play.keys("s")
        play.at(OpeningScreen)
        assert play.log() == []


async def test_the_first_minutes_can_be_gone_through_once_more(tmp_path: Path) -> None:
    """From the opening, with the same three pages; going back leads there again."""
    async with playing(tmp_path) as play:
        await play.keys("f")
        lesson = play.at(DrillScreen).source
        assert isinstance(lesson, Lesson)
        await play.keys("q")
        play.at(OpeningScreen)
        await play.keys("enter")
        assert isinstance(play.at(DrillScreen).source, PracticeSession)
