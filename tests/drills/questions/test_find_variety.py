"""Many drills of Find together: with nothing to mark, with look-alikes, and as they were planned."""

from __future__ import annotations

from collections import Counter

import pytest

from drills.geometry import Chance
from drills.questions import KINDS, NO_FEATURES, BaseRecipe, Code, Outlines, Recipe, Spec, find, skills_at
from drills.structures import Band, Stretch, Twist
from tests.drills.questions.codes import levels_of, plans, some


@pytest.mark.parametrize("level", levels_of("find"))
def test_about_one_find_drill_in_five_has_nothing_to_mark(level: int) -> None:
    """Of 200 between 26 and 56 plan none; in these and the rest each look-alike has a third of its share."""
    drawn = plans("find", "mark", level)
    empty = [plan for plan in drawn if is_empty(plan)]
    assert 26 <= len(empty) <= 56
    rest = [plan for plan in drawn if plan not in empty]
    for those in (empty, rest):
        counts = Counter(plan.detail for plan in those)
        assert counts.keys() == {skill.split()[1] for skill in skills_at("find", "mark", level)}
        assert min(counts.values()) >= len(those) // (3 * len(counts))


def test_a_further_look_alike_changes_no_drill_of_an_older_code(monkeypatch: pytest.MonkeyPatch) -> None:
    """With a feature of its own it is drawn only where the version has it, and then by its own name."""
    code = Code("find", 6, 11)
    plan_of = KINDS["find"].plan
    before = [plan_of(code, "mark", NO_FEATURES, Chance(f"{seed}")) for seed in range(50)]
    monkeypatch.setitem(find.LOOK_ALIKES, "ring", "beside rings")
    monkeypatch.setitem(find.BY_FEATURE, "ring", "rings")
    assert [plan_of(code, "mark", NO_FEATURES, Chance(f"{seed}")) for seed in range(50)] == before
    new = [plan_of(code, "mark", frozenset({"rings"}), Chance(f"{seed}")) for seed in range(50)]
    rings = [plan.sheet for plan in new if plan.detail == "ring"]
    assert rings
    assert all(isinstance(sheet, Recipe) and "ring" in sheet.needed for sheet in rings)


def is_empty(plan: Spec) -> bool:
    """Whether no stretch is planned."""
    if isinstance(plan.sheet, Recipe):
        return plan.sheet.structures == 0 or "stretch" not in plan.sheet.needed
    if isinstance(plan.sheet, BaseRecipe):
        return {"stretch", "other"}.isdisjoint(plan.sheet.wanted)
    return not plan.sheet.outlines()


@pytest.mark.parametrize("level", levels_of("find"))
def test_what_is_planned_is_to_be_marked(level: int) -> None:
    """No outline where none is planned, and elsewhere one at least, not more than there are structures."""
    for drill in some("find", "mark", level):
        assert isinstance(drill.question.answer, Outlines)
        number = len(drill.question.answer.edges)
        assert (number == 0) == is_empty(drill.spec)
        sheet = drill.spec.sheet
        most = 4 if isinstance(sheet, BaseRecipe) else 1
        assert number <= (sheet.structures if isinstance(sheet, Recipe) else most)


def test_look_alikes_are_named_in_the_recipe() -> None:
    """Beside roofs and 45-degree stretches one is needed; among pleats alone nothing else is allowed."""
    for level in levels_of("find"):
        for plan in plans("find", "mark", level):
            if isinstance(plan.sheet, BaseRecipe):
                assert plan.detail == "roof" or plan.detail in plan.sheet.wanted
            elif isinstance(plan.sheet, Band | Twist):
                assert plan.detail == "band"
            elif not isinstance(plan.sheet, Recipe):
                assert plan.detail == ("pleats" if isinstance(plan.sheet, Stretch) else "diamond")
            elif plan.detail != "pleats":
                assert plan.detail in plan.sheet.needed
            elif plan.sheet.structures:
                assert plan.sheet.allowed == ("stretch",)


@pytest.mark.parametrize("level", range(3, KINDS["find"].highest + 1))
def test_something_slanted_is_no_sign_of_a_stretch(level: int) -> None:
    """On two sheets of five something else is slanted, on one of ten that alone: 200 plans, with some room.

    So whoever marks whatever is off 45 degrees is right on less than 65 of a hundred.
    """
    drawn = plans("find", "mark", level)
    slanted = [plan for plan in drawn if plan.detail in ("tips", "band")]
    assert 80 <= len(slanted) <= 130
    assert 12 <= sum(map(is_empty, slanted)) <= 36
