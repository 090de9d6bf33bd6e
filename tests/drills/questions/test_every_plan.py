"""Whatever the plan of a labels drill can draw, the drill can be made."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drills.exact.chance import Chance
from drills.questions import labels
from drills.questions.code import Code
from drills.questions.spec import Spec
from tests.drills.questions.codes import LEVELS
from tests.drills.questions.plans import outcomes
from tests.drills.questions.test_fair_cuts import has_fair_set

MOST_DRAWS = 11
"""Whether and what went wrong, six draws for a stretch, whether it is cut, and two for the cut."""


def test_every_draw_is_tried() -> None:
    """Two draws below 2 and 3 have six outcomes, and a third one would be too many."""

    def two(chance: Chance) -> tuple[int, int]:
        return chance.below(2), chance.below(3)

    def endless(chance: Chance) -> int:
        while not (drawn := chance.below(3)):
            pass
        return drawn

    assert sorted(outcomes(two, 2)) == [(0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2)]
    assert sorted(outcomes(endless, 2)) == [1, 1, 2, 2]


def plans(level: int) -> set[Spec]:
    """Return everything that the plan of a level can draw."""
    code = Code("labels", level, 0)
    return set(outcomes(lambda chance: labels.plan(code, "mark", chance), MOST_DRAWS))


@pytest.mark.parametrize("level", LEVELS)
def test_a_fair_set_of_labels_is_found_on_every_sheet(level: int) -> None:
    """Seen facing one way and with one exchange of labels, which settle nothing; at level 4 every third."""
    drawn = plans(level)
    assert len(drawn) >= AT_LEAST[level]
    seen = {(replace(plan.stretch, facing=0, exchanged=False), plan.detail) for plan in drawn}
    for stretch, wrong in sorted(seen, key=str)[:: 3 if level == 4 else 1]:
        assert wrong == "nothing" or has_fair_set(stretch, wrong, level), (stretch, wrong)


AT_LEAST = {1: 2 * 16, 2: 2 * 32, 3: 5 * 48, 4: 10_000}
"""By hand: what goes wrong, times hinges, facings, exchanges and pleats of what is sure to fit."""


@pytest.mark.long
@pytest.mark.parametrize("level", LEVELS)
def test_every_drill_that_can_be_planned_is_made(level: int) -> None:
    """For each facing and exchange as well, by the maker itself."""
    for plan in plans(level):
        drill = labels.make(plan, Chance("any"))
        assert (drill.pattern == drill.truth) == (plan.detail == "nothing")
