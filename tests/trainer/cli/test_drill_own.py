"""`slantwise drill FILE`: the usual questions on one's own sheet, by file or later by code."""

from __future__ import annotations

import json
from pathlib import Path

from drills.fold_file import to_fold
from drills.structures import Stretch, draw
from tests.trainer.cli.calling import call, is_one_sentence

WORKED = draw(Stretch((2, 2), pleats=1))


def saved(folder: Path) -> str:
    """Write the sheet and return where."""
    path = folder / "mine.fold"
    path.write_text(json.dumps(to_fold(WORKED.unlabelled())))
    return str(path)


def test_by_its_file_and_then_by_its_code(tmp_path: Path) -> None:
    """The code gives the same drill, from the copy, when the file is gone; labels were found."""
    path = saved(tmp_path)
    first = call(
        tmp_path / "data", "drill", path, "--kind", "labels", "--seed", "7", "--json", seconds_apart=0
    )
    assert first.status == 0
    drill = json.loads(first.out)
    assert len(drill["answer"]["edges"]) == 1
    Path(path).unlink()
    assert call(tmp_path / "data", "drill", drill["code"], "--json", seconds_apart=0).out == first.out
    told = call(tmp_path / "data", "drill", drill["code"], "--text", typed="none\n", seconds_apart=0)
    assert (told.status, told.err) == (1, "")
    assert not (tmp_path / "data" / "attempts.jsonl").exists()


def test_several_seeds_and_no_answers(tmp_path: Path) -> None:
    """As with usual codes."""
    line = ("drill", saved(tmp_path), "--kind", "steps", "--json", "--count", "3", "--no-answers")
    out = call(tmp_path, *line, seconds_apart=0).out
    drills = [json.loads(line) for line in out.splitlines()]
    assert [drill["seed"] for drill in drills] == [1, 2, 3]
    assert all("answer" not in drill for drill in drills)


def test_what_is_refused(tmp_path: Path) -> None:
    """No kind, a level, a code of a sheet that was never opened, a file that is none: one sentence each."""
    path = saved(tmp_path)
    (tmp_path / "text.fold").write_text("no sheet")
    for line in (
        (path, "--text"),
        (path, "--kind", "sinks", "--level", "3", "--text"),
        (path, "--kind", "cranes", "--text"),
        ("labels-own-0123456789ab-3", "--text"),
        (str(tmp_path / "text.fold"), "--kind", "sinks", "--text"),
    ):
        called = call(tmp_path, "drill", *line)
        assert (called.status, called.out) == (2, "")
        assert is_one_sentence(called.err)
