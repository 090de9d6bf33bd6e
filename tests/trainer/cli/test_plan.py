"""`slantwise plan`: the precreasing plan of a file or a drill, in words and in JSON."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from math import sqrt
from pathlib import Path
from typing import Any

import pytest

from drills.fold_file import to_fold
from drills.pattern import CreasePattern
from drills.questions import make, read_code
from drills.structures import TRIANGLES, Stretch, draw
from tests.drills.sheets import map_sheet
from tests.trainer.cli.calling import call, is_one_sentence

WORKED = draw(Stretch((2, 2), pleats=0))
THIRDS = draw(Stretch((1, 1), triangle=TRIANGLES[-1], widths=(2, 2, 2)))
CUT = draw(Stretch((2, 2), pleats=0, crop=(0, 0, 3, 0)))
BEFORE = """\
1. Fold the grid:
   Printed side down, each fold towards you: from the printed side all of it
     is mountains.
   Begin with a square of 8 by 8 squares. The sheet is 8 across and 6 down;
     cut off the rest after the grid, seen from the printed side right and
     below.
   Halve the square 3 times in both directions: 8 squares a side.
2. Of the grid leave flat:
   No crease runs along the grid inside an outline; there fold its lines
     lightly, or not at all:
   the stretch: upright lines 1 to 7, level lines 1 to 5, within (0; 6),
     (6; 4), (8; 0), (2; 2)
3. Turn the paper over:
   Turn the paper over, printed side up; so it stays to the end. Mountains are
     folded away from you now.
4. Crease 2 ridges at 45 degrees, as mountains:
   from (0; 0) to (2; 2)
   from (6; 4) to (8; 6)
"""
STRETCH = """\
5. Mark with a pencil dot:
   corners: (0; 6), (6; 4), (8; 0), (2; 2)
   turning points: (3; 5), (7; 2), (5; 1), (1; 4)
   All of these are crossings of the grid.
6. Crease the outline, all of it as mountains:
   from (0; 6) to (6; 4): 3 to the right, 1 up, twice
   from (6; 4) to (8; 0): 1 to the right, 2 up, twice
   from (8; 0) to (2; 2): 3 to the left, 1 down, twice
   from (2; 2) to (0; 6): 1 to the left, 2 down, twice
7. Crease 3 inside lines from point to point, as mountains too:
   from (0; 6) to (8; 0): 4 to the right, 3 up, twice (the middle line)
   from (3; 5) to (7; 2): 4 to the right, 3 up
   from (1; 4) to (5; 1): 4 to the right, 3 up
"""
AFTER = """\
8. Make 6 lines of the grid sharp, hinges and pleats, as mountains:
   from (1; 4) to (1; 1)
   from (1; 1) to (5; 1)
   from (2; 2) to (2; 0)
   from (3; 5) to (7; 5)
   from (6; 6) to (6; 4)
   from (7; 5) to (7; 2)
9. Switch to valleys (labels of the sheet):
   ridge (0; 0) to (1; 1)
   ridge (7; 5) to (8; 6)
   outline side (0; 6) to (3; 5)
   outline side (7; 2) to (8; 0)
   outline side (8; 0) to (5; 1)
   outline side (1; 4) to (0; 6)
   inside line (3; 5) to (7; 2)
   inside line (1; 4) to (5; 1)
   line (1; 4) to (1; 1)
   line (1; 1) to (5; 1)
   line (2; 2) to (2; 1)
   line (3; 5) to (7; 5)
   line (6; 5) to (6; 4)
   line (7; 5) to (7; 2)
10. Let it collapse:
   Pinch the pleats from the paper's edge towards the ridges; do not press
     them flat yet.
   The stretch: raise the sides that are mountains, push the inside lines
     down:
   two parts go in, one on each side of the middle line, (0; 6) (6; 4) (8; 0)
     and (0; 6) (2; 2) (8; 0).
   Then the ridges and hinges round it, the nearest first.
   Last the pleats out to the paper's edge; press flat.
"""


def test_the_worked_example_in_words(tmp_path: Path) -> None:
    """The plan of two pleats a side, line by line, worked by hand; the caution stands before it."""
    status, out, err = call(tmp_path, "plan", saved(tmp_path, WORKED), seconds_apart=0)
    assert (status, err) == (0, "")
    before, told, after, folded = out.split("\n\n")
    assert f"{before}\n".endswith(BEFORE)
    assert told.startswith("Slanted stretch, triangle 3-4-5\n")
    assert f"{told}\n".endswith(STRETCH)
    assert f"{after}\n" == AFTER
    assert folded.startswith("Folded, as it is seen.\nDotted: up to 6 layers; hatched: more, up to 12.\n")
    assert "put a mat under it" in before
    assert "away from the hand" in before
    assert told.count("●") == 8


def saved(folder: Path, pattern: CreasePattern) -> str:
    """Write the pattern as a file and return its path."""
    path = folder / "sheet.fold"
    path.write_text(json.dumps(to_fold(pattern)))
    return str(path)


def told(folder: Path, pattern: CreasePattern) -> str:
    """Return the plan of a pattern in words."""
    return call(folder, "plan", saved(folder, pattern)).out


def planned(folder: Path, sheet: str) -> Any:
    """Return the plan of a file or code as JSON."""
    return json.loads(call(folder, "plan", sheet, "--json").out)


def test_points_between_crossings_are_told_with_their_grid(tmp_path: Path) -> None:
    """Four turning points on thirds; as the outline is counted they can be dotted after it, too."""
    words = told(tmp_path, THIRDS)
    assert "squares in thirds: (19; 11 1/3), (21; 6 2/3), (6; 12 2/3),\n     (4; 17 1/3)\n" in words
    assert "Or dot them after the outline: each is where a side crosses a line" in words
    assert "   from (12; 18) to (19; 11 1/3): along 21 to the right, 20 up\n" in words
    assert max(map(len, words.splitlines())) <= 100


def test_a_cut_stretch_runs_on_to_the_edge(tmp_path: Path) -> None:
    """Ends at the paper's edge are mixed numbers, corners beyond it are counted, by hand."""
    words = told(tmp_path, CUT)
    assert "   Beyond the paper's edge, so not to mark: 2 corners, and any turning" in words
    assert "   from (0; 6) to the edge at (5; 4 1/3): along 3 to the right, 1 up\n" in words
    assert "   corners: (0; 6), (2; 2)\n   turning points: (1; 4), (3; 5)\n" in words
    assert "the inside goes in, as far as it is on the paper." in words


def test_where_a_line_has_no_dot_its_start_at_the_edge_is_marked(tmp_path: Path) -> None:
    """Of the ends at the paper's edge only those, by hand: 11,1 and 1,6 are crossings, 2 2/3,6 is not."""
    words = told(tmp_path, draw(Stretch((3, 3), pleats=0, crop=(0, 2, 1, 1))))
    assert "   at the paper's edge: (11; 1), (1; 6), (2 2/3; 6)\n" in words
    assert "   3 times finer, squares in thirds: (2 2/3; 6)\n" in words
    assert "Or dot them" not in words
    assert "   from (11; 1) to the edge at (4 1/3; 6): along 4 to the left, 3 down\n" in words


def test_unequal_sides_have_a_strip_between(tmp_path: Path) -> None:
    """There is no middle line."""
    words = told(tmp_path, draw(Stretch((1, 2))))
    assert "one on each side of the strip between." in words
    assert "middle" not in words


def test_several_stretches_are_numbered(tmp_path: Path) -> None:
    """The plan of a large drill: each of its stretches, one after the other."""
    out = call(tmp_path, "plan", "find-7-3").out
    number = len(planned(tmp_path, "find-7-3")["stretches"])
    assert number > 1
    headings = [line for line in out.splitlines() if line.startswith("Slanted stretch ")]
    assert [line.split(",")[0] for line in headings] == [
        f"Slanted stretch {place} of {number}" for place in range(1, number + 1)
    ]


def test_open_labels_are_found_and_said_so(tmp_path: Path) -> None:
    """Every edge planned has a label then, and the words and JSON say where it is from."""
    assert ". Switch to valleys (labels found for you;" in told(tmp_path, WORKED.unlabelled())
    plan = planned(tmp_path, saved(tmp_path, WORKED.unlabelled()))
    pieces = [piece for move in plan["moves"] for piece in move.get("pieces", ())]
    assert plan["found"] == sorted(edge for piece in pieces for edge in piece["edges"])
    assert {label for row in rows(plan) for label in row["labels"]} == {"M", "V"}
    assert planned(tmp_path, saved(tmp_path, WORKED))["found"] == []


def rows(plan: Any) -> list[Any]:
    """Return all creases of a plan, in order."""
    return [row for each in plan["stretches"] for row in each["outline"] + each["inside"]]


def test_labels_that_are_not_to_be_had_are_left_out(tmp_path: Path) -> None:
    """One wrong and one open: nothing is said of valleys."""
    line = next(e for e, edge in enumerate(WORKED.edges) if edge.role == "inside")
    side = next(e for e, edge in enumerate(WORKED.edges) if edge.role == "outline")
    labels = WORKED.switched([side]).labels()
    broken = WORKED.with_labels("U" if e == line else label for e, label in enumerate(labels))
    assert "valley" not in told(tmp_path, broken)
    plan = planned(tmp_path, saved(tmp_path, broken))
    assert plan["found"] == []
    assert ["U"] in [row["labels"] for row in rows(plan)]


def test_json_leads_from_vertex_to_vertex(tmp_path: Path) -> None:
    """Numbers of the drill; a dot, its step and how often lead to the next dot, exactly."""
    plan = planned(tmp_path, "sinks-3-7")
    keys = {"grid", "stretches", "moves", "switches", "found", "caution", "pieces", "notices"}
    assert set(plan) == keys
    pattern = make(read_code("sinks-3-7")).truth
    for each in (*plan["stretches"], *planned(tmp_path, saved(tmp_path, THIRDS))["stretches"]):
        at = {dot["vertex"]: [Fraction(number) for number in dot["at"]] for dot in each["dots"]}
        for row in (*each["outline"], *each["inside"]):
            start, end = at[row["from"]], at[row["to"]]
            step = row["across"], row["down"]
            assert [s + n * Fraction(row["times"]) for s, n in zip(start, step, strict=True)] == end
    assert {e for row in rows(plan) for e in row["edges"]} == {
        e for e, edge in enumerate(pattern.edges) if edge.role in ("outline", "inside")
    }


def test_json_of_a_stretch(tmp_path: Path) -> None:
    """Fractions are text, corners beyond the paper null, and equal calls give equal text."""
    plan = planned(tmp_path, saved(tmp_path, CUT))
    (stretch,) = plan["stretches"]
    assert (stretch["triangle"], stretch["equal"], stretch["middle"]) == ("3-4-5", None, False)
    assert [corner is None for corner in stretch["corners"]] == [False, True, True, False]
    assert stretch["sides"] == [None, {"across": 1, "down": -2, "times": 2}]
    assert [5, "13/3"] in [dot["at"] for dot in stretch["dots"]]
    path = saved(tmp_path, CUT)
    assert call(tmp_path, "plan", path, "--json") == call(tmp_path, "plan", path, "--json")


def test_vertices_and_edges_have_the_numbers_of_the_file(tmp_path: Path) -> None:
    """With vertices and edges written in reverse order every number is the mirrored one."""
    fold: Any = to_fold(WORKED)
    last = len(WORKED.vertices) - 1
    fold["vertices_coords"] = fold["vertices_coords"][::-1]
    fold["edges_vertices"] = [[last - v for v in pair] for pair in fold["edges_vertices"][::-1]]
    for key in ("edges_assignment", "slantwise:edges_role"):
        fold[key] = fold[key][::-1]
    path = tmp_path / "reversed.fold"
    path.write_text(json.dumps(fold))
    backwards = planned(tmp_path, str(path))
    forwards = planned(tmp_path, saved(tmp_path, WORKED))
    edges = len(WORKED.edges) - 1
    corners = [[each["corners"] for each in plan["stretches"]] for plan in (forwards, backwards)]
    assert [last - corner for corner in corners[0][0]] == corners[1][0]
    assert [[edges - e for e in row["edges"]] for row in rows(forwards)] == [
        row["edges"] for row in rows(backwards)
    ]


def test_a_sheet_without_a_stretch(tmp_path: Path) -> None:
    """A map is told in one sentence, and planned from blank paper all the same."""
    path = saved(tmp_path, map_sheet(3, 3))
    called = call(tmp_path, "plan", path)
    assert (called.status, called.err) == (0, "")
    assert called.out.startswith("There is no slanted stretch on this sheet.\n")
    assert "3 parts by Haga's theorem" in called.out
    plan = planned(tmp_path, path)
    assert plan["stretches"] == []
    assert plan["grid"]["reference"] == {
        "name": "Haga",
        "corner": "1/2",
        "mark": "2/3",
        "error": 0,
        "gain": "8/9",
    }
    assert [move["fold"] for move in plan["moves"]] == ["grid"] * 4


def test_the_width_of_a_square(tmp_path: Path) -> None:
    """35 cm over 8 squares is 43.75 mm; other lengths are refused in one sentence."""
    path = saved(tmp_path, WORKED)
    out = call(tmp_path, "plan", path, "--size", "35cm").out
    assert "A square is 43.8 mm wide; the paper to begin with is 350 mm a side." in out
    for wrong in ("35", "x", "-3cm", "9999cm", "1"):
        called = call(tmp_path, "plan", path, f"--size={wrong}")
        assert (called.status == 0) == (wrong == "35")
        assert wrong == "35" or is_one_sentence(called.err)


def test_angles_are_told_before_labels(tmp_path: Path) -> None:
    """Without one inside line the angles are wrong, so no labels are blamed."""
    line = next(e for e in WORKED.creases if len(WORKED.interior_ends[e]) == 2)
    edges = tuple(edge for e, edge in enumerate(WORKED.edges) if e != line)
    words = told(tmp_path, replace(WORKED, edges=edges))
    assert "the angles do not fold flat, whatever the labels;" in words
    assert "labels of this pattern cannot" not in words
    assert "labels of this pattern cannot fold" in told(tmp_path, WORKED.switched([line]))


def test_without_a_grid_there_is_no_plan(tmp_path: Path) -> None:
    """Points at multiples of the square root of two beside whole ones: one sentence, exit status 2."""
    places = [0, 1, sqrt(2), sqrt(3), sqrt(5), 3]
    below, above = [[x, 0] for x in places], [[x, 3] for x in places]
    points = [*below, *above[::-1]]
    count = len(points)
    border = [[i, (i + 1) % count] for i in range(count)]
    creases = [[i, count - 1 - i] for i in range(1, 5)]
    fold = {
        "file_spec": 1.2,
        "vertices_coords": points,
        "edges_vertices": border + creases,
        "edges_assignment": ["B"] * count + ["M", "V"] * 2,
    }
    path = tmp_path / "odd.fold"
    path.write_text(json.dumps(fold))
    called = call(tmp_path, "plan", str(path))
    assert (called.status, called.out) == (2, "")
    assert called.err.startswith("No square grid fits")
    assert is_one_sentence(called.err)


@pytest.mark.parametrize(
    "sheet",
    ["no-such-file", "labels-9-41", "roofs-3-41", "no\x1b[31mfile", "labels-3-41.2", "", ".", "\udcff"],
)
def test_what_is_neither_file_nor_code(tmp_path: Path, sheet: str) -> None:
    """One sentence without control characters, exit status 2."""
    called = call(tmp_path, "plan", sheet)
    assert (called.status, called.out) == (2, "")
    assert is_one_sentence(called.err)


@pytest.mark.parametrize("content", [b"", b"[]", b"\x00\x1b[31m", b'{"file_spec": 1.2}', b"[" * 100_000])
def test_what_is_no_crease_pattern(tmp_path: Path, content: bytes) -> None:
    """One sentence, exit status 2."""
    path = tmp_path / "odd.fold"
    path.write_bytes(content)
    called = call(tmp_path, "plan", str(path))
    assert (called.status, called.out) == (2, "")
    assert is_one_sentence(called.err)


def test_nothing_from_the_file_reaches_the_screen_raw(tmp_path: Path) -> None:
    """Titles and strange keys of a file are not repeated; every line can be printed."""
    fold = {**to_fold(WORKED), "file_title": "\x1b[31mred", "file_author": "[red]\r", "odd\x07": "\u202e"}
    path = tmp_path / "sheet.fold"
    path.write_text(json.dumps(fold))
    out = call(tmp_path, "plan", str(path)).out
    assert all(part in out for part in (BEFORE, STRETCH, AFTER))
    assert all(line.isprintable() for line in out.splitlines())


def test_help_names_the_command(tmp_path: Path) -> None:
    """In the list of commands, and with examples of its own."""
    assert "\n    plan " in call(tmp_path, "--help").out
    out = call(tmp_path, "plan", "--help").out
    assert "slantwise plan sinks-3-7" in out
    assert max(map(len, out.splitlines())) <= 80


def test_labels_that_cannot_fold_are_told_before_the_plan(tmp_path: Path) -> None:
    """With one label of the worked example switched; whoever creases by it spoils the paper."""
    path = tmp_path / "wrong.fold"
    path.write_text(json.dumps(to_fold(WORKED.switched([WORKED.creases[-1]]))))
    status, out, _ = call(tmp_path, "plan", str(path))
    assert status == 0
    assert out.startswith("The labels of this pattern cannot fold; slantwise check says")
    notices = json.loads(call(tmp_path, "plan", str(path), "--json").out)["notices"]
    assert any("cannot fold" in notice for notice in notices)
