"""One minute by the clock: as many right as one can of one form, and the best of it."""

from __future__ import annotations

from pathlib import Path

from tests.trainer.screens.answering import right_keys, wrong_keys
from tests.trainer.screens.playing import WAITING, Play, playing
from trainer.screens.choice_screens import PickScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.ending import EndScreen
from trainer.screens.missed import MissedScreen


async def a_minute(play: Play, right: int, wrong: int) -> None:
    """Answer so many right and wrong, five seconds each, and let the minute end."""
    for is_right in [True] * right + [False] * wrong:
        assert play.at(DrillScreen).flow.verdict is None
        play.time.seconds += 5
        drill = play.drill
        await play.burst(*(right_keys(drill) if is_right else wrong_keys(drill)))
    play.time.seconds += 60
    await play.until(lambda: isinstance(play.app.screen, EndScreen) and bool(play.said))


async def test_the_clock_ends_it_and_the_best_of_the_form_is_told(tmp_path: Path) -> None:
    """The drill in hand is not kept; what was missed is looked at after it; the form's best is its own."""
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys("1")
        assert "As many right as you can" in play.said
        assert "at best" not in play.said
        await play.keys("enter")
        assert "One minute" in play.said
        await a_minute(play, 3, 1)
        assert "3 right in a minute, of 4 drills." in play.said
        assert "the first minute of this form" in play.said
        log = play.log()
        assert [line["purpose"] for line in log] == ["minute"] * 4
        assert {(line["kind"], line["form"], line["level"]) for line in log} == {("steps", "read", 1)}
        await play.keys("enter")
        assert [each.code for each in play.at(MissedScreen).missed] == [log[-1]["code"]]
        await play.keys("q", "1")
        assert "3 at best until now" in play.said
        await play.keys("enter")
        await a_minute(play, 4, 0)
        assert "More than your best of this form before: 3, on 2 March." in play.said
        assert play.store.state.level("steps") == 1
        await play.keys("enter", "1", "down", "down", "right")
        play.at(PickScreen)
        assert "at best" not in play.said


async def test_a_minute_without_an_answer_leaves_nothing(tmp_path: Path) -> None:
    """Back at the opening, and nothing in the log."""
    async with playing(tmp_path, settings=WAITING) as play:
        await play.keys("1", "enter")
        play.time.seconds += 61
        await play.until(lambda: not isinstance(play.app.screen, DrillScreen))
        assert not (tmp_path / "attempts.jsonl").exists() or not play.log()
