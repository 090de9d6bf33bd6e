"""What each level contains, and the table of it in the README."""

from __future__ import annotations

import os
from pathlib import Path

from drills.questions import top_level
from tests.drills.questions.contents import HEADINGS, contents

README = Path(__file__).parents[3] / "README.md"
LEVELS = range(1, top_level() + 1)


def rows() -> list[str]:
    """Return the rows of the table in Markdown."""
    cells = [HEADINGS, ("---",) * len(HEADINGS), *map(contents, LEVELS)]
    return ["|".join(["", *(f" {cell} " for cell in row), ""]).replace(" --- ", "---") for row in cells]


def test_the_readme_has_the_table_that_the_code_makes() -> None:
    """Written anew with SLANTWISE_REWRITE_GOLDENS=1, where a level is meant to change."""
    text = README.read_text(encoding="utf-8")
    start = text.index("| Level |")
    end = text.index("\n\n", start)
    if os.environ.get("SLANTWISE_REWRITE_GOLDENS"):
        README.write_text(text[:start] + "\n".join(rows()) + text[end:], encoding="utf-8")
        text = README.read_text(encoding="utf-8")
        end = text.index("\n\n", start)
    assert text[start:end].split("\n") == rows()


def test_each_level_adds_what_it_says() -> None:
    """Small sheets up to level 3, other triangles from 5, several structures at 6, the largest at 8."""
    seen = {level: contents(level) for level in LEVELS}
    assert seen[1].structures == "1"
    assert seen[1].sheets == "8 x 8"
    assert all(seen[level].sheets == "14 x 12" for level in (2, 3))
    assert seen[4].sheets == "16 x 16"
    assert [level for level in LEVELS if "unequal" in seen[level].sides] == [1, 2, 4, 5, 7]
    assert [level for level in LEVELS if seen[level].edge == "cuts in"] == [4, 5, 7]
    assert [seen[level].triangles for level in LEVELS] == [
        *["3-4-5"] * 4,
        "3-4-5, 5-12-13, 8-15-17",
        "3-4-5",
        "all",
        "3-4-5, 5-12-13, 8-15-17",
    ]
    assert (seen[5].sheets, seen[6].sheets, seen[8].sheets) == ("18 x 16", "20 x 20", "32 x 32")
    assert all(seen[level].structures.startswith("bases of up to 4 stretches") for level in (6, 8))
    assert seen[7].structures.startswith("1; bases")
    assert [seen[level].wrong for level in LEVELS] == ["1", "1", "up to 2", *["up to 3"] * 5]
