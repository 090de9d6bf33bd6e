"""What was missed: looked at as it was, and gone from the list once two of its like were right."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from tests.trainer.practice.making import attempt
from tests.trainer.screens.answering import right_keys, wrong_keys
from tests.trainer.screens.playing import MONDAY, WAITING, Play, playing
from trainer.practice.flow import Asking, Told
from trainer.screens.drill import DrillScreen
from trainer.screens.missed import MissedScreen
from trainer.screens.opening import OpeningScreen


async def answer(play: Play, right: bool) -> None:
    """Answer the drill in hand."""
    drill = play.drill
    await play.keys(*(right_keys(drill) if right else wrong_keys(drill)))


async def test_one_is_seen_as_it_was_and_leaves_after_two_right_ones(tmp_path: Path) -> None:
    """Board, own answer and truth first; then a fresh one, twice; what is looked at is not kept."""
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys("n", "enter")
        missed = play.drill
        await answer(play, right=False)
        told = play.at(DrillScreen).flow.state
        assert isinstance(told, Told)
        await play.keys("q", "q", "m")
        for left in (1, 0):
            assert [each.code for each in play.at(MissedScreen).missed] == [missed.code]
            await play.keys("enter")
            again = play.at(DrillScreen).flow.state
            assert isinstance(again, Told)
            assert (again.given, again.verdict) == (told.given, told.verdict)
            assert "Kept" not in play.said
            number = len(play.log())
            await play.keys("enter")
            assert isinstance(play.at(DrillScreen).flow.state, Asking)
            assert play.drill.code != missed.code
            assert (play.drill.skill, play.drill.level) == (missed.skill, missed.level)
            await answer(play, right=True)
            assert play.log()[number:][0]["purpose"] == "picked"
            await play.keys("enter")
            assert len(play.at(MissedScreen).missed) == left
            assert len(play.log()) == number + 1
        await play.keys("enter", "q")
        play.at(OpeningScreen)


async def test_the_list_goes_over_days_and_what_cannot_be_shown_is_left_out(tmp_path: Path) -> None:
    """An answer that the log has not, or that fits no drill, is told by its counts."""
    day = MONDAY.date() - timedelta(days=3)
    one = attempt("labels one", day, 0, code="labels-2-1", level=2, right=False, misses=1, false_alarms=2)
    log = [
        one,
        replace(one, id="odd", at=one.at + timedelta(days=1), given="{99999}"),
        replace(one, id="own", at=one.at + timedelta(days=1, hours=1), code="labels-own-abc-1"),
        replace(one, id="later", at=one.at + timedelta(days=1, hours=2), skill="of a later version"),
    ]
    (tmp_path / "attempts.jsonl").write_text("".join(json.dumps(each.to_json()) + "\n" for each in log))
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys("m")
        assert [each.id for each in play.at(MissedScreen).missed] == ["odd", one.id]
        assert "Mountain or valley, level 2: 1 missed, 2 too many" in play.said
        for key in ("enter", "down"):
            await play.keys(key)
            if key == "down":
                await play.keys("enter")
            assert "not in the log, only this: 1 missed, 2 too many." in " ".join(play.panel)
            await play.keys("q")
        play.at(MissedScreen)


async def test_an_empty_list_says_what_comes_there(tmp_path: Path) -> None:
    """And no key does anything but leave."""
    async with playing(tmp_path) as play:
        await play.keys("m", "enter", "down", "pagedown")
        assert "Nothing is open" in play.said
        await play.keys("q")
        play.at(OpeningScreen)
