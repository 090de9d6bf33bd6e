"""Many drills of a level together: different enough, small enough, and with everything that can go wrong."""

from __future__ import annotations

from collections import Counter

import pytest

from drills.questions import KINDS, MISTAKES, BaseRecipe, Code, Marks, Recipe, Spec, checked, make, spec
from drills.structures import TRIANGLES, Sheet, Stretch, cuts_a_turning_point, draw
from tests.drills.questions.codes import FORMS, LARGER, SEEDS, SMALL, codes, levels_of, made_once, plans, some
from tests.drills.sheets import HINGES, figure

AT_MOST = {1: 1, 2: 1, 3: 2, 4: 3}
ALONE_FORMS = [(kind, form) for kind, form in FORMS if kind in ("steps", "sinks", "labels")]
"""The forms of which a sheet of the first four levels shows one stretch, or nothing slanted."""


def forms_at(level: int) -> list[tuple[str, str]]:
    """Return the forms that have a level."""
    return [(kind, form) for kind, form in FORMS if level in levels_of(kind)]


@pytest.mark.long
def test_six_hundred_codes_show_at_least_150_patterns() -> None:
    """Two hundred codes of each of three kinds at level 4, counted as figures without their labels."""
    sheets = {plan.sheet: plan for kind in dict(ALONE_FORMS) for plan in first_form(kind, 4)}
    drawn = (draw(next(iter(plan.sheets()))) for plan in sheets.values())
    assert len({figure(pattern.unlabelled()) for pattern in drawn}) >= 150


def first_form(kind: str, level: int) -> list[Spec]:
    """Return 200 specs of the first form of a kind at a level."""
    return plans(kind, KINDS[kind].first_form, level)


@pytest.mark.parametrize("level", SMALL)
def test_about_one_labels_drill_in_five_has_nothing_wrong(level: int) -> None:
    """Of 200 between 30 and 50 are planned so; these alone have nothing to mark."""
    assert 30 <= sum(plan.detail == "nothing" for plan in first_form("labels", level)) <= 50
    for drill in some("labels", "mark", level):
        is_right = drill.question.answer == Marks(frozenset())
        assert is_right == (drill.spec.detail == "nothing") == (drill.skill == "labels nothing")


def test_a_few_sheets_have_no_inside_line() -> None:
    """At level 4 between 4 and 32 of 200 show roofs alone; below, none does."""
    empty = [plan for plan in first_form("sinks", 4) if not shows_inside_lines(plan)]
    assert 4 <= len(empty) <= 32
    assert all(isinstance(plan.sheet, Recipe) and plan.sheet.allowed == ("roof",) for plan in empty)
    for level in (1, 2, 3):
        assert all(drill.question.answer != Marks(frozenset()) for drill in some("sinks", "mark", level))


def shows_inside_lines(plan: Spec) -> bool:
    """Whether inside lines are on the sheet."""
    sheet = draw(next(iter(plan.sheets())))
    return any(edge.role == "inside" for edge in sheet.edges)


@pytest.mark.parametrize(("kind", "form"), ALONE_FORMS)
def test_sheets_of_the_first_four_levels_fit_80_columns(kind: str, form: str) -> None:
    """None of 200 is larger than 14 x 12 squares; what is drawn begins at the lower left corner."""
    for level in SMALL:
        for plan in plans(kind, form, level):
            sheet = plan.sheet
            assert not isinstance(sheet, BaseRecipe)
            width, height = (sheet.width, sheet.height) if isinstance(sheet, Recipe) else sheet.size
            assert width <= 14
            assert height <= 12
        for drill in some(kind, form, level):
            left, bottom, right, top = drill.truth.box
            assert (left, bottom) == (0, 0)
            assert right <= 14
            assert top <= 12
            assert drill.pattern.box == drill.truth.box


@pytest.mark.parametrize("level", SMALL)
def test_wrong_labels_are_few_and_inside(level: int) -> None:
    """One at levels 1 and 2, up to two at 3, up to three at 4; no crease runs from edge to edge.

    A label that no point inside decides could not be judged.
    """
    for drill in some("labels", "mark", level):
        assert isinstance(drill.question.answer, Marks)
        assert len(drill.question.answer.items) <= AT_MOST[level]
        assert drill.pattern.switched(drill.question.answer.items) == drill.truth
        assert all(drill.truth.interior_ends[edge] for edge in drill.truth.creases)


@pytest.mark.parametrize(("level", "most"), [(3, 2), (4, 3)])
def test_the_largest_number_of_wrong_labels_comes_up(level: int, most: int) -> None:
    """Two are wrong at once at level 3, and three at level 4, within the first two hundred codes."""
    several = (code for code in codes("labels", "mark", level, SEEDS) if spec(code).detail not in ONE_LABEL)
    assert any(made_once(code).question.marks == most for code in several)


ONE_LABEL = ("nothing", "one")


@pytest.mark.parametrize("level", [1, 2])
def test_low_levels_have_one_wrong_label_and_one_facing_pair(level: int) -> None:
    """A single label is wrong or none, on the smallest equal stretch, seen straight or in the mirror."""
    assert {plan.detail for plan in plans("labels", "mark", level)} == {"one", "nothing"}
    stretches = lone("labels", "mark", level)
    assert {stretch.units for stretch in stretches} == {(1, 1)}
    assert {stretch.facing for stretch in stretches} == {0, 2}


def lone(kind: str, form: str, level: int, seeds: range = SEEDS) -> list[Stretch]:
    """Return the stretches that fill a sheet alone."""
    sheets = (plan.sheet for plan in plans(kind, form, level, seeds))
    return [sheet for sheet in sheets if isinstance(sheet, Stretch)]


@pytest.mark.parametrize("level", [4, *LARGER])
def test_everything_that_goes_wrong_comes_up_from_level_4_on(level: int) -> None:
    """Each mistake is made in 15 to 60 of 200 drills."""
    counts = Counter(plan.detail for plan in plans("labels", "mark", level))
    assert counts.keys() == MISTAKES.keys() | {"nothing"}
    assert all(15 <= number <= 60 for number in counts.values())


@pytest.mark.parametrize(("kind", "form"), ALONE_FORMS)
def test_all_ways_to_draw_come_up_at_level_4(kind: str, form: str) -> None:
    """Both exchanges, four hinge choices and four facings come in no less than half their share of 200."""
    stretches = lone(kind, form, 4)
    assert len(stretches) >= 180
    check_all_ways(stretches)
    assert {s.units for s in stretches} >= {(2, 2), (3, 3), (2, 1), (1, 2), (3, 1), (1, 3)}


def check_all_ways(stretches: list[Stretch]) -> None:
    """Each exchange, choice of hinges and facing comes in no less than half its share."""
    for seen, ways in (
        (Counter(s.exchanged for s in stretches), {False, True}),
        (Counter(s.hinges for s in stretches), set(HINGES)),
        (Counter(s.facing for s in stretches), {0, 1, 2, 3}),
    ):
        assert seen.keys() == ways
        assert min(seen.values()) >= len(stretches) // (2 * len(ways))


@pytest.mark.parametrize(("kind", "form"), [("steps", "read"), ("sinks", "mark"), ("labels", "mark")])
def test_crops_come_up_from_every_edge(kind: str, form: str) -> None:
    """The paper's edge cuts in at the left, bottom, right and top, alone and at a corner."""
    crops = [stretch.crop for stretch in lone(kind, form, 4, range(1, 1001))]
    sides = {tuple(cut > 0 for cut in crop) for crop in crops}
    alone = {(True, False, False, False), (False, True, False, False)}
    alone |= {side[2:] + side[:2] for side in alone}
    corners = {(True, True, False, False), (False, False, True, True)}
    assert sides >= alone | corners | {(False, False, False, False)}
    assert not any(any(stretch.crop) for level in (1, 2, 3) for stretch in lone(kind, form, level))


def test_each_level_adds_something() -> None:
    """Pleats at level 2, three units at 3, unequal sides at 4: as the plans of each kind show."""
    for kind, form in (("steps", "read"), ("labels", "mark")):
        drawn = {level: lone(kind, form, level) for level in SMALL}
        assert max(s.pleats for s in drawn[1]) < min(s.pleats for s in drawn[2])
        assert all(max(s.units) < 3 for level in (1, 2) for s in drawn[level])
        assert any(max(s.units) == 3 for s in drawn[3])
        assert all(s.is_equal and max(s.units) > 1 for s in drawn[3])
        assert any(not s.is_equal for s in drawn[4])


@pytest.mark.parametrize(("kind", "form"), forms_at(5))
def test_stretches_of_level_5_are_of_three_triangles_and_drawn_in_all_ways(kind: str, form: str) -> None:
    """All fit 18 x 15 squares; pleats of one width and of several, sides equal and unequal, come up."""
    stretches = lone(kind, form, 5, range(1, 601))
    assert all(s.size[0] <= 18 and s.size[1] <= 15 for s in stretches)
    assert {s.triangle.name for s in stretches} == {"3-4-5", "5-12-13", "8-15-17"}
    assert {len(set(s.pleat_widths)) for s in stretches} >= {1, 2}
    assert {s.is_equal for s in stretches} == {True, False}
    assert {s.facing for s in stretches} == {0, 1, 2, 3}
    assert {s.hinges for s in stretches} == set(HINGES)
    assert {s.exchanged for s in stretches} == {True, False}


@pytest.mark.parametrize(("kind", "form"), forms_at(7))
def test_large_stretches_are_of_every_other_triangle(kind: str, form: str) -> None:
    """At level 7, where a stretch stands alone; some are larger than 18 x 15, none than 64 x 40."""
    stretches = lone(kind, form, 7, range(1, 401))
    assert {s.triangle.name for s in stretches} == {triangle.name for triangle in TRIANGLES[1:]}
    assert all(s.size[0] <= 64 and s.size[1] <= 40 for s in stretches)
    assert any(s.size[0] > 18 or s.size[1] > 15 for s in stretches)
    assert {s.facing for s in stretches} == {0, 1, 2, 3}


@pytest.mark.parametrize(("kind", "form"), forms_at(7))
def test_recipes_of_levels_6_and_7_were_of_many_sizes_in_the_first_version(kind: str, form: str) -> None:
    """Level 6 within 18 x 15 squares, two structures or more; level 7 from 24 to 64 wide, 12 to 20 high."""
    small, large = (
        [
            sheet
            for seed in range(1, 401)
            if isinstance(sheet := spec(checked(Code(kind, level, seed, form=form))).sheet, Recipe)
        ]
        for level in (6, 7)
    )
    assert {recipe.width for recipe in small} == {16, 17, 18}
    assert {recipe.height for recipe in small} == set(range(11, 16))
    assert {recipe.height for recipe in large} == set(range(12, 21))
    assert min(recipe.width for recipe in large) == 24
    assert max(recipe.width for recipe in large) == 64
    for recipe in (*small, *large):
        assert recipe.structures >= 2 or (kind == "find" and recipe.structures == 0)
        assert recipe.structures <= (6 if recipe in large else 4)
        assert not recipe.is_cut or kind != "labels"
        assert set(recipe.needed) <= set(recipe.allowed) or not recipe.structures


@pytest.mark.parametrize(("kind", "form"), [form for form in FORMS if 8 in KINDS[form[0]].levels])
def test_most_sheets_from_level_6_on_are_bases_of_many_sizes(kind: str, form: str) -> None:
    """Of 200 at levels 6 to 8 more than half are planned square, all at 8; within the sizes of the level."""
    sizes = {6: range(16, 21), 7: range(20, 25), 8: range(24, 33)}
    bases = 0
    for level, within in sizes.items():
        planned = [plan.sheet for plan in plans(kind, form, level)]
        square = [sheet for sheet in planned if isinstance(sheet, BaseRecipe)]
        bases += len(square)
        assert all(width == height in within for sheet in square for width, height in sheet.sizes)
        assert level < 8 or len(square) == len(planned)
    assert bases > 300


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_a_drawn_sheet_is_as_large_as_planned(kind: str, form: str) -> None:
    """Cut sheets are smaller; the pattern shown begins at the lower left corner and is the whole sheet."""
    for level in set(LARGER) & set(levels_of(kind)):
        for drill in some(kind, form, level):
            _, _, width, height = drill.truth.box
            assert drill.pattern.box == drill.truth.box == (0, 0, width, height)
            sheet = drill.spec.sheet
            if isinstance(sheet, BaseRecipe):
                assert (width, height) == drill.design.size
                assert max(width, height) <= max(sheet.sizes)[0]
                continue
            if isinstance(sheet, Recipe):
                assert sheet.is_cut or (width, height) == (sheet.width, sheet.height)
                assert width <= sheet.width
                assert height <= sheet.height
            else:
                assert (width, height) == sheet.size
            assert width <= (64 if level == 7 else 20)
            assert height <= (40 if level == 7 else 18)


@pytest.mark.parametrize("level", LARGER)
def test_wrong_labels_of_larger_sheets_are_few_and_inside(level: int) -> None:
    """Up to three; each has an end off the paper's edge."""
    for drill in some("labels", "mark", level):
        assert isinstance(drill.question.answer, Marks)
        assert len(drill.question.answer.items) <= 3
        assert all(drill.truth.interior_ends[edge] for edge in drill.question.answer.items)
        assert drill.pattern.switched(drill.question.answer.items) == drill.truth


@pytest.mark.long
def test_no_turning_point_is_asked_for_where_the_papers_edge_cuts_one() -> None:
    """Once some sheets of several structures were cut so; none is today, and others are cut all the same."""
    for version, least, most in ((1, 1, 24), (2, 0, 0)):
        sheets = [make(Code("sinks", 6, seed, version, "points")).design for seed in range(24)]
        cut = [sheet for sheet in sheets if isinstance(sheet, Sheet) and any(sheet.crop)]
        assert cut
        assert least <= sum(map(cuts_a_turning_point, cut)) <= most
