"""Golden drills: what a code gives today it gives for ever.

Only when a new version of a generator is meant to replace one that nobody has used yet, run
``SLANTWISE_REWRITE_GOLDENS=1 pytest tests/drills/questions/test_golden_codes.py`` and read the difference.
"""

from __future__ import annotations

import json
import os
from hashlib import sha256
from pathlib import Path

from drills.questions.drill_json import drill_line
from drills.questions.kinds import make, read_code
from tests.drills.questions.codes import FORMS, LEVELS, codes

GOLDEN = Path(__file__).with_name("golden_codes.json")
SEEDS = (1, 41, 10**9)
CODES = [
    str(code)
    for place, (kind, form) in enumerate(FORMS)
    for level in LEVELS
    for code in codes(kind, form, level, SEEDS[: 2 + (place + level) % 2])
]


def test_a_code_gives_the_same_drill_for_ever() -> None:
    """The lines of 60 codes, over all kinds, forms and levels, are those written down, to the character."""
    found = {code: digest(code) for code in CODES}
    if os.environ.get("SLANTWISE_REWRITE_GOLDENS"):
        GOLDEN.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
    assert found == json.loads(GOLDEN.read_text(encoding="utf-8"))
    assert len(found) == 60


def digest(code: str) -> str:
    """Return the SHA-256 of a drill's line of JSON."""
    return sha256(drill_line(make(read_code(code))).encode()).hexdigest()
