from __future__ import annotations

from datetime import date

import pytest

from progress_store import replay, yardsticks
from tests.trainer.practice.making import RULES, attempt, first_skills, four_kinds
from trainer.text.record import yardstick_in_text

pytestmark = pytest.mark.usefixtures(four_kinds.__name__)

DAY = date(2026, 3, 2)


def test_each_drill_is_told_by_kind() -> None:
    """By hand: two of each kind, one of them missed, one not timed; its code is there to be looked at."""
    log = [
        attempt(skill, DAY, number, purpose="yardstick", code=f"drill {number}")
        for number, skill in enumerate(first_skills() * 2)
    ]
    log[4] = attempt(first_skills()[0], DAY, 4, purpose="yardstick", code="drill 4", right=False)
    log[7] = attempt(first_skills()[3], DAY, 7, purpose="yardstick", code="drill 7", milliseconds=None)
    (one,) = yardsticks(replay(log, RULES)[1])
    assert list(yardstick_in_text(one)) == [
        "7 of 8 right, likely 53 to 98 %.",
        "16 drills cannot show a change under about 25 points.",
        "",
        "Across and down: 1 of 2 right",
        "  right 4.0 s, missed 4.0 s",
        "Inside lines: 2 of 2 right",
        "  right 4.0 s, right 4.0 s",
        "Mountain or valley: 2 of 2 right",
        "  right 4.0 s, right 4.0 s",
        "Find: 2 of 2 right",
        "  right 4.0 s, right not timed",
        "",
        "1 drill missed, to be looked at with m, What I missed.",
    ]


def test_a_kind_of_a_later_version_keeps_its_name() -> None:
    """In a log that was merged."""
    later = attempt(first_skills()[0], DAY, kind="later", purpose="yardstick")
    (one,) = yardsticks(replay([later], RULES)[1])
    assert "later: 1 of 1 right" in list(yardstick_in_text(one))
