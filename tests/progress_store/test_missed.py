"""Which misses are open, by hand and by both ways that a store takes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from progress_store import Attempt
from tests.progress_store.making import attempt, store


def miss(number: int, **changes: Any) -> Attempt:
    """Return a miss."""
    return attempt(number, right=False, misses=1, **changes)


CASES: dict[str, tuple[list[Attempt], list[int]]] = {
    "nothing": ([], []),
    "one": ([attempt(0), miss(1)], [1]),
    "one right after it": ([miss(0), attempt(1)], [0]),
    "two right after it": ([miss(0), attempt(1), attempt(2)], []),
    "right ones before it": ([attempt(0), attempt(1), miss(2)], [2]),
    "another skill": ([miss(0, skill="steps 1:3"), attempt(1), attempt(2)], [0]),
    "missed once more between": ([miss(0), attempt(1), miss(2), attempt(3)], [2]),
    "with help": ([miss(0), attempt(1, helped=True), attempt(2)], [0]),
    "in a yardstick": ([miss(0, purpose="yardstick"), attempt(1, purpose="yardstick"), attempt(2)], [0]),
    "half worked": ([miss(0, purpose="walk"), attempt(1)], []),
    "the latest first": ([miss(0), miss(1, skill="steps 1:3"), miss(2)], [2, 1, 0]),
}


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("writable", [True, False])
def test_a_miss_is_open_until_two_of_its_skill_were_right(case: str, writable: bool, tmp_path: Path) -> None:
    """By hand; a reader has no ledger and goes through the attempts themselves."""
    log, expected = CASES[case]
    with store(tmp_path) as made:
        for each in log:
            made.keep(each)
    with store(tmp_path, writable=writable) as opened:
        assert opened.missed(50) == tuple(log[place] for place in expected)
        assert opened.missed(1) == tuple(log[place] for place in expected[:1])
