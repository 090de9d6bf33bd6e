"""Two minutes before folding: only what is known, rising to a level, a triangle or a pattern."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice
from pathlib import Path

import pytest

from drills.pattern import Paper, build
from drills.questions import KINDS, read_code
from drills.structures import TRIANGLES, Stretch, draw
from tests.drills.sheets import miura
from tests.trainer.practice.making import Hands, answer, played, store
from trainer.practice.drill_source import codes_with, has_triangle, levels_with
from trainer.practice.placing import placing
from trainer.practice.rounds import Target, target_of, warm_up


@pytest.mark.parametrize("level", [2, 4, 6, 7])
def test_a_warm_up_rises_to_a_chosen_level(tmp_path: Path, level: int) -> None:
    """It begins at the lowest level of each kind and ends at the chosen one, never falling within a kind."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands)
        asked = played(warm_up(kept, hands.clock, Target(level)), hands, 10)
    levels = [drill.level for drill in asked]
    assert len(asked) == 12
    assert levels[0] == 1
    assert max(levels) == level
    for kind in KINDS:
        of_kind = [drill.level for drill in asked if drill.kind == kind]
        assert of_kind == sorted(of_kind)


@pytest.mark.parametrize("triangle", [triangle.name for triangle in TRIANGLES[1:]])
def test_its_second_half_shows_the_triangle_that_will_be_folded(tmp_path: Path, triangle: str) -> None:
    """From the middle of the time on every sheet is a lone stretch of it."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands)
        session = warm_up(kept, hands.clock, Target(None, triangle))
        shown = []
        while (drill := session.next_drill()) is not None:
            shown.append(has_triangle(read_code(drill.code), triangle))
            answer(session, hands, drill, seconds=10)
        assert (
            session.why == f"You met this because you will fold {triangle}; such a sheet may be new to you."
        )
    assert not any(shown[:6])
    assert all(shown[6:])


@pytest.mark.parametrize("triangle", [triangle.name for triangle in TRIANGLES])
def test_codes_of_a_triangle_are_of_levels_that_have_it(triangle: str) -> None:
    """Each level named has codes of every kind with a lone stretch of it, but for Find."""
    for level in levels_with(triangle):
        for kind in ("steps", "sinks", "labels"):
            codes = list(islice(codes_with(triangle, kind, KINDS[kind].first_form, level, 40), 3))
            assert all(has_triangle(code, triangle) and code.level == level for code in codes)
            assert [code.seed for code in codes] == sorted({code.seed for code in codes})


@pytest.mark.parametrize(
    ("stretch", "target"),
    [
        (Stretch((1, 1)), Target(2)),
        (Stretch((2, 2), facing=3), Target(3)),
        (Stretch((3, 1)), Target(4)),
        (Stretch((1, 1), triangle=TRIANGLES[1]), Target(5, "5-12-13")),
        (Stretch((1, 1), triangle=TRIANGLES[4]), Target(7, "20-21-29")),
    ],
)
def test_a_pattern_says_what_it_asks_for(stretch: Stretch, target: Target) -> None:
    """By hand: units 1, 2, unequal, and other triangles."""
    assert target_of(draw(stretch)) == target


def test_a_pattern_without_a_slanted_stretch_is_refused() -> None:
    """A bare sheet and the Miura pattern have none."""
    for pattern in (build((), Paper(0, 0, 6, 6)), miura(4, 4)):
        with pytest.raises(ValueError, match="no slanted stretch"):
            target_of(pattern)


def test_somebody_new_is_not_told_that_it_is_known(tmp_path: Path) -> None:
    """With an empty record the simplest drill comes, and is called that."""
    hands = Hands()
    with store(tmp_path, hands) as kept:
        session = warm_up(kept, hands.clock)
        assert session.next_drill() is not None
        assert "simplest" in session.why


def test_a_warm_up_keeps_to_the_levels_of_a_kind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Those that end below what will be folded end at their highest one."""
    for kind, row in KINDS.items():
        monkeypatch.setitem(KINDS, kind, replace(row, highest=row.lowest + 1))
    hands = Hands()
    with store(tmp_path, hands) as kept:
        played(placing(kept, hands.clock), hands)
        asked = played(warm_up(kept, hands.clock, Target(7)), hands, 20)
        triangle = warm_up(kept, hands.clock, Target(7, TRIANGLES[-1].name))
        hands.wait(100)
        assert triangle.next_drill() is not None
    assert max(drill.level for drill in asked) == max(row.highest for row in KINDS.values() if row.in_placing)
