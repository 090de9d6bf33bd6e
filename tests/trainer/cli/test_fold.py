"""`slantwise fold`: the folded shape in text and as SVG."""

from __future__ import annotations

import json
from itertools import combinations
from math import dist
from pathlib import Path
from xml.etree import ElementTree

import pytest

from drills.fold_file import to_fold
from drills.pattern import CreasePattern
from drills.structures import Stretch, draw
from tests.drills.sheets import star, ways
from tests.trainer.cli.calling import call, is_one_sentence

STRETCH = draw(Stretch((2, 2), pleats=0))
SVG = "{http://www.w3.org/2000/svg}"


def saved(folder: Path, pattern: CreasePattern) -> str:
    """Write the pattern as a file and return its path."""
    path = folder / "mine.fold"
    path.write_text(json.dumps(to_fold(pattern)))
    return str(path)


def test_it_is_told_from_either_side(tmp_path: Path) -> None:
    """Twelve layers where it is thickest (own count), drawn twice, in lines that fit."""
    status, out, err = call(tmp_path, "fold", saved(tmp_path, STRETCH), seconds_apart=0)
    assert (status, err) == (0, "")
    assert "hatched: more, up to 12." in out
    assert out.index("Seen from above.") < out.index("Seen from below, turned over left to right.")
    assert max(map(len, out.splitlines())) <= 80


def test_the_drawing_shows_both_sides_at_one_scale(tmp_path: Path) -> None:
    """The far corners are its furthest points; both views have them at the same distance."""
    out = tmp_path / "out.svg"
    assert call(tmp_path, "fold", saved(tmp_path, STRETCH), "-o", str(out), seconds_apart=0).status == 0
    root = ElementTree.fromstring(out.read_text(encoding="utf-8"))
    middle = float(root.attrib["viewBox"].split()[2]) / 2
    points = {
        (float(x), float(y))
        for line in root.iter(f"{SVG}polyline")
        for x, y in (pair.split(",") for pair in line.attrib["points"].split())
    }
    first, second = ({p for p in points if (p[0] < middle) == is_left} for is_left in (True, False))
    lengths = [max(dist(*pair) for pair in combinations(side, 2)) for side in (first, second)]
    assert lengths[0] == pytest.approx(lengths[1], abs=0.01)
    assert len({each.attrib["fill"] for each in root.iter(f"{SVG}polygon")}) > 3


@pytest.mark.parametrize(
    "sheet", [star(ways((1, 0), (1, 1), (-1, 0), (0, -1))), None], ids=["torn", "a name that is no SVG"]
)
def test_what_cannot_be_drawn_is_refused_in_a_sentence(tmp_path: Path, sheet: CreasePattern | None) -> None:
    """Nothing is written then."""
    out = tmp_path / ("out.svg" if sheet else "out.png")
    status, said, err = call(tmp_path, "fold", saved(tmp_path, sheet or STRETCH), "-o", str(out))
    assert (status, said) == (2, "")
    assert is_one_sentence(err)
    assert not out.exists()
