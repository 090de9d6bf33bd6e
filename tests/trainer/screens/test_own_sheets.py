"""My pattern: a file chosen, its faults seen, its plan gone through and gone on with another day."""

from __future__ import annotations

import json
from pathlib import Path

from drills.fold_file import to_fold
from drills.structures import Stretch, draw
from tests.trainer.screens.playing import SETTLED, Play, playing
from trainer.own_sheets import OwnSheets, completed
from trainer.screens.own import OwnSheetScreen, OwnSheetsScreen, PlanScreen

WORKED = draw(Stretch((2, 2), pleats=1))


def saved(folder: Path, wrong: bool = False) -> Path:
    """Write a sheet, with a wrong label or without, and return where."""
    line = next(e for e in WORKED.creases if len(WORKED.interior_ends[e]) == 2)
    path = folder / ("wrong.fold" if wrong else "worked.fold")
    path.write_text(json.dumps(to_fold(WORKED.switched([line] if wrong else []))))
    return path


async def open_sheet(play: Play, path: Path) -> OwnSheetScreen:
    """Go from the opening to a sheet by its path, and wait until it is checked."""
    await play.keys("o")
    screen = play.at(OwnSheetsScreen)
    screen.query_one("Input").value = str(path)  # type: ignore[attr-defined]
    await play.keys("enter")
    await play.until(lambda: isinstance(play.app.screen, OwnSheetScreen))
    sheet = play.at(OwnSheetScreen)
    await play.until(lambda: sheet.report is not None)
    await play.settle()
    return sheet


async def test_a_sheet_is_checked_and_its_faults_are_lit(tmp_path: Path) -> None:
    """One label switched: its two ends are lit, and the repair is told."""
    async with playing(tmp_path / "data", settings=SETTLED) as play:
        await open_sheet(play, saved(tmp_path, wrong=True))
        assert "Fewest labels to switch: 1" in play.said
        await play.keys("q", "q")
        assert "worked" not in play.said


async def test_the_plan_is_gone_through_and_its_place_remembered(tmp_path: Path) -> None:
    """Space ticks off; what is left is there in the next run, and where the file is gone its copy is."""
    path = saved(tmp_path)
    async with playing(tmp_path / "data", settings=SETTLED) as play:
        await open_sheet(play, path)
        await play.keys("p")
        plan = play.at(PlanScreen)
        assert "FOLD THE GRID" in play.said
        await play.keys("space", "space", "space", "right", "left")
        assert (plan.ticked, plan.place) == (3, 3)
        number = len(plan.told)
        await play.keys("q", "q", "q")
    path.unlink()
    async with playing(tmp_path / "data", settings=SETTLED) as play:
        await play.keys("o")
        assert f"worked.fold plan: 3 of {number} done" in play.said
        await play.keys("enter")
        await play.until(lambda: isinstance(play.app.screen, OwnSheetScreen))
        await play.keys("enter")
        plan = play.at(PlanScreen)
        assert (plan.ticked, plan.place) == (3, 3)
        await play.keys(*["space"] * (number - 3))
        await play.until(lambda: isinstance(play.app.screen, OwnSheetScreen))
        assert f"plan: {number} of {number} done" in play.said


async def test_what_is_no_sheet_is_told_and_nothing_is_lost(tmp_path: Path) -> None:
    """One sentence below the line; the person is still there."""
    async with playing(tmp_path / "data", settings=SETTLED) as play:
        await play.keys("o")
        screen = play.at(OwnSheetsScreen)
        screen.query_one("Input").value = str(tmp_path / "none.fold")  # type: ignore[attr-defined]
        await play.keys("enter")
        assert "cannot be read" in play.said
        assert OwnSheets(tmp_path / "data").sheets == ()


def test_a_path_is_completed_as_far_as_it_is_clear(tmp_path: Path) -> None:
    """Of files that may be sheets, and folders; hidden ones only where they are asked for."""
    for name in ("kite-a.fold", "kite-b.svg", "kite.txt", ".kite.fold"):
        (tmp_path / name).touch()
    (tmp_path / "sheets").mkdir()
    assert completed(f"{tmp_path}/ki") == f"{tmp_path}/kite-"
    assert completed(f"{tmp_path}/kite-b") == f"{tmp_path}/kite-b.svg"
    assert completed(f"{tmp_path}/sh") == f"{tmp_path}/sheets/"
    assert completed(f"{tmp_path}/.k") == f"{tmp_path}/.kite.fold"
    assert completed(f"{tmp_path}/x") == f"{tmp_path}/x"
    assert completed("/nowhere/at/all") == "/nowhere/at/all"


def test_a_damaged_list_is_put_aside(tmp_path: Path) -> None:
    """Nothing of it is trusted, and nothing lost."""
    (tmp_path / "own-sheets.json").write_text('{"schema": 1, "sheets": [{"hash": "../x", "path": 3}]}')
    assert OwnSheets(tmp_path).sheets == ()
    assert len(list(tmp_path.iterdir())) == 1
