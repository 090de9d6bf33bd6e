from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from textual.containers import VerticalScroll

from drills.questions import Drill, Marks, Outlines
from tests.trainer.screens.answering import right_keys, wrong_keys
from tests.trainer.screens.playing import SETTLED, Play, playing
from trainer.answering import MarkingInput
from trainer.practice.first_minutes import FIRST_MINUTES
from trainer.practice.lesson import Lesson
from trainer.practice.lesson_pages import LESSON
from trainer.screens.base_screen import TopLine
from trainer.screens.contents import ContentsScreen
from trainer.screens.drill import DrillScreen, LessonScreen
from trainer.screens.opening import OpeningScreen
from trainer.screens.pages import LessonEndScreen
from trainer.screens.side import Panel

PAGES = len(LESSON.pages)


def lesson_of(screen: DrillScreen) -> Lesson:
    """Return the lesson that a screen goes through."""
    assert isinstance(screen.source, Lesson)
    return screen.source


def keys_of(screen: DrillScreen) -> list[str]:
    """Return the keys of the right answer, of a half worked drill those that are left."""
    keys, drill = right_keys(screen.flow.drill), screen.flow.drill
    if lesson_of(screen).stage != "half":
        return keys
    if drill.question.ask == "step":
        return keys[keys.index("comma") + 1 :]
    if drill.question.ask == "place":
        return [key for key in keys if key not in ("left", "right")]
    if isinstance(drill.question.answer, Outlines):
        return right_keys(with_answer(drill, Outlines(drill.question.answer.edges[1:])))
    assert isinstance(drill.question.answer, Marks)
    assert isinstance(screen.flow.input, MarkingInput)
    return right_keys(with_answer(drill, Marks(drill.question.answer.items - set(screen.flow.input.marks))))


def with_answer(drill: Drill, answer: object) -> Drill:
    """Return the drill with another answer."""
    return replace(drill, question=replace(drill.question, answer=answer))


def fits(play: Play) -> bool:
    """Whether all that the panel says can be read without scrolling."""
    panel = play.screen.query_one(Panel)
    text = play.screen.query_one("#panel-text")
    return text.virtual_size.height <= panel.size.height and not panel.show_vertical_scrollbar


async def test_keys_lead_through_all_pages(tmp_path: Path) -> None:
    """What is told and asked stays in sight in a small window; nothing is logged; the end leads back."""
    async with playing(tmp_path) as play:
        await play.keys("c")
        for number, page in enumerate(LESSON.pages, 1):
            for part in page.parts:
                screen = play.at(LessonScreen)
                assert f"Lesson | {page.title} {number} of {PAGES}" in play.said
                assert set(part.tells.splitlines()) <= set(play.panel)
                assert fits(play)
                assert play.settings_on_disk()["lesson"] == number
                if part.stage != "worked":
                    await play.burst(*keys_of(screen))
                    assert screen.flow.verdict is not None
                    assert screen.flow.verdict.right
                    assert play.panel[0] == "Right."
                    assert fits(play)
                await play.keys("enter")
        play.at(LessonEndScreen)
        assert play.settings_on_disk()["lesson"] == 0
        await play.keys("enter")
        play.at(OpeningScreen)
        assert play.log() == []


async def test_a_worked_page_says_what_is_true_and_why(tmp_path: Path) -> None:
    """Below what it tells, with the outline lit on the board; Enter hands over."""
    async with playing(tmp_path) as play:
        await play.keys("c")
        screen = play.at(LessonScreen)
        assert screen.flow.verdict is not None
        assert {screen.flow.verdict.truth, screen.flow.verdict.why, LESSON.pages[0].parts[0].tells} <= set(
            play.panel
        )
        assert "+" in play.drawing()
        await play.keys("enter")
        assert screen.flow.verdict is None


async def test_a_wrong_answer_is_told_with_its_reason_and_goes_on(tmp_path: Path) -> None:
    """It waits for a key, as everywhere; a slip is named, but counts for nothing here."""
    async with playing(tmp_path) as play:
        await play.keys("c", "pagedown", "enter")
        screen = play.at(LessonScreen)
        await play.burst(*wrong_keys(screen.flow.drill))
        assert screen.flow.verdict is not None
        assert play.panel[0] == "Missed."
        assert screen.flow.verdict.why in play.panel
        assert fits(play)
        await play.keys("enter")
        assert lesson_of(screen).reached == 3
        await play.keys("pageup", "enter", "2", "1", "enter")
        assert play.panel[0] == "Right numbers, the wrong way round."


@pytest.mark.parametrize("leaving", ["q", "escape"])
async def test_a_lesson_that_is_left_goes_on_at_its_page(tmp_path: Path, leaving: str) -> None:
    """The opening says which, also at the next start; a page is turned to by a key."""
    async with playing(tmp_path) as play:
        assert "c Lesson f" in play.said
        await play.keys("c", "pagedown", "pagedown", "pagedown", leaving)
        play.at(OpeningScreen)
        assert f"c Lesson, page 4 of {PAGES}" in play.said
    async with playing(tmp_path, settings=None) as play:
        assert f"c Lesson, page 4 of {PAGES}" in play.said
        await play.keys("c")
        assert f"Lesson | Placing a step 4 of {PAGES}" in play.said
        assert LESSON.pages[3].parts[0].tells in play.panel


async def test_pages_are_turned_back_and_on(tmp_path: Path) -> None:
    """From the middle of an answer, after one, at either end; what was marked is gone with the page."""
    async with playing(tmp_path, settings=replace(SETTLED, lesson=9)) as play:
        await play.keys("c", "space", "pageup")
        screen = play.at(LessonScreen)
        assert lesson_of(screen).reached == 8
        await play.keys("enter", "pageup")
        assert (lesson_of(screen).reached, lesson_of(screen).stage) == (8, "worked")
        await play.keys(*["pagedown"] * PAGES)
        assert lesson_of(screen).reached == PAGES
        await play.keys(*["pageup"] * (PAGES + 2))
        assert lesson_of(screen).reached == 1
        assert LESSON.pages[0].parts[0].tells in play.panel


async def test_the_mouse_turns_pages_too(tmp_path: Path) -> None:
    """The words above the board can be clicked, and the line of the opening."""
    async with playing(tmp_path) as play:
        await play.click_words(play.screen.query_one("#menu-text"), "Lesson")
        screen = play.at(LessonScreen)
        standing = screen.query_one(TopLine).query_one("#standing")
        await play.click_words(standing, "PgDn")
        assert lesson_of(screen).reached == 2
        await play.click_words(standing, "PgUp")
        assert lesson_of(screen).reached == 1


async def test_every_page_can_be_gone_to_from_the_list(tmp_path: Path) -> None:
    """By arrows and Enter, round and round, or by a click; left without a choice the page stays as it was."""
    async with playing(tmp_path) as play:
        await play.keys("c", "c")
        play.at(ContentsScreen)
        assert all(page.title in play.said for page in LESSON.pages)
        assert f"> 1 {LESSON.pages[0].title} (you are here)" in play.said
        assert not play.screen.query_one(VerticalScroll).show_vertical_scrollbar
        await play.keys("up", "enter")
        assert lesson_of(play.at(LessonScreen)).reached == PAGES
        assert play.settings_on_disk()["lesson"] == PAGES
        for number, page in enumerate(LESSON.pages, 1):
            await play.keys("c")
            await play.click_words(play.page, page.title)
            assert lesson_of(play.at(LessonScreen)).reached == number
            assert set(page.parts[0].tells.splitlines()) <= set(play.panel)
        await play.keys("c", "up", "q")
        assert lesson_of(play.at(LessonScreen)).reached == PAGES
        await play.click_words(play.screen.query_one(TopLine).query_one("#standing"), "c pages")
        play.at(ContentsScreen)


async def test_what_a_page_tells_stays_beside_help_and_reason(tmp_path: Path) -> None:
    """On every page that asks, of the lesson and of the first minutes; all of it in sight."""
    async with playing(tmp_path) as play:
        for opening, plan in (("c", LESSON), ("f", FIRST_MINUTES)):
            await play.keys(opening)
            for part in (part for page in plan.pages for part in page.parts):
                screen = play.at(DrillScreen)
                for key in "wh" if part.stage != "worked" else "":
                    await play.keys(key)
                    assert set(part.tells.splitlines()) <= set(play.panel)
                    assert screen.flow.drill.question.says[0] in play.panel
                    assert fits(play), (part.tells, key)
                if part.stage != "worked":
                    await play.burst(*keys_of(screen))
                await play.keys("enter")
            if opening == "c":
                await play.keys("enter")


async def test_a_copied_page_is_named_for_its_page(tmp_path: Path) -> None:
    """No code makes its drill, so none is given."""
    async with playing(tmp_path, settings=replace(SETTLED, lesson=2)) as play:
        await play.keys("c", "x")
        first = play.app.clipboard.splitlines()[0]
        assert first == f"Lesson, page 2 of {PAGES}: Outline first."
        assert "steps-1" not in play.app.clipboard
