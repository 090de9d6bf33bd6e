"""`slantwise check` on an SVG: what its strokes stand for is asked once."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from tests.drills.svg_file.writing import WRITERS, stretch, svg
from tests.trainer.cli import calling
from tests.trainer.cli.calling import is_one_sentence

call = partial(calling.call, seconds_apart=0)


def saved(folder: Path, name: str) -> str:
    """Write the sheet in one way and return the file's path."""
    path = folder / f"{name}.svg"
    path.write_bytes(WRITERS[name](stretch()))
    return str(path)


def test_it_is_asked_once_and_remembered(tmp_path: Path) -> None:
    """Unknown strokes are listed with what they may be; given once, they are known from then on."""
    path = saved(tmp_path, "coloured")
    asked = call(tmp_path, "check", path)
    assert (asked.status, asked.out) == (2, "")
    assert is_one_sentence(asked.err)
    assert "--strokes BMV" in asked.err
    assert call(tmp_path, "check", path, "--strokes", "BMV").status == 0
    told = call(tmp_path, "check", path)
    assert (told.status, told.err) == (0, "")
    assert "Angles, labels and layers are right" in told.out
    assert call(tmp_path, "plan", path).status == 0


def test_at_a_terminal_a_person_confirms_it_or_says_otherwise(tmp_path: Path) -> None:
    """Enter takes what is proposed; letters take its place; what is no answer is refused."""
    path = saved(tmp_path, "groups")
    confirmed = call(tmp_path, "check", path, typed="\n", terminal=True)
    assert confirmed.status == 0
    assert "valleys" in confirmed.out
    turned = call(tmp_path / "other", "check", path, typed="V M B\n", terminal=True)
    assert turned.status == 0
    assert is_one_sentence(call(tmp_path / "third", "check", path, typed="VX\n", terminal=True).err)


def test_other_strokes_are_another_origin(tmp_path: Path) -> None:
    """What was confirmed for one drawing says nothing of other colours, and a plan does not guess."""
    assert call(tmp_path, "check", saved(tmp_path, "coloured"), "--strokes", "BMV").status == 0
    other = call(tmp_path, "plan", saved(tmp_path, "used"))
    assert other.status == 2
    assert is_one_sentence(other.err)


def test_what_is_wrong_with_it_is_one_sentence(tmp_path: Path) -> None:
    """An empty drawing, and a damaged memory, which is put aside and kept."""
    (tmp_path / "empty.svg").write_bytes(svg(""))
    assert is_one_sentence(call(tmp_path, "check", str(tmp_path / "empty.svg")).err)
    (tmp_path / "strokes.json").write_text("{")
    assert call(tmp_path, "check", saved(tmp_path, "coloured"), "--strokes", "BMV").status == 0
    assert (tmp_path / "strokes.damaged-1.json").read_text() == "{"
