"""`slantwise print`: drawn lengths, tiles, bare sheets, steps; the SVG is parsed, the PDF rendered."""

from __future__ import annotations

import json
import sys
from collections import Counter
from itertools import groupby
from math import dist
from pathlib import Path
from xml.etree import ElementTree

import pytest

from drills.fold_file import to_fold
from drills.pattern import CreasePattern
from drills.structures import Stretch, draw
from tests.drills.sheets import map_sheet
from tests.trainer.cli.calling import call, is_one_sentence

SVG = "{http://www.w3.org/2000/svg}"
STRETCH = draw(Stretch((2, 2), pleats=0))
At = tuple[float, float]
NEAR = 0.1
"""Millimetres by which a drawn length may be off."""


def printed(folder: Path, pattern: CreasePattern, *options: str, name: str = "out.svg") -> list[Path]:
    """Print a pattern and return the files, which must be all that is written."""
    sheet = folder / "mine.fold"
    sheet.write_text(json.dumps(to_fold(pattern)))
    status, out, err = call(folder, "print", str(sheet), "-o", str(folder / name), *options, seconds_apart=0)
    assert (status, err) == (0, "")
    paths = [Path(line.removeprefix("Written: ")) for line in out.splitlines()]
    assert all(path.exists() for path in paths)
    return paths


def lines(path: Path, width: str = "") -> list[tuple[At, At]]:
    """Return the lines of a page, those of one width if it is given."""
    found = []
    for line in ElementTree.fromstring(path.read_text(encoding="utf-8")).iter(f"{SVG}polyline"):
        if width in ("", line.attrib["stroke-width"]):
            start, *_, end = (pair.split(",") for pair in line.attrib["points"].split())
            found.append(((float(start[0]), float(start[1])), (float(end[0]), float(end[1]))))
    return found


def words(path: Path) -> list[str]:
    """Return all words on a page."""
    root = ElementTree.fromstring(path.read_text(encoding="utf-8"))
    return [each.text or "" for each in root.iter(f"{SVG}text")]


MOUNTAIN, VALLEY, EDGE = "0.4", "0.3", "0.55"
LEGEND = 12.0


def lengths(path: Path, width: str) -> list[float]:
    """Return the lengths of lines of one width but for that in the legend, sorted."""
    found = sorted(dist(*line) for line in lines(path, width))
    found.remove(LEGEND)
    return found


def test_what_is_drawn_has_its_length(tmp_path: Path) -> None:
    """A sheet of 8 x 6 squares, 160 mm wide: each square is 20 mm, each crease as long as its squares."""
    (path,) = printed(tmp_path, STRETCH, "--size", "160mm")
    for label, width in (("M", MOUNTAIN), ("V", VALLEY), ("B", EDGE)):
        wanted = sorted(
            20 * dist(*STRETCH.ends(e)) for e, each in enumerate(STRETCH.edges) if each.label == label
        )
        assert lengths(path, width) == pytest.approx(wanted, abs=NEAR)
    root = ElementTree.fromstring(path.read_text(encoding="utf-8"))
    sizes = [root.attrib["width"].removesuffix("mm"), root.attrib["height"].removesuffix("mm")]
    assert root.attrib["viewBox"].split()[2:] == sizes == ["297", "210"]
    assert "One square is 20.00 mm." in " ".join(words(path))


def test_mountains_and_valleys_differ_in_their_dashes(tmp_path: Path) -> None:
    """Valley dashed, mountain dashed with dots (A. Yoshizawa 1954, S. Randlett 1961); both are black."""
    (path,) = printed(tmp_path, STRETCH)
    strokes = {}
    for line in ElementTree.fromstring(path.read_text(encoding="utf-8")).iter(f"{SVG}polyline"):
        strokes[line.attrib["stroke-width"]] = (
            line.attrib.get("stroke-dasharray", ""),
            line.attrib["stroke"],
        )
    mountain, valley = strokes[MOUNTAIN], strokes[VALLEY]
    assert (len(mountain[0].split()), len(valley[0].split())) == (4, 2)
    assert mountain[1] == valley[1] == "#000000"


def test_the_grid_is_numbered_along_all_edges(tmp_path: Path) -> None:
    """0 to 8 twice and 0 to 6 twice, the name and the caution once."""
    said = Counter(words(printed(tmp_path, STRETCH)[0]))
    assert [said[str(number)] for number in range(10)] == [4] * 7 + [2, 2, 0]
    assert said["Name"] == 1
    assert sum("away from the hand" in line for line in said.elements()) == 1


def test_tiles_meet(tmp_path: Path) -> None:
    """The parts of each line, laid side by side, are the whole line to a tenth of a millimetre."""
    paths = printed(
        tmp_path,
        map_sheet(3, 3).with_labels("B" if e.label == "B" else "V" for e in map_sheet(3, 3).edges),
        "--size",
        "420mm",
    )
    assert len(paths) == 6
    inside = sum(length for path in paths for length in lengths(path, VALLEY))
    assert inside == pytest.approx(4 * 420, abs=NEAR)
    edge = sum(length for path in paths for length in lengths(path, EDGE))
    assert edge == pytest.approx(4 * 420, abs=NEAR)
    # two tiles of a row: where lines leave the one at its right they come into the other at its left
    first, second = (lines(path, VALLEY) for path in paths[:2])
    right, left = max(x for line in first for x, _ in line), min(x for line in second for x, _ in line)
    leaving = sorted(y for line in first for x, y in line if x == right)
    coming = sorted(y for line in second for x, y in line if x == left and dist(*line) != LEGEND)
    assert leaving
    assert leaving == pytest.approx(coming, abs=NEAR)


@pytest.mark.parametrize(
    ("show", "spots", "outline"), [("grid", 0, 0), ("dots", 8, 0), ("outline", 0, 8), ("all", 0, 0)]
)
def test_bare_sheets_have_no_more_than_they_say(tmp_path: Path, show: str, spots: int, outline: int) -> None:
    """Four corners and four turning points; the outline in eight pieces (the worked example, k = 2)."""
    (path,) = printed(tmp_path, STRETCH, "--show", show, "--size", "100mm", "--paper", "letter")
    root = ElementTree.fromstring(path.read_text(encoding="utf-8"))
    assert len(list(root.iter(f"{SVG}circle"))) == spots
    if show != "all":
        assert len(lines(path, MOUNTAIN)) == outline
        assert lines(path, VALLEY) == []


def test_the_plan_has_a_drawing_for_each_step(tmp_path: Path) -> None:
    """Five of them and the folded shape, on one page."""
    (path,) = printed(tmp_path, STRETCH, "--show", "plan")
    steps = [line for line in words(path) if line[:2] in ("1.", "2.", "3.", "4.", "5.")]
    assert len(steps) == 5
    assert "Folded, the darker the more layers" in words(path)
    assert len(list(ElementTree.fromstring(path.read_text(encoding="utf-8")).iter(f"{SVG}polygon"))) > 10


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("out.png", ()),
        ("out.svg", ("--size", "1mm")),
        ("out.svg", ("--size", "huge")),
        ("out.svg", ("--show", "plan")),
    ],
)
def test_what_cannot_be_printed_is_refused_in_a_sentence(
    tmp_path: Path, name: str, options: tuple[str, ...]
) -> None:
    """Another kind of file, sizes that are none, a plan of a sheet with nothing slanted."""
    sheet = tmp_path / "mine.fold"
    sheet.write_text(json.dumps(to_fold(map_sheet(2, 2))))
    status, out, err = call(tmp_path, "print", str(sheet), "-o", str(tmp_path / name), *options)
    assert (status, out) == (2, "")
    assert is_one_sentence(err)
    assert not (tmp_path / name).exists()


def test_without_its_library_pdf_is_refused_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It says what to install."""
    monkeypatch.setitem(sys.modules, "reportlab.pdfgen.canvas", None)
    status, _, err = call(tmp_path, "print", "sinks-3-7", "-o", str(tmp_path / "out.pdf"))
    assert status == 2
    assert is_one_sentence(err)
    assert 'pip install "slantwise[pdf]"' in err


def test_pages_of_a_pdf_are_those_of_the_sheets(tmp_path: Path) -> None:
    """Of two sheets two pages of A4, the same bytes when it is written anew."""
    pdfium = pytest.importorskip("pypdfium2")
    out = tmp_path / "out.pdf"
    written = []
    for _ in range(2):
        assert call(tmp_path, "print", "sinks-3-7", "labels-2-1", "-o", str(out), seconds_apart=0).status == 0
        written.append(out.read_bytes())
    assert written[0] == written[1]
    document = pdfium.PdfDocument(out)
    assert len(document) == 2
    assert sorted(document[0].get_size()) == pytest.approx([595.28, 841.89], abs=0.1)


@pytest.mark.long
def test_the_pdf_is_to_scale_when_it_is_rendered(tmp_path: Path) -> None:
    """The sheet's edge, measured in the picture: 160 by 120 mm to a tenth of a millimetre and a dot."""
    pdfium = pytest.importorskip("pypdfium2")
    (path,) = printed(tmp_path, map_sheet(3, 4), "--size", "160mm", name="out.pdf")
    dots_a_mm = 20
    page = pdfium.PdfDocument(path)[0]
    dark = page.render(scale=dots_a_mm * 25.4 / 72, grayscale=True).to_numpy() < 60
    wide, high = (
        max(
            len(list(run))
            for row in way
            if row.sum() > 1000
            for is_dark, run in groupby(row.tolist())
            if is_dark
        )
        / dots_a_mm
        for way in (dark, dark.T)
    )
    # the line is 0.55 mm thick, and half of the upright ones lies beyond each of its ends
    assert wide == pytest.approx(160 + 0.55, abs=NEAR + 1 / dots_a_mm)
    assert high == pytest.approx(120 + 0.55, abs=NEAR + 1 / dots_a_mm)


@pytest.mark.parametrize("words", [("fold", "{}", "-o", "{}"), ("print", "{}", "-o", "{}")])
def test_what_is_read_is_not_written_over(tmp_path: Path, words: tuple[str, ...]) -> None:
    """A sheet whose file has the name of the drawing to be made keeps its bytes."""
    sheet = tmp_path / "mine.svg"
    sheet.write_text(json.dumps(to_fold(STRETCH)))
    before = sheet.read_bytes()
    status, _, err = call(tmp_path, *(word.format(sheet) for word in words), seconds_apart=0)
    assert status == 2
    assert is_one_sentence(err)
    assert "write over" in err
    assert sheet.read_bytes() == before
