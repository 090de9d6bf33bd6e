"""A class set in the program: its order, its results, and a folder that cannot be written."""

from __future__ import annotations

import json
from pathlib import Path

from drills.questions import read_code
from tests.trainer.screens.answering import right_keys, wrong_keys
from tests.trainer.screens.playing import WAITING, playing
from trainer.practice.class_round import ClassTask, results_beside
from trainer.screens.ending import EndScreen

CODES = tuple(map(read_code, ("labels-2-1", "steps-1-3")))


async def test_it_is_asked_in_its_order_and_the_results_are_written(tmp_path: Path) -> None:
    """One right, one wrong; they are in the person's own log too."""
    results = tmp_path / "monday-results.json"
    async with playing(tmp_path / "data", ClassTask(CODES, results, "Ada"), settings=WAITING) as play:
        assert play.drill.code == "labels-2-1"
        assert "1 of 2" in play.said
        await play.keys(*right_keys(play.drill))
        assert [each["right"] for each in json.loads(results.read_text())["drills"]] == [True]
        await play.keys("enter")
        await play.until(lambda: play.drill.code == "steps-1-3")
        await play.keys(*wrong_keys(play.drill), "enter")
        await play.until(lambda: isinstance(play.app.screen, EndScreen))
        assert [line["code"] for line in play.log()] == ["labels-2-1", "steps-1-3"]
    held = json.loads(results.read_text())
    assert (held["slantwise:results"], held["name"]) == (1, "Ada")
    assert [(each["code"], each["right"], each["helped"]) for each in held["drills"]] == [
        ("labels-2-1", True, False),
        ("steps-1-3", False, False),
    ]
    assert all(each["milliseconds"] > 0 for each in held["drills"])


async def test_where_results_cannot_be_written_it_is_said_at_the_end(tmp_path: Path) -> None:
    """The answers are in the person's own log all the same."""
    nowhere = tmp_path / "gone" / "monday-results.json"
    async with playing(tmp_path / "data", ClassTask(CODES[:1], nowhere, ""), settings=WAITING) as play:
        await play.keys(*right_keys(play.drill), "enter")
        await play.until(lambda: isinstance(play.app.screen, EndScreen))
        assert "results could not be written" in play.noted
        assert len(play.log()) == 1


def test_earlier_results_are_never_written_over(tmp_path: Path) -> None:
    """The next free number follows the name."""
    path = tmp_path / "monday.json"
    for wanted in ("monday-results.json", "monday-results-2.json", "monday-results-3.json"):
        assert results_beside(path).name == wanted
        results_beside(path).touch()
