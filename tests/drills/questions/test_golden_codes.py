"""Golden drills: what a code gives today it gives for ever.

Only when a new version of a generator is meant to replace one that nobody has used yet, run
``SLANTWISE_REWRITE_GOLDENS=1 pytest tests/drills/questions/test_golden_codes.py`` and read the difference.
"""

from __future__ import annotations

import json
import os
from hashlib import sha256
from pathlib import Path

from drills.questions import KINDS, Code, Marks, Recipe, checked, make, read_code, spec
from drills.structures import Stretch
from tests.drills.questions.codes import FORMS, SMALL, SMALL_FORMS, SMALL_PLACES

GOLDEN = Path(__file__).with_name("golden_codes.json")
SEEDS = (1, 41, 10**9)
CODES = [
    str(checked(Code(kind, level, seed, form=form)))
    for place, (kind, form) in enumerate(SMALL_FORMS)
    for level in SMALL
    for seed in SEEDS[: 2 + (place + level) % 2]
]
LATER = [
    str(checked(Code(kind, level, seed, form=form)))
    for kind, form in FORMS
    for level in KINDS[kind].levels
    for seed in (2, 40)
    if (kind, form, level) not in SMALL_PLACES
]
"""The levels from 5 on and Find, which came later than the first sixty."""

SECOND = ["sinks-4-1.2", "sinks-4-3.2", "sinks-4-9.2", "sinks-4-41.2"]
"""The second way of drawing the inside lines of level 4; the middle two show roofs."""


def test_a_code_gives_the_same_drill_for_ever() -> None:
    """The lines of 60 codes of the first four levels, and of later ones, are those written down."""
    found = {code: digest(code) for code in [*CODES, *LATER, *SECOND]}
    if os.environ.get("SLANTWISE_REWRITE_GOLDENS"):
        GOLDEN.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
    assert found == json.loads(GOLDEN.read_text(encoding="utf-8"))
    assert (len(CODES), len(LATER), len(SECOND)) == (60, 48, 4)


def test_a_later_way_changes_only_what_it_says() -> None:
    """Of two hundred codes in the second way some show 45-degree roofs, and no inside line."""
    codes = [Code("sinks", 4, seed, version=2) for seed in range(200)]
    roofs = {code: sheet for code in codes if not isinstance(sheet := spec(code).sheet, Stretch)}
    assert len(roofs) >= 5
    for code, sheet in roofs.items():
        assert isinstance(sheet, Recipe)
        assert sheet.allowed == ("roof",)
        assert make(code).question.answer == Marks(frozenset())


def digest(code: str) -> str:
    """Return the SHA-256 of a drill's line of JSON."""
    return sha256(make(read_code(code)).to_line().encode()).hexdigest()
