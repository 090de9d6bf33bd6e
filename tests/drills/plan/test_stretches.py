"""The precreasing plan: dots, outline and inside lines, worked by hand and walked edge by edge."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.flatfold import check_pattern
from drills.geometry import Chance, Exact, Point, Step, move_between, moved, on_segment
from drills.pattern import CreasePattern, Label, across_down
from drills.plan import Crease, StretchPlan, open_labels, plan
from drills.structures import TRIANGLES, Stretch, compose, draw, find_stretches
from tests.drills.sheets import is_slanted, map_sheet, small_stretches

BY_NAME = {triangle.name: triangle for triangle in TRIANGLES}
WORKED = draw(Stretch((2, 2), pleats=0))


def test_the_worked_example() -> None:
    """Two pleats a side, S at the lower left corner, y up, worked by hand: each step, line and dot."""
    (planned,) = plan(WORKED)
    assert (planned.triangle.name, planned.is_equal, planned.has_middle) == ("3-4-5", True, True)
    assert marked(WORKED, planned, "corner") == [(0, 0), (6, 2), (8, 6), (2, 4)]
    assert marked(WORKED, planned, "turning point") == [(3, 1), (7, 4), (5, 5), (1, 2)]
    assert marked(WORKED, planned, "edge") == []
    assert [walked(WORKED, side) for side in planned.outline] == [
        ((0, 0), (3, -1, 2), (6, 2)),
        ((6, 2), (1, -2, 2), (8, 6)),
        ((8, 6), (-3, 1, 2), (2, 4)),
        ((2, 4), (-1, 2, 2), (0, 0)),
    ]
    assert [walked(WORKED, line) for line in planned.inside] == [
        ((0, 0), (4, -3, 2), (8, 6)),
        ((3, 1), (4, -3, 1), (7, 4)),
        ((1, 2), (4, -3, 1), (5, 5)),
    ]


def marked(pattern: CreasePattern, planned: StretchPlan, kind: str) -> list[Point]:
    """Return the points of the dots of a kind, in order."""
    return [pattern.vertices[dot.vertex] for dot in planned.dots if dot.kind == kind]


def walked(pattern: CreasePattern, crease: Crease) -> tuple[Point, tuple[Exact, ...], Point]:
    """Return where a crease starts, its step right, down and how often, and where that leads."""
    start = pattern.vertices[crease.vertices[0]]
    across, down, times = crease.step
    return start, tuple(crease.step), moved(start, Step(across, down).direction, times)


def test_dots_count_from_the_top_left_corner() -> None:
    """On the 8 by 6 sheet S is 0 across, 6 down and T 8 across, 0 down, by hand; all are crossings."""
    (planned,) = plan(WORKED)
    assert [(dot.across, dot.down) for dot in planned.dots][:4] == [(0, 6), (6, 4), (8, 0), (2, 2)]
    assert {dot.grid for dot in planned.dots} == {1}
    assert planned.sides == ((3, -1, 2), (1, -2, 2))


def test_valleys_are_rows_between_points() -> None:
    """S-T is a mountain of rank 0, so its neighbours are valleys; outline pieces take turns, by hand."""
    (planned,) = plan(WORKED)
    rows = [tuple(WORKED.vertices[vertex] for vertex in row) for row in planned.valleys()]
    inside = [((3, 1), (7, 4)), ((1, 2), (5, 5))]
    outline = [((0, 0), (3, 1)), ((7, 4), (8, 6)), ((8, 6), (5, 5)), ((1, 2), (0, 0))]
    assert rows == outline + inside
    valleys = planned_edges([planned]) & {e for e, edge in enumerate(WORKED.edges) if edge.label == "V"}
    assert len(valleys) == len(rows)


def test_pieces_of_one_label_are_one_row() -> None:
    """Where all is valley each side is switched whole, through its turning point."""
    valleys: list[Label] = ["B" if edge.label == "B" else "V" for edge in WORKED.edges]
    (planned,) = plan(WORKED.with_labels(valleys))
    assert [len(row) for row in planned.valleys()] == [3, 3, 3, 3, 2, 2, 2]


@pytest.mark.parametrize(
    ("name", "width", "grids"),
    [
        ("3-4-5", 1, {1}),
        ("5-12-13", 1, {1, 2}),
        ("5-12-13", 2, {1}),
        ("8-15-17", 1, {1, 3}),
        ("7-24-25", 1, {1, 3}),
        ("20-21-29", 1, {1, 2, 3}),
        ("20-21-29", 2, {1, 3}),
        ("20-21-29", 3, {1, 2}),
        ("20-21-29", 6, {1}),
    ],
)
def test_narrow_pleats_need_finer_grids(name: str, width: int, grids: set[int]) -> None:
    """A steep side of 3 across 7 down has thirds, a shallow one of 5 across 2 up halves, by hand."""
    pattern = draw(Stretch((1, 1), triangle=BY_NAME[name], widths=(width,) * 3))
    (planned,) = plan(pattern)
    assert {dot.grid for dot in planned.dots} == grids
    assert all(dot.is_on_line and planned.is_crossed(dot) for dot in planned.dots)
    assert all(side.is_counted for side in planned.outline)


def test_thirds_point_by_point() -> None:
    """20-21-29 with pleats two squares wide, S 2 across 22 down: turning points worked by hand."""
    (planned,) = plan(draw(Stretch((1, 1), triangle=BY_NAME["20-21-29"], widths=(2, 2, 2))))
    third = Fraction(1, 3)
    assert [(dot.across, dot.down) for dot in planned.dots if dot.grid == 3] == [
        (19, 11 + third),
        (21, 7 - third),
        (6, 13 - third),
        (4, 17 + third),
    ]
    assert [line.step for line in planned.inside] == [
        (21, -20, times) for times in (1, third, 2 * third, 2 * third, third)
    ]
    assert [line.is_counted for line in planned.inside] == [True, False, False, False, False]


def test_unequal_sides_have_no_middle_line() -> None:
    """One unit against two: two lines, from the one next to A on; each joins a corner, by hand."""
    pattern = draw(Stretch((1, 2), pleats=0))
    (planned,) = plan(pattern)
    assert (planned.is_equal, planned.has_middle) == (False, False)
    assert marked(pattern, planned, "corner") == [(0, 0), (3, 1), (5, 5), (2, 4)]
    assert [walked(pattern, line) for line in planned.inside] == [
        ((0, 0), (4, -3, 1), (4, 3)),
        ((1, 2), (4, -3, 1), (5, 5)),
    ]


def test_a_cut_stretch_is_told_as_far_as_it_shows() -> None:
    """The worked example without its right three squares: T and A are gone, ends at x = 5, by hand."""
    pattern = draw(Stretch((2, 2), pleats=0, crop=(0, 0, 3, 0)))
    (planned,) = plan(pattern)
    assert [corner is None for corner in planned.corners] == [False, True, True, False]
    assert (planned.is_equal, planned.has_middle, planned.sides[0]) == (None, False, None)
    assert marked(pattern, planned, "turning point") == [(1, 2), (3, 1)]
    ends = {(5, Fraction(5, 3)), (5, Fraction(5, 2)), (5, Fraction(15, 4)), (5, 5)}
    assert set(marked(pattern, planned, "edge")) == ends
    assert [walked(pattern, line) for line in planned.inside] == [
        ((3, 1), (4, -3, Fraction(1, 2)), (5, Fraction(5, 2))),
        ((0, 0), (4, -3, Fraction(5, 4)), (5, Fraction(15, 4))),
        ((1, 2), (4, -3, 1), (5, 5)),
    ]
    assert [side.is_counted for side in planned.outline] == [True, True, False]


def test_lines_from_edge_to_edge_start_where_they_are_easiest_found() -> None:
    """At a crossing, if only one end is one; three units a side, cut at three edges, by hand."""
    pattern = draw(Stretch((3, 3), pleats=0, crop=(0, 2, 1, 1)))
    (planned,) = plan(pattern)
    third = Fraction(1, 3)
    lines = [walked(pattern, line) for line in planned.inside]
    assert lines[1] == ((11, 5), (-4, 3, 5 * third), (4 + third, 0))
    assert lines[2] == ((2 + 2 * third, 0), (4, -3, 2), (10 + 2 * third, 6))
    assert lines[3] == ((1, 0), (4, -3, 2), (9, 6))


def test_a_middle_line_is_told_by_three_corners() -> None:
    """Cut at the top by one square only T is gone: by S, A and B the sides are equal, by hand."""
    (planned,) = plan(draw(Stretch((2, 2), pleats=0, crop=(0, 0, 0, 1))))
    assert (planned.corners[2], planned.is_equal, planned.has_middle) == (None, True, True)
    assert planned.inside[0].vertices[0] == planned.corners[0]


def test_sheets_without_a_slanted_stretch_have_no_plan() -> None:
    """A map has none."""
    assert plan(map_sheet(3, 4)) == ()


def test_open_labels_are_found() -> None:
    """With them the sheet folds flat; where all that is planned has labels nothing is looked for."""
    bare = WORKED.unlabelled()
    assert not plan(bare)[0].is_labelled
    found = open_labels(bare, plan(bare))
    assert set(found) == set(bare.creases)
    labelled = bare.with_labels(found.get(e, "B") for e in range(len(bare.edges)))
    assert check_pattern(labelled).ok
    assert plan(labelled)[0].is_labelled
    assert open_labels(WORKED, plan(WORKED)) == {}


def test_no_labels_where_none_fold() -> None:
    """One crease switched and one beyond it open: nothing is found."""
    crease = next(e for e in WORKED.creases if len(WORKED.interior_ends[e]) == 2)
    wrong = WORKED.switched([crease])
    other = next(e for e in plan(WORKED)[0].inside[0].edges if e != crease)
    broken = wrong.with_labels("U" if e == other else edge.label for e, edge in enumerate(wrong.edges))
    assert open_labels(broken, plan(broken)) == {}


def planned_edges(plans: Iterable[StretchPlan]) -> set[int]:
    """Return the edges of all creases of the plans, each of which must be there once."""
    edges = [edge for planned in plans for crease in planned.creases for edge in crease.edges]
    assert max(Counter(edges).values(), default=1) == 1
    return set(edges)


def is_walked_whole(pattern: CreasePattern) -> bool:
    """Whether steps from the dots lead along each edge of outlines and inside lines once, over no others."""
    plans = plan(pattern)
    for planned in plans:
        dots = {(dot.across, dot.down) for dot in planned.dots}
        for crease in planned.creases:
            start, _, end = walked(pattern, crease)
            assert {across_down(pattern, start), across_down(pattern, end)} <= dots
            assert end == pattern.vertices[crease.vertices[-1]]
            under = {e for e in crease.edges if all(on_segment(p, start, end) for p in pattern.ends(e))}
            assert under == set(crease.edges)
            assert crease.labels == tuple(pattern.edges[edge].label for edge in crease.edges)
    found = find_stretches(pattern)
    return planned_edges(plans) == {edge for each in found for edge in (*each.outline, *each.inside)}


@given(small_stretches(), st.tuples(*[st.integers(0, 3)] * 4))
def test_the_steps_walk_each_edge_once(stretch: Stretch, crop: tuple[int, int, int, int]) -> None:
    """Of stretches cut anyhow in all facings; whole ones are walked round from corner to corner."""
    paper = replace(stretch, crop=crop).paper
    if paper.left < paper.right and paper.bottom < paper.top:
        assert is_walked_whole(draw(replace(stretch, crop=crop)))
    pattern = draw(stretch)
    assert is_walked_whole(pattern)
    (planned,) = plan(pattern)
    assert tuple(side.vertices[0] for side in planned.outline) == planned.corners
    assert planned.has_middle == stretch.is_equal == planned.is_equal


@pytest.mark.parametrize("seed", range(8))
def test_sheets_of_several_stretches(seed: int) -> None:
    """Each stretch of a composed sheet has its own plan, and together they walk all slanted creases."""
    sheet = compose(Chance(f"plan {seed}"), 30, 12, 3, needed=("stretch", "stretch"))
    pattern = draw(sheet)
    assert len(plan(pattern)) >= 2
    assert is_walked_whole(pattern)
    slanted = {e for e in pattern.creases if is_slanted(move_between(*pattern.ends(e)))}
    assert planned_edges(plan(pattern)) == slanted


@pytest.mark.parametrize("name", [*BY_NAME])
@pytest.mark.parametrize("facing", range(4))
def test_each_triangle_in_each_facing(name: str, facing: int) -> None:
    """With narrow pleats of one square, equal and unequal."""
    for units in ((1, 1), (2, 1)):
        stretch = Stretch(units, facing=facing, triangle=BY_NAME[name], widths=(1, 1, 1))
        assert is_walked_whole(draw(stretch))
