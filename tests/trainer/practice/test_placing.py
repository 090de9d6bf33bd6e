"""The drills that find a person's level: how far they go, and what they find."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from drills.questions import KINDS
from tests.trainer.practice.making import Hands, played, store
from trainer.practice.placing import HIGHEST, MOST, kinds_placed, most_drills, next_level, placing

ANY_KIND = replace(next(iter(KINDS.values())), lowest=1, highest=7)
GOES = [
    ("right right right", [2, 4, 5]),
    ("miss miss", [2, 1]),
    ("miss right right right", [2, 1, 2, 3]),
    ("right miss miss", [2, 4, 3]),
    ("right miss right right", [2, 4, 3, 4]),
    ("right right miss miss", [2, 4, 5, 5]),
    ("miss right miss", [2, 1, 2]),
]


@pytest.mark.parametrize(("answers", "levels"), GOES)
def test_a_kind_goes_up_by_two_until_a_miss_and_then_by_one(answers: str, levels: list[int]) -> None:
    """It is over after four drills, two misses or the highest level right, and not before."""
    results = [word == "right" for word in answers.split()]
    assert [next_level(results[:number], ANY_KIND) for number in range(len(results))] == levels
    assert next_level(results, ANY_KIND) is None


def test_a_kind_is_asked_only_at_levels_it_has() -> None:
    """Whatever the answers are, and its levels."""
    for lowest, highest in ((1, 2), (2, 8), (3, 3), (6, 7)):
        row = replace(ANY_KIND, lowest=lowest, highest=highest)
        for results in product((True, False), repeat=MOST):
            asked = [next_level(results[:number], row) for number in range(MOST + 1)]
            assert asked[0] == row.nearest_level(2)
            assert asked[-1] is None
            assert all(level in row.levels for level in asked if level)


@pytest.mark.parametrize(
    ("is_right", "drills", "found"),
    [
        (lambda level: True, 9, HIGHEST),
        (lambda level: level <= 4, 12, 4),
        (lambda level: level <= 3, 12, 3),
        (lambda level: level <= 1, 9, 1),
        (lambda level: False, 6, 1),
    ],
)
def test_what_is_read_for_certain_is_the_level_found(
    tmp_path: Path, is_right: Callable[[int], bool], drills: int, found: int
) -> None:
    """Who reads up to a level and no further is placed at it, a good reader at once at the highest."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = placing(kept, hands.clock)
        asked = played(session, hands, 200, lambda _, drill: is_right(drill.level))
        assert len(asked) == drills <= most_drills()
        assert {drill.kind for drill in asked} == set(kinds_placed())
        assert all(drill.form == KINDS[drill.kind].first_form for drill in asked)
        assert {kept.state.level(kind) for kind in kinds_placed()} == {found}
        assert session.next_drill() is None
        assert {attempt.purpose for attempt in kept.attempts} == {"placing"}


def test_kinds_take_turns(tmp_path: Path) -> None:
    """One that is sure is asked no more while the others go on."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        asked = played(placing(kept, hands.clock), hands, 200, lambda _, drill: drill.kind != "sinks")
        assert [drill.kind for drill in asked] == [
            *("steps", "sinks", "labels") * 2,
            *("steps", "labels"),
        ]
        assert kept.state.level("find") == KINDS["find"].lowest
