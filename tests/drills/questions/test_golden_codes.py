"""Golden drills: what a code gives today it gives for ever.

``SLANTWISE_REWRITE_GOLDENS=1 pytest tests/drills/questions/test_golden_codes.py`` writes down the drills
of forms, levels and versions that are new. It never changes one that is written down: a generator that
is to draw differently gets a further version with a named feature.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Mapping
from hashlib import sha256
from pathlib import Path

import pytest

from drills.questions import KINDS, Code, Marks, Recipe, checked, make, read_code, spec
from drills.structures import Stretch
from tests.drills.questions.codes import PLACES

GOLDEN = Path(__file__).with_name("golden_codes.json")
SEEDS = (2, 40)


@pytest.mark.parametrize("seed", [SEEDS[0], pytest.param(SEEDS[1], marks=pytest.mark.long)])
def test_a_code_gives_the_same_drill_for_ever(seed: int) -> None:
    """The drill of every code that is written down is the one it was then; the long run looks at the rest."""
    if os.environ.get("SLANTWISE_REWRITE_GOLDENS"):
        add_what_is_new(GOLDEN, newcomers(written(GOLDEN)))
    lines = written(GOLDEN).items()
    is_first = seed == SEEDS[0]
    looked_at = {code: line for code, line in lines if (read_code(code).seed == SEEDS[0]) is is_first}
    assert looked_at
    assert changed(looked_at) == []


def test_every_form_level_and_version_is_written_down() -> None:
    """None can change unseen."""
    assert list(newcomers(written(GOLDEN))) == []


def test_codes_are_added_beside_those_that_are_written_down(tmp_path: Path) -> None:
    """The line of a drill that is there already stays as it is."""
    golden = a_copy(tmp_path, {"steps-1-1": digest("steps-1-1")})
    add_what_is_new(golden, ["steps-1-2", "steps-1-1"])
    assert written(golden) == {code: digest(code) for code in ("steps-1-1", "steps-1-2")}


def test_a_drill_that_is_written_down_is_never_written_anew(tmp_path: Path) -> None:
    """Where one has changed, nothing is written, and the codes are named."""
    golden = a_copy(tmp_path, {"steps-1-1": digest("steps-1-1"), "steps-1-2": "what it was", "find-2-1": ""})
    before = golden.read_text(encoding="utf-8")
    with pytest.raises(AssertionError, match="steps-1-2, find-2-1"):
        add_what_is_new(golden, ["steps-1-3"])
    assert golden.read_text(encoding="utf-8") == before


def written(golden: Path) -> Mapping[str, str]:
    """Return the digest of each code that is written down."""
    lines: dict[str, str] = json.loads(golden.read_text(encoding="utf-8"))
    return lines


def a_copy(folder: Path, lines: Mapping[str, str]) -> Path:
    """Return a file in which these digests are written down."""
    path = folder / GOLDEN.name
    path.write_text(json.dumps(lines, indent=1) + "\n", encoding="utf-8")
    return path


def changed(lines: Mapping[str, str]) -> list[str]:
    """Return the codes whose drill is no longer the one that is written down."""
    return [code for code, line in lines.items() if digest(code) != line]


def newcomers(lines: Mapping[str, str]) -> Iterator[str]:
    """Yield two codes of each form, level and version of which none is written down."""
    known = {read_code(code)._replace(seed=0) for code in lines}
    for kind, form, level in PLACES:
        for version in range(1, len(KINDS[kind].features(form, level)) + 1):
            codes = [checked(Code(kind, level, seed, version, form)) for seed in SEEDS]
            if codes[0]._replace(seed=0) not in known:
                yield from map(str, codes)


def add_what_is_new(golden: Path, codes: Iterator[str] | list[str]) -> None:
    """Write down codes that are not there yet; AssertionError where one that is there has changed."""
    lines = written(golden)
    if other := changed(lines):
        raise AssertionError(f"These codes are written down and give another drill now: {', '.join(other)}")
    found = {code: digest(code) for code in codes if code not in lines}
    golden.write_text(json.dumps({**lines, **found}, indent=1) + "\n", encoding="utf-8")


def digest(code: str) -> str:
    """Return the SHA-256 of a drill's line of JSON."""
    return sha256(make(read_code(code)).to_line().encode()).hexdigest()


def test_a_later_version_changes_only_what_it_says() -> None:
    """Where inside lines are marked at level 4, the second version now and then shows 45-degree roofs."""
    codes = [Code("sinks", 4, seed, version=2) for seed in range(200)]
    roofs = {code: sheet for code in codes if not isinstance(sheet := spec(code).sheet, Stretch)}
    assert len(roofs) >= 5
    for code, sheet in roofs.items():
        assert isinstance(sheet, Recipe)
        assert sheet.allowed == ("roof",)
        assert make(code).question.answer == Marks(frozenset())
