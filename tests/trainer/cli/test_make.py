"""`slantwise make`: stretches by their measures, the largest for a grid, parts of a file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drills.fold_file import read_sheet, to_fold
from drills.pattern import CreasePattern
from drills.structures import TRIANGLES, Stretch, draw, find_stretches
from tests.drills.sheets import figure
from tests.trainer.cli.calling import call, is_one_sentence


def made(folder: Path, *words: str) -> CreasePattern:
    """Return the pattern that is written."""
    out = folder / "x.fold"
    out.unlink(missing_ok=True)
    called = call(folder, "make", *words, "-o", str(out))
    assert (called.status, called.err) == (0, "")
    return read_sheet(out.read_bytes()).pattern


def test_a_stretch_by_its_measures(tmp_path: Path) -> None:
    """By hand: 2 and 1 units of 3-4-5 turn 3 pleats, so 2 inside lines; 2 pleats around widen it by 4."""
    pattern = made(tmp_path, "--triangle", "3-4-5", "--units", "2", "1", "--pleats", "2", "--facing", "3")
    (found,) = find_stretches(pattern)
    assert (found.triangle.name, sorted(u for u in found.units if u)) == ("3-4-5", [1, 2])
    sides = {abs(side) for move in (found.shallow, found.steep) if move for side in move}
    assert sides == {1, 2, 6}
    assert pattern.box == (0, 0, 7 + 4, 4 + 4)
    assert call(tmp_path, "check", str(tmp_path / "x.fold"), seconds_apart=0).status == 0


@pytest.mark.parametrize("name", [triangle.name for triangle in TRIANGLES])
def test_the_largest_for_a_grid(tmp_path: Path, name: str) -> None:
    """It fits, and one unit more would not."""
    triangle = next(each for each in TRIANGLES if each.name == name)
    pattern = made(tmp_path, "--triangle", name, "--grid", "48")
    _, _, right, top = pattern.box
    assert max(right, top) <= 48
    (found,) = find_stretches(pattern)
    assert found.triangle == triangle
    unit = max(draw(Stretch((1, 1), pleats=0, triangle=triangle)).box)
    assert max(right, top) + unit > 48


def test_four_facings_are_four_figures(tmp_path: Path) -> None:
    """None twice."""
    figures = {figure(made(tmp_path, "--facing", str(facing))) for facing in range(1, 5)}
    assert len(figures) == 4


def test_a_part_of_a_file(tmp_path: Path) -> None:
    """From 2 across 1 down to 8 across 7 down of a 10 by 8 sheet: what the design cropped so gives."""
    whole, wanted = Stretch((2, 2), pleats=1), Stretch((2, 2), pleats=1, crop=(2, 1, 2, 1))
    (tmp_path / "mine.fold").write_text(json.dumps(to_fold(draw(whole))))
    assert draw(whole).box == (0, 0, 10, 8)
    part = made(tmp_path, str(tmp_path / "mine.fold"), "--crop", "2", "1", "8", "7")
    drawn = {(ends, label) for ends, _, label in figure(draw(wanted))}
    assert {(ends, label) for ends, _, label in figure(part)} == drawn


def test_what_cannot_be_made(tmp_path: Path) -> None:
    """One sentence each, status 2, nothing written."""
    (tmp_path / "mine.fold").write_text(json.dumps(to_fold(draw(Stretch((1, 1))))))
    mine, out = str(tmp_path / "mine.fold"), str(tmp_path / "new.fold")
    for line in (
        ("--triangle", "6-8-10", "-o", out),
        ("--units", "0", "1", "-o", out),
        ("--units", "1", "x", "-o", out),
        ("--grid", "4", "-o", out),
        ("--grid", "20", "--units", "1", "1", "-o", out),
        ("--facing", "5", "-o", out),
        ("--pleats", "99", "-o", out),
        ("--crop", "1", "1", "2", "2", "-o", out),
        (mine, "-o", out),
        (mine, "--crop", "1", "1", "99", "2", "-o", out),
        (mine, "--crop", "3", "1", "2", "2", "-o", out),
        (mine, "--crop", "1", "1", "2", "2", "--facing", "2", "-o", out),
        ("-o", str(tmp_path / "new.svg")),
        ("-o", mine),
        (),
    ):
        called = call(tmp_path, "make", *line)
        assert (called.status, called.out) == (2, ""), line
        assert is_one_sentence(called.err)
    assert not Path(out).exists()
