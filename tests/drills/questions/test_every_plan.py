"""Whatever the plan of a drill can draw, the drill can be made."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest

from drills.exact.chance import Chance
from drills.questions.code import Code
from drills.questions.kinds import KINDS, make, spec
from drills.questions.larger import ALONE
from drills.questions.spec import Spec
from drills.structures.stretch import Stretch
from tests.drills.questions.codes import FORMS, LARGER, SMALL, codes, drills, levels_of
from tests.drills.questions.plans import outcomes
from tests.drills.questions.test_fair_cuts import has_fair_set

MOST_DRAWS = 11
"""Whether and what went wrong, six draws for a stretch, whether it is cut, and two for the cut."""
MOST_DRAWS_ALONE = MOST_DRAWS + 2
"""Of a stretch from level 5 on also the triangle and the widths of its pleats."""


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


def plans(kind: str, form: str, level: int) -> set[Spec]:
    """Return everything that the plan of a level can draw."""
    most = MOST_DRAWS if level in SMALL else MOST_DRAWS_ALONE
    code = Code(kind, level, 0, form="" if form == KINDS[kind].forms[0] else form)
    return set(outcomes(lambda chance: KINDS[kind].plan(code, form, chance), most))


def lone(specs: Iterable[Spec]) -> list[tuple[Stretch, str]]:
    """Return the lone stretches of specs, seen facing one way and with one exchange, and what is to be asked.

    Facing and exchange settle nothing.
    """
    seen = {
        (replace(plan.sheet, facing=0, exchanged=False), plan.detail)
        for plan in specs
        if isinstance(plan.sheet, Stretch)
    }
    return sorted(seen, key=str)


@pytest.mark.parametrize("level", SMALL)
def test_a_fair_set_of_labels_is_found_on_every_sheet(level: int) -> None:
    """Of level 4 every third is tried."""
    drawn = plans("labels", "mark", level)
    assert len(drawn) >= AT_LEAST[level]
    for stretch, wrong in lone(drawn)[:: 3 if level == 4 else 1]:
        assert wrong == "nothing" or has_fair_set(stretch, wrong, level), (stretch, wrong)


AT_LEAST = {1: 2 * 16, 2: 2 * 32, 3: 5 * 48, 4: 10_000}
"""By hand: what goes wrong, times hinges, facings, exchanges and pleats of what is sure to fit."""


def test_a_fair_set_of_labels_is_found_on_sheets_of_level_5() -> None:
    """On those of a hundred codes; all of them are tried in the long run below."""
    for stretch, wrong in lone(map(spec, codes("labels", "mark", ALONE, range(100)))):
        assert wrong == "nothing" or has_fair_set(stretch, wrong, ALONE), (stretch, wrong)


@pytest.mark.long
@pytest.mark.parametrize("level", [*SMALL, ALONE])
def test_every_labels_drill_that_can_be_planned_is_made(level: int) -> None:
    """For each facing and exchange as well, by the maker itself."""
    for plan in plans("labels", "mark", level):
        drill = KINDS["labels"].make(plan, Chance("any"))
        assert (drill.pattern == drill.truth) == (plan.detail == "nothing")


@pytest.mark.long
@pytest.mark.parametrize(("kind", "form"), [pair for pair in FORMS if pair[0] in ("steps", "sinks")])
def test_every_other_drill_with_one_stretch_is_made(kind: str, form: str) -> None:
    """At level 5 each step and each inside line that is planned has a crease on every sheet, cut or not."""
    specs = plans(kind, form, ALONE)
    assert lone(specs)
    for stretch, detail in lone(specs):
        plan = Spec(Code(kind, ALONE, 0), form, "", stretch, detail)
        assert KINDS[kind].make(plan, Chance("any")).sheet == stretch


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_drills_of_several_structures_are_made(kind: str, form: str) -> None:
    """Two codes in a row of each of the larger levels: each has a sheet that can be asked about."""
    for level in set(LARGER) & set(levels_of(kind)):
        assert len(list(drills(kind, form, level, range(3000, 3002)))) == 2


@pytest.mark.long
@pytest.mark.parametrize("level", LARGER)
@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_many_drills_of_several_structures_are_made(kind: str, form: str, level: int) -> None:
    """The same for two hundred codes; each passes its certificate."""
    failed = []
    for code in codes(kind, form, level, range(4000, 4200)):
        try:
            make(code)
        except RuntimeError as error:
            failed.append(str(error))
    assert failed == []
