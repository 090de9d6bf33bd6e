"""My pattern: a file chosen, its faults seen, its plan gone through and gone on with another day."""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path

import pytest

from drills.fold_file import to_fold
from drills.structures import Stretch, draw
from tests.trainer.screens.answering import right_keys
from tests.trainer.screens.playing import SETTLED, Play, playing
from trainer.own_sheets import OwnSheets, completed
from trainer.screens.drill import DrillScreen
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
        assert "Practise on it" not in play.said
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
        # what was only looked at is not ticked off: Space comes back to what is next
        await play.keys("right", "right", "space")
        assert (plan.ticked, plan.place) == (3, 3)
        # nor is what was done before ticked off twice
        await play.keys("left", "left", "space", "space")
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


async def test_on_a_large_sheet_the_board_goes_to_what_is_told(tmp_path: Path) -> None:
    """Each side of the outline and each inside line is in view when its turn comes."""
    large = draw(Stretch((2, 2), pleats=14))
    path = tmp_path / "large.fold"
    path.write_text(json.dumps(to_fold(large)))
    async with playing(tmp_path / "data", settings=SETTLED) as play:
        await open_sheet(play, path)
        await play.keys("p")
        plan = play.at(PlanScreen)
        while plan.place + 1 < len(plan.told):
            await play.keys("space")
            now, window = plan.told[plan.place], play.board.window
            assert window
            if now.title.startswith(("CREASE THE OUTLINE", "Crease the outline")):
                ends = [plan.pattern.vertices[v] for e in now.edges for v in plan.pattern.edges[e][:2]]
                assert any(window.scale.shows(end) for end in ends)


@pytest.mark.parametrize("key", "1234")
async def test_all_kinds_are_practised_on_it(tmp_path: Path, key: str) -> None:
    """Answered right, told so, and gone on to another seed; nothing goes into the log."""
    async with playing(tmp_path / "data", settings=SETTLED) as play:
        await open_sheet(play, saved(tmp_path))
        await play.keys(key)
        await play.until(lambda: isinstance(play.app.screen, DrillScreen))
        first = play.drill
        assert f"-own-{play_hash(tmp_path)}-" in first.code
        assert first.judge(first.question.right_answer(first)).right
        await play.keys(*right_keys(first), "enter")
        await play.until(lambda: play.drill.code != first.code)
        await play.keys("q")
        await play.until(lambda: isinstance(play.app.screen, OwnSheetScreen))
        assert play.log() == []


def play_hash(folder: Path) -> str:
    """Return twelve digits of the hash of the sheet, reckoned here."""
    return sha256((folder / "worked.fold").read_bytes()).hexdigest()[:12]


async def test_what_cannot_be_asked_is_told(tmp_path: Path) -> None:
    """A sheet with a wrong label is not practised on; one sentence says why."""
    async with playing(tmp_path / "data", settings=SETTLED) as play:
        await open_sheet(play, saved(tmp_path, wrong=True))
        await play.keys("2")
        assert "does not fold flat as it is" in play.noted
        assert isinstance(play.app.screen, OwnSheetScreen)


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
