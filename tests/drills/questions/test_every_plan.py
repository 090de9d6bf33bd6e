"""Whatever the plan of a drill can draw, the drill can be made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial
from itertools import product

import pytest

from drills.geometry import Chance
from drills.questions import KINDS, NO_FEATURES, Code, Marks, Spec, make, spec
from drills.questions.labels import MISTAKES, can_settle, most_wrong
from drills.questions.levels import ALONE, SCREEN_HIGHEST, SCREEN_WIDEST, SINGLE_STRETCHES, cut, fits
from drills.questions.steps import FORMS as FORMS_OF_STEPS
from drills.questions.steps import ratios_of
from drills.structures import Stretch
from tests.drills.questions.codes import FORMS, LARGER, SMALL, codes, drills, levels_of
from tests.drills.questions.plans import outcomes
from tests.drills.questions.test_fair_cuts import has_fair_set
from tests.drills.sheets import HINGES

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
    """Return everything that the plan of a labels drill of a level can draw."""
    code = Code("labels", level, 0)
    return set(outcomes(lambda chance: KINDS["labels"].plan(code, "mark", NO_FEATURES, chance), MOST_DRAWS))


def alone() -> Iterator[Stretch]:
    """Yield every stretch of level 5, facing one way, its labels not exchanged, before it is cut."""
    for lone in SINGLE_STRETCHES[ALONE]:
        for hinges, pleats, widths in product(HINGES, lone.pleats, lone.widths):
            stretch = Stretch(lone.units, hinges, pleats, triangle=lone.triangle, widths=widths)
            if fits(stretch, SCREEN_WIDEST, SCREEN_HIGHEST):
                yield stretch


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
    drawn = plans(level)
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
@pytest.mark.parametrize("level", SMALL)
def test_every_labels_drill_that_can_be_planned_is_made(level: int) -> None:
    """For each facing and exchange as well, by the maker itself."""
    for plan in plans(level):
        drill = KINDS["labels"].make(plan, Chance("any"))
        assert (drill.pattern == drill.truth) == (plan.detail == "nothing")


@pytest.mark.long
@pytest.mark.parametrize("wrong", MISTAKES)
def test_every_labels_drill_of_level_5_is_made(wrong: str) -> None:
    """Wherever the plan lets this go wrong there is a fair set of labels."""
    for stretch in alone():
        if can_settle(stretch, wrong, most_wrong(ALONE)):
            assert has_fair_set(stretch, wrong, ALONE), stretch


@pytest.mark.long
@pytest.mark.parametrize("form", FORMS_OF_STEPS)
def test_every_step_of_level_5_is_asked(form: str) -> None:
    """Each step that a triangle is picked for has a crease on every sheet."""
    for stretch in alone():
        for ratio in ratios_of(stretch.triangle):
            plan = Spec.of(Code("steps", ALONE, 0), form, "", stretch, ratio)
            assert KINDS["steps"].make(plan, Chance("any")).design == stretch


@pytest.mark.long
def test_every_inside_line_of_level_5_is_asked() -> None:
    """On every sheet, cut or not; turning points and joins where there is more than one line."""
    for stretch in alone():
        for cut_one in set(outcomes(partial(cut, stretch), 3)):
            plan = Spec.of(Code("sinks", ALONE, 0), "mark", "", cut_one, "")
            assert KINDS["sinks"].make(plan, Chance("any")).question.answer != Marks(frozenset())
        for form in ("points", "join") if stretch.inside_lines > 1 else ():
            plan = Spec.of(Code("sinks", ALONE, 0), form, "", stretch, "")
            assert KINDS["sinks"].make(plan, Chance("any")).design == stretch


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_drills_of_several_structures_are_made(kind: str, form: str) -> None:
    """Two codes in a row of each of the larger levels: each has a sheet that can be asked about."""
    for level in set(LARGER) & set(levels_of(kind)):
        assert len(list(drills(kind, form, level, range(3000, 3002)))) == 2


@pytest.mark.long
@pytest.mark.parametrize("level", LARGER)
@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_many_drills_of_several_structures_are_made(kind: str, form: str, level: int) -> None:
    """The same for a hundred codes; each passes its certificate."""
    failed = []
    for code in codes(kind, form, level, range(4000, 4100)):
        try:
            make(code)
        except RuntimeError as error:
            failed.append(str(error))
    assert failed == []
