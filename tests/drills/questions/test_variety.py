"""Many drills of a level together: different enough, small enough, and with everything that can go wrong."""

from __future__ import annotations

from collections import Counter

import pytest

from drills.pattern.placing import figure
from drills.questions.drill import Drill, Marks
from drills.questions.kinds import KINDS, spec
from drills.questions.mistakes import MISTAKES
from tests.drills.questions.codes import FORMS, LEVELS, codes, two_hundred
from tests.drills.sheets import HINGES

SEEDS = range(1, 201)
AT_MOST = {1: 1, 2: 1, 3: 2, 4: 3}


def test_six_hundred_drills_show_at_least_150_patterns() -> None:
    """Two hundred codes of each kind at level 4, counted as figures without their labels."""
    seen = {figure(drill.truth.unlabelled()) for kind in KINDS for drill in first_form(kind, 4)}
    assert len(seen) >= 150


def first_form(kind: str, level: int) -> tuple[Drill, ...]:
    """Return 200 drills of the first form of a kind at a level."""
    return two_hundred(kind, KINDS[kind].forms[0], level)


@pytest.mark.parametrize("level", LEVELS)
def test_about_one_labels_drill_in_five_has_nothing_wrong(level: int) -> None:
    """Of 200 between 30 and 50 have nothing to mark, and no other drill is without a wrong label."""
    shown = first_form("labels", level)
    nothing = [drill for drill in shown if drill.answer == Marks(frozenset())]
    assert 30 <= len(nothing) <= 50
    assert all((drill.spec.skill == "labels nothing") == (drill in nothing) for drill in shown)


def test_a_few_sheets_have_no_inside_line() -> None:
    """At level 4 between 4 and 32 of 200 show only a tip of the outline; below, none does."""
    empty = {
        level: sum(drill.answer == Marks(frozenset()) for drill in first_form("sinks", level))
        for level in LEVELS
    }
    assert 4 <= empty[4] <= 32
    assert empty[1] == empty[2] == empty[3] == 0


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_sheets_of_the_first_four_levels_fit_80_columns(kind: str, form: str) -> None:
    """None is larger than 14 x 12 squares, and each begins at the lower left corner."""
    for level in LEVELS:
        for drill in two_hundred(kind, form, level):
            left, bottom, width, height = drill.truth.box
            assert (left, bottom) == (0, 0)
            assert width <= 14
            assert height <= 12
            assert drill.pattern.box == drill.truth.box


@pytest.mark.parametrize("level", LEVELS)
def test_wrong_labels_are_few_and_inside(level: int) -> None:
    """One at levels 1 and 2, up to two at 3, up to three at 4; each has an end off the paper's edge."""
    for drill in first_form("labels", level):
        assert isinstance(drill.answer, Marks)
        wrong = drill.answer.items
        assert len(wrong) <= AT_MOST[level]
        assert all(drill.truth.interior_ends[edge] for edge in wrong)
        assert drill.pattern.switched(wrong) == drill.truth


def test_no_crease_of_a_labels_drill_runs_from_edge_to_edge() -> None:
    """A label that no point inside decides could not be judged; no crop leaves one."""
    for level in LEVELS:
        for drill in first_form("labels", level):
            assert all(drill.truth.interior_ends[edge] for edge in drill.truth.creases)


def test_the_largest_number_of_wrong_labels_comes_up() -> None:
    """Two are wrong at once at level 3, and three at level 4."""
    counts = {level: {drill.marks for drill in first_form("labels", level)} for level in (3, 4)}
    assert counts == {3: {1, 2}, 4: {1, 2, 3}}


@pytest.mark.parametrize("level", [1, 2])
def test_low_levels_have_one_wrong_label_and_one_facing_pair(level: int) -> None:
    """A single label is wrong or none, on the smallest equal stretch, seen straight or in the mirror."""
    plans = [spec(code) for code in codes("labels", "mark", level, SEEDS)]
    assert {plan.detail for plan in plans} == {"one", "nothing"}
    assert {plan.stretch.units for plan in plans} == {(1, 1)}
    assert {plan.stretch.facing for plan in plans} == {0, 2}


def test_everything_that_goes_wrong_comes_up_at_level_4() -> None:
    """Each mistake is made in 15 to 60 of 200 drills."""
    counts = Counter(spec(code).detail for code in codes("labels", "mark", 4, SEEDS))
    assert counts.keys() == MISTAKES.keys() | {"nothing"}
    assert all(15 <= number <= 60 for number in counts.values())


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_all_ways_to_draw_come_up_at_level_4(kind: str, form: str) -> None:
    """Both exchanges, four hinge choices and four facings come in no less than half their share of 200."""
    stretches = [spec(code).stretch for code in codes(kind, form, 4, SEEDS)]
    for seen, ways in (
        (Counter(s.exchanged for s in stretches), {False, True}),
        (Counter(s.hinges for s in stretches), set(HINGES)),
        (Counter(s.facing for s in stretches), {0, 1, 2, 3}),
    ):
        assert seen.keys() == ways
        assert min(seen.values()) >= 100 // len(ways)
    assert {s.units for s in stretches} >= {(2, 2), (3, 3), (2, 1), (1, 2), (3, 1), (1, 3)}


@pytest.mark.parametrize(("kind", "form"), [("steps", "read"), ("sinks", "mark"), ("labels", "mark")])
def test_crops_come_up_from_every_edge(kind: str, form: str) -> None:
    """The paper's edge cuts in at the left, bottom, right and top, alone and at a corner."""
    crops = [spec(code).stretch.crop for code in codes(kind, form, 4, range(1, 1001))]
    sides = {tuple(cut > 0 for cut in crop) for crop in crops}
    alone = {(True, False, False, False), (False, True, False, False)}
    alone |= {side[2:] + side[:2] for side in alone}
    corners = {(True, True, False, False), (False, False, True, True)}
    assert sides >= alone | corners | {(False, False, False, False)}
    assert not any(
        any(spec(code).stretch.crop) for level in (1, 2, 3) for code in codes(kind, form, level, SEEDS)
    )


def test_each_level_adds_something() -> None:
    """Pleats at level 2, two units at 3, unequal sides at 4: as the plans of each kind show."""
    for kind in ("steps", "labels"):
        plans = {
            level: [spec(c).stretch for c in codes(kind, KINDS[kind].forms[0], level, SEEDS)]
            for level in LEVELS
        }
        assert max(s.pleats for s in plans[1]) < min(s.pleats for s in plans[2])
        assert all(max(s.units) == 1 for level in (1, 2) for s in plans[level])
        assert all(s.is_equal and max(s.units) > 1 for s in plans[3])
        assert any(not s.is_equal for s in plans[4])
