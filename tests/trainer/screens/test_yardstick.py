from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import timedelta
from errno import ENOSPC
from pathlib import Path

import pytest
from textual.widgets import Static

from progress_store import Attempt, replay, yardsticks
from tests.trainer.practice.making import attempt, skills_of_every_form
from tests.trainer.screens.answering import right_keys, wrong_keys
from tests.trainer.screens.playing import MONDAY, WAITING, Play, playing, words_of
from trainer.practice.flow import Asking
from trainer.practice.yardstick import BEGINS, codes_of
from trainer.screens.base_screen import KeyLine
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.missed import MissedScreen
from trainer.screens.opening import OpeningScreen
from trainer.text.record import yardstick_in_text

DAY = MONDAY.date()


@pytest.mark.long
async def test_sixteen_drills_without_a_verdict_and_then_how_each_went(tmp_path: Path) -> None:
    """Three are missed; between them no verdict stands, and only the end says which."""
    practised(tmp_path)
    async with playing(tmp_path, settings=WAITING) as play:
        assert "Yardstick: today" in play.said
        await play.keys("y")
        assert " ".join(BEGINS.split()) in play.said
        for place in range(16):
            screen = play.at(DrillScreen)
            assert screen.flow.verdict is None
            assert f"{place + 1} of 16" in play.said
            play.time.seconds += 3
            await answered(play, right=place not in (2, 3, 8))
        page = words_of(play.at(EndScreen).query_one(".page", Static))
        (last,) = yardsticks(replay(play.store.attempts, play.store.rules)[1])
        for line in yardstick_in_text(last):
            assert line in page
        assert "13 of 16 right, likely 57 to 93 %." in page
        assert {line["purpose"] for line in play.log()[20:]} == {"yardstick"}
        await play.keys("enter")
        shown = [attempt.code for attempt in play.at(MissedScreen).missed]
        assert shown == [str(codes_of(1)[place]) for place in (8, 3, 2)]
        await play.keys("q")
        assert "Yardstick: in 14 days" in play.said


def practised(folder: Path, attempts: Iterable[Attempt] = ()) -> None:
    """Write a log of twenty drills of all forms, ten days ago, and some more."""
    skills = skills_of_every_form()
    log = [attempt(skills[number % 7], DAY - timedelta(days=10), number) for number in range(20)]
    lines = [json.dumps(each.to_json()) + "\n" for each in (*log, *attempts)]
    (folder / "attempts.jsonl").write_text("".join(lines))


async def answered(play: Play, right: bool = True) -> None:
    """Answer the drill in hand and see that the next one stands there, or the end."""
    before = play.drill
    await play.burst(*(right_keys(before) if right else wrong_keys(before)))
    await play.until(lambda: not isinstance(play.app.screen, DrillScreen) or play.drill is not before)


async def test_there_is_no_help_in_a_yardstick(tmp_path: Path) -> None:
    """The key h does nothing and is not offered; why it is met can be asked."""
    practised(tmp_path)
    async with playing(tmp_path, notes=True) as play:
        await play.keys("y")
        before = play.panel
        await play.keys("h")
        assert (play.panel, play.at(DrillScreen).flow.state) == (before, Asking())
        line = play.screen.query_one(KeyLine)
        assert "hint" not in line.render_line(0).text
        await play.keys("w")
        assert "yardstick" in " ".join(play.panel)
    async with playing(tmp_path) as play:
        await play.keys("n", "enter")
        assert "hint" in play.screen.query_one(KeyLine).render_line(0).text


async def test_a_yardstick_that_is_left_is_gone_on_with(tmp_path: Path) -> None:
    """No result is shown; the opening offers the rest, which begins where it was left."""
    practised(tmp_path)
    async with playing(tmp_path, notes=True) as play:
        await play.keys("y")
        for _ in range(4):
            await answered(play)
        await play.keys("q")
        play.at(OpeningScreen)
        assert "until 04:00" in play.noted
        assert "Yardstick: go on, 12 drills left" in play.said
        await play.keys("y")
        assert "5 of 16" in play.said
        assert play.drill.spec.code == codes_of(1)[4]


async def test_before_its_time_y_says_when(tmp_path: Path) -> None:
    """In one sentence, and the opening stays."""
    async with playing(tmp_path, notes=True) as play:
        await play.keys("y")
        play.at(OpeningScreen)
        assert "The first yardstick comes the day after your first drills" in play.noted
        assert "Yardstick: later" in play.said


async def test_an_answer_that_cannot_be_kept_is_told_at_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Though no verdict is; it is written with the next one."""
    practised(tmp_path)
    full = [True]

    def syncing(handle: int) -> None:
        if full:
            raise OSError(ENOSPC, "The disk is full")

    monkeypatch.setattr("progress_store.log.sync", syncing)
    async with playing(tmp_path, notes=True) as play:
        await play.keys("y")
        await answered(play)
        assert "The disk is full" in play.noted
        full.clear()
        await answered(play)
        assert [line["code"] for line in play.log()[20:]] == [str(code) for code in codes_of(1)[:2]]


async def test_the_mouse_begins_it_too(tmp_path: Path) -> None:
    """By a click on the words of the opening."""
    practised(tmp_path)
    async with playing(tmp_path) as play:
        await play.click_words(play.screen.query_one("#menu-text"), "Yardstick")
        assert play.drill.spec.code == codes_of(1)[0]
