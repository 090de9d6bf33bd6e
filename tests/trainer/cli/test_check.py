"""`slantwise check`: verdicts on files, by place in words and by number in JSON."""

from __future__ import annotations

import json
from functools import partial
from math import atan2, cos, radians, sin
from pathlib import Path
from typing import Any

import pytest

from drills.fold_file import to_fold
from drills.geometry import Direction, Point
from drills.pattern import CreasePattern, Label, Line, Paper, Role, across_down, build, straight_runs
from drills.structures import Stretch, draw
from tests.drills.flatfold.test_missing import without
from tests.drills.sheets import map_sheet, star
from tests.trainer.cli import calling
from tests.trainer.cli.calling import is_one_sentence

STANDARD = Path(__file__).parents[2] / "drills" / "fold_file" / "standard"
SHEET = draw(Stretch((2, 2), pleats=2))
KEYS = {
    "ok",
    "exact",
    "angles",
    "labels",
    "layers",
    "repairs",
    "repairs_layers",
    "more",
    "solved",
    "in_turn",
    "clash",
    "pieces",
    "notices",
    "crowded",
    "doubtful",
    "missing",
    "open",
}
call = partial(calling.call, seconds_apart=0)


def saved(folder: Path, pattern: CreasePattern) -> str:
    """Write the pattern as a file and return its path."""
    path = folder / "sheet.fold"
    path.write_text(json.dumps(to_fold(pattern)))
    return str(path)


def report(folder: Path, pattern: CreasePattern) -> tuple[int, Any]:
    """Return exit status and JSON report on a pattern."""
    status, out, _ = call(folder, "check", saved(folder, pattern), "--json")
    return status, json.loads(out)


def pinwheel() -> CreasePattern:
    """Return the 3 x 3 map whose centre cell has four mountains, with one valley turning at each corner.

    Four of the 256 labellings that fold at each point have no layers (counted by two programs, no source).
    """
    valleys = {((0, 2), (1, 2)), ((2, 2), (2, 3)), ((2, 1), (3, 1)), ((1, 0), (1, 1))}
    plain = map_sheet(3, 3)
    labels: list[Label] = []
    for index, edge in enumerate(plain.edges):
        ends = tuple(sorted((int(point.x), int(point.y)) for point in plain.ends(index)))
        labels.append("B" if edge.label == "B" else "V" if ends in valleys else "M")
    return plain.with_labels(labels)


@pytest.mark.parametrize(
    ("name", "status"),
    [("diagonal-cp", 0), ("diagonal-folded", 2), ("simple", 2), ("box", 2), ("squaretwist", 2)],
)
def test_the_examples_of_the_standard(tmp_path: Path, name: str, status: int) -> None:
    """The one flat crease pattern folds; folded forms are refused in one sentence that says why."""
    called = call(tmp_path, "check", str(STANDARD / f"{name}.fold"), "--json")
    assert called.status == status
    if status:
        assert called.out == ""
        assert is_one_sentence(called.err)
        assert "folded form" in called.err
    else:
        assert json.loads(called.out)["ok"] is True


def test_a_sheet_that_folds_is_fine(tmp_path: Path) -> None:
    """All keys are there, layers are found, nothing is to be switched."""
    status, told = report(tmp_path, SHEET)
    assert status == 0
    assert set(told) == KEYS
    assert (told["ok"], told["exact"], told["layers"], told["repairs"]) == (True, True, True, [])


def test_a_wrong_label_is_named_by_its_ends_and_repaired(tmp_path: Path) -> None:
    """The vertices that fail are the crease's interior ends, and switching it back is the one repair."""
    crease = next(e for e in SHEET.creases if len(SHEET.interior_ends[e]) == 2)
    status, told = report(tmp_path, SHEET.switched([crease]))
    assert status == 1
    assert told["labels"] == sorted(SHEET.interior_ends[crease])
    assert (told["repairs"], told["repairs_layers"], told["layers"]) == ([[crease]], [True], None)


def test_in_words_the_fault_has_its_place_and_its_counts(tmp_path: Path) -> None:
    """The pattern is drawn, the fault told, and the labels to switch come last."""
    crease = next(e for e in SHEET.creases if SHEET.edges[e].role == "inside")
    status, out, err = call(tmp_path, "check", saved(tmp_path, SHEET.switched([crease])))
    lines = out.splitlines()
    assert (status, err) == (1, "")
    assert any("mountains and" in line and line.endswith("they must differ by 2.") for line in lines)
    assert lines[-2] == "Fewest labels to switch: 1 (the sheet then folds flat)."
    assert lines[-1].startswith("  from ")
    assert any("⡇" in line for line in lines)


def test_slanted_stretches_are_named(tmp_path: Path) -> None:
    """With the steps of their sides, worked by hand: S is at (2; 8) from the top left, k = 2, three lines."""
    out = call(tmp_path, "check", saved(tmp_path, SHEET)).out
    told = "from (2; 8): sides 3 to the right, 1 up, twice and 1 to the right, 2 up, twice; 3 inside lines."
    assert f"Slanted stretch of the triangle 3-4-5, {told}" in out
    assert "Slanted stretch" not in call(tmp_path, "check", saved(tmp_path, pinwheel())).out


@pytest.mark.parametrize(
    ("role", "words"),
    [
        ("inside", "3 inside lines belong here, 2 are drawn; missing: (2; 8) to (10; 2)."),
        ("hinge", "At (4; 4) 3 creases meet; a hinge is missing, left to (0; 4) or up to (4; 0)."),
        ("ridge", "At (2; 8) 5 creases meet; a ridge is missing, down and left to (0; 10)."),
        ("pleat", "a pleat line is missing, "),
    ],
)
def test_what_is_missing_is_told(tmp_path: Path, role: Role, words: str) -> None:
    """A row of creases taken out of a stretch with S at (2; 8), B at (4; 4), T at (10; 2), worked by hand."""
    run = straight_runs(SHEET, role)[0]
    left = without(SHEET, run)
    out = call(tmp_path, "check", saved(tmp_path, left)).out
    assert words in out
    assert "Slanted stretch of the triangle 3-4-5" in out
    told = report(tmp_path, left)[1]["missing"]
    ends = sorted(list(across_down(SHEET, SHEET.vertices[at])) for at in (run.vertices[0], run.vertices[-1]))
    assert any(sorted((way[0], way[-1])) == ends for gap in told for way in gap["ways"])


def test_what_is_missing_is_told_at_its_place(tmp_path: Path) -> None:
    """At a place only what concerns it."""
    path = saved(tmp_path, without(SHEET, straight_runs(SHEET, "hinge")[0]))
    assert "a hinge is missing" in call(tmp_path, "check", path, "--at", "4,4").out
    assert "missing" not in call(tmp_path, "check", path, "--at", "2,8").out


def test_right_at_each_point_and_no_layers(tmp_path: Path) -> None:
    """A labelled 3 x 3 map: no label fails, the layers do, and the clashing creases are named."""
    status, told = report(tmp_path, pinwheel())
    assert status == 1
    assert (told["labels"], told["layers"], told["repairs"]) == ([], False, [])
    assert len(told["clash"]) == 8
    assert "its layers would cross" in call(tmp_path, "check", saved(tmp_path, pinwheel())).out


def test_open_labels_are_found(tmp_path: Path) -> None:
    """Every crease given as U gets a label with which the sheet folds."""
    status, told = report(tmp_path, SHEET.unlabelled())
    assert (status, told["ok"]) == (0, True)
    assert set(told["solved"]) == {str(crease) for crease in SHEET.creases}
    labels = [told["solved"].get(str(index), "B") for index in range(len(SHEET.edges))]
    assert report(tmp_path, SHEET.with_labels(labels))[1]["ok"] is True


def test_what_is_wrong_at_one_place(tmp_path: Path) -> None:
    """S of this stretch is at (2; 8): the fault there and its creases; where no point is, a refusal."""
    vertex = next(v for v in SHEET.interior if across_down(SHEET, SHEET.vertices[v]) == (2, 8))
    path = saved(tmp_path, SHEET.switched([SHEET.around[vertex][0]]))
    told = call(tmp_path, "check", path, "--at", "2,8")
    assert told.out.startswith("At (2; 8) there are ")
    assert len(told.out.splitlines()) == 1 + len(SHEET.around[vertex])
    sound = call(tmp_path, "check", saved(tmp_path, SHEET), "--at", "2;8")
    assert "nothing is wrong with this point by itself." in sound.out
    for odd in ("99,99", "1/0,2", "here"):
        refused = call(tmp_path, "check", path, "--at", odd)
        assert refused.status == 2
        assert is_one_sentence(refused.err)


def test_open_labels_are_filled_in_and_written(tmp_path: Path) -> None:
    """The new file folds and has no open crease; one that is there already stays as it is."""
    path, out = saved(tmp_path, SHEET.unlabelled()), tmp_path / "filled.fold"
    assert call(tmp_path, "check", path, "--fill", "-o", str(out)).status == 0
    written = out.read_bytes()
    assert "U" not in json.loads(written)["edges_assignment"]
    assert call(tmp_path, "check", str(out)).status == 0
    for argv in (("--fill", "-o", str(out)), ("--fill",), ("-o", str(tmp_path / "new.fold"))):
        refused = call(tmp_path, "check", path, *argv)
        assert refused.status == 2
        assert is_one_sentence(refused.err)
    labelled = call(tmp_path, "check", str(out), "--fill", "-o", str(tmp_path / "new.fold"))
    assert is_one_sentence(labelled.err)
    assert (out.read_bytes(), (tmp_path / "new.fold").exists()) == (written, False)


def test_wrong_angles(tmp_path: Path) -> None:
    """Three creases at a point cannot fold flat, whatever their labels."""
    lines = [Line(Point(2, 2), Point(*end), "other", "M") for end in ((4, 2), (0, 2), (2, 4))]
    status, told = report(tmp_path, build(lines, Paper(0, 0, 4, 4)))
    assert status == 1
    assert (len(told["angles"]), told["labels"], told["layers"]) == (1, [], None)


@pytest.mark.parametrize(
    ("ends", "words"),
    [
        ([(4, 2), (0, 2), (2, 4)], "At (1; 1) 3 creases meet; an odd number cannot fold flat."),
        ([(4, 2)], "At (1; 1) one crease ends alone"),
        # angles of 45, 135, 90 and 90 degrees, worked by hand
        ([(4, 2), (4, 4), (0, 2), (2, 0)], "every second angle adds to 135.0 degrees; it must be 180."),
    ],
)
def test_wrong_angles_are_told_in_numbers(tmp_path: Path, ends: list[tuple[int, int]], words: str) -> None:
    """How many creases meet, or what every second angle adds to."""
    lines = [Line(Point(2, 2), Point(*end), "other", "M") for end in ends]
    assert words in call(tmp_path, "check", saved(tmp_path, build(lines, Paper(0, 0, 4, 4)))).out


def test_points_on_no_grid_are_judged_in_floats_and_the_layers_left_open(tmp_path: Path) -> None:
    """A point with angles 50, 60, 130, 120: right at the point, not decided as a whole, exit status 2."""
    ends = [(cos(radians(angle)), sin(radians(angle))) for angle in (0, 50, 110, 240)]
    corners = [(-2.0, -2.0), (2.0, -2.0), (2.0, 2.0), (-2.0, 2.0)]
    reach = [(x * 2 / max(abs(x), abs(y)), y * 2 / max(abs(x), abs(y))) for x, y in ends]
    ring = sorted({*corners, *reach}, key=lambda place: atan2(place[1], place[0]))
    points = [(0.0, 0.0), *ring]
    border = [[1 + i, 1 + (i + 1) % len(ring)] for i in range(len(ring))]
    creases = [[0, points.index(point)] for point in reach]
    fold = {
        "file_spec": 1.2,
        "vertices_coords": points,
        "edges_vertices": border + creases,
        "edges_assignment": ["B"] * len(border) + ["V", "M", "M", "M"],
    }
    path = tmp_path / "twisted.fold"
    path.write_text(json.dumps(fold))
    status, out, err = call(tmp_path, "check", str(path), "--json")
    told = json.loads(out)
    assert (told["exact"], told["angles"], told["layers"]) == (False, [], None)
    assert status == (1 if told["labels"] else 2)
    assert bool(err) == (status == 2)


def test_creases_that_cross_are_split_and_said_so(tmp_path: Path) -> None:
    """Two full lines of a map: a new point, two further pieces, each with the file's edge it is of."""
    fold = {
        "file_spec": 1.2,
        "vertices_coords": [[0, 0], [2, 0], [2, 2], [0, 2], [1, 0], [1, 2], [0, 1], [2, 1]],
        "edges_vertices": [[0, 4], [4, 1], [1, 7], [7, 2], [2, 5], [5, 3], [3, 6], [6, 0], [4, 5], [6, 7]],
        "edges_assignment": ["B"] * 8 + ["M", "V"],
    }
    path = tmp_path / "cross.fold"
    path.write_text(json.dumps(fold))
    told = json.loads(call(tmp_path, "check", str(path), "--json").out)
    assert told["labels"] == [8]
    assert told["pieces"] == {"10": 8, "11": 9}
    assert any("Split" in notice for notice in told["notices"])


@pytest.mark.parametrize(
    "content", [b"", b"[]", b"{", b"\x00\x1b[31m", b'{"file_spec": 1.2}', b"[" * 100_000]
)
def test_what_is_no_crease_pattern_is_refused(tmp_path: Path, content: bytes) -> None:
    """One sentence, exit status 2, no traceback, no control characters."""
    path = tmp_path / "odd.fold"
    path.write_bytes(content)
    called = call(tmp_path, "check", str(path))
    assert (called.status, called.out) == (2, "")
    assert is_one_sentence(called.err)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """Its name, which may hold anything, is not repeated."""
    called = call(tmp_path, "check", str(tmp_path / "no\x1b[31mfile.fold"))
    assert called.status == 2
    assert is_one_sentence(called.err)


def test_what_the_time_was_not_enough_for_is_said(tmp_path: Path) -> None:
    """Status 2, and one sentence that says how to give it more."""
    path = saved(tmp_path, SHEET)
    status, out, err = calling.call(tmp_path, "check", path, "--json", seconds_apart=60)
    assert status == 2
    assert json.loads(out)["open"] == ["points", "layers"]
    assert is_one_sentence(err)
    assert "--seconds 60" in err
    assert call(tmp_path, "check", path, "--seconds", "60").status == 0


def test_points_with_too_many_creases_are_named(tmp_path: Path) -> None:
    """They are not judged, so that the sheet is left open."""
    rays = [Direction(1, at) for at in range(-55, 55)]
    pattern = star([*rays, *(Direction(-way.dx, -way.dy) for way in rays)])
    status, out, err = call(tmp_path, "check", saved(tmp_path, pattern))
    assert status == 2
    assert "220 creases meet; more than 200 are not judged." in out
    assert is_one_sentence(err)
