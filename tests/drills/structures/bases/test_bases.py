"""Whole bases: every point folds, layers and all; ranks take turns; stretches lie where they were put."""

from __future__ import annotations

from itertools import combinations
from math import hypot

import pytest

from drills.flatfold import check_angles, failing, fold, folds, solve_layers
from drills.geometry import Chance, Point, cross, move_between
from drills.pattern import CreasePattern, faces
from drills.structures import Base, draw, draw_base, find_stretches
from drills.structures.bases import PREPARED, Style, drawn_after, plans_of
from tests.drills.flatfold.assorted import folds_anew
from tests.independent.layers import forget

SMALL = [style for style in PREPARED if style.width <= 16]
ONE_OF_EACH = [Base(plans_of(style)[0]) for style in SMALL]


def check_folds(pattern: CreasePattern) -> None:
    """Angles by Kawasaki, labels point by point, and an order of the layers."""
    assert check_angles(pattern) == ()
    assert not failing(pattern, pattern.labels(), folds)
    assert solve_layers(pattern).folds


def check_stretches(base: Base) -> None:
    """Where creases run shows the stretches that were put there, and no other."""
    found = {frozenset(each.corners) for each in find_stretches(draw(base))}
    assert found == {frozenset(outline) for outline in base.outlines()}


@pytest.mark.parametrize("base", ONE_OF_EACH, ids=lambda base: str(base.plan))
def test_a_small_base_of_each_style_folds_and_shows_its_stretches(base: Base) -> None:
    """The first one prepared of each style of up to 16 x 16 squares."""
    check_folds(draw(base))
    check_stretches(base)


@pytest.mark.long
def test_every_prepared_base_folds_and_shows_its_stretches() -> None:
    """All of them, and each style is drawn without repeats: no two bases of one are one figure."""
    for style in PREPARED:
        bases = [Base(plan) for plan in plans_of(style)]
        for base in bases:
            check_folds(draw(base))
            check_stretches(base)
        assert len({draw(base).unlabelled() for base in bases}) == len(bases)


@pytest.mark.parametrize("wanted", [("stretch",), ("stretch", "tips")])
def test_the_independent_solver_finds_layers_too(wanted: tuple[str, ...]) -> None:
    """One of the smallest bases with a stretch, and one with three tips beside it."""
    assert folds_anew(draw(Base(plans_of(Style(16, 16, wanted, False))[0])))
    forget()


def test_neighbouring_pleats_take_turns() -> None:
    """Two pleat lines along one face are a mountain and a valley, but where one has rank 0.

    So folders read them: common practice, no source. Of rank 0 half or more have their own label.
    """
    facing = 0
    for base in ONE_OF_EACH:
        pattern, rank_zero, _ = drawn_after(base.plan)
        for cycle in faces(pattern):
            for one, two in combinations(pleats_along(pattern, cycle, rank_zero), 2):
                ways = (pattern.direction(edge, pattern.edges[edge].start) for edge in (one, two))
                if cross(*ways) == 0 and not is_one_line(pattern, one, two):
                    facing += 1
                    assert pattern.edges[one].label != pattern.edges[two].label
        own = [pattern.edges[edge].label == "M" for edge in rank_zero]
        assert 2 * sum(own) >= len(own)
    assert facing > 50


def is_one_line(pattern: CreasePattern, one: int, two: int) -> bool:
    """Whether two parallel creases lie on one line."""
    start, end = pattern.ends(one)
    other = next(point for point in pattern.ends(two) if point != start)
    return cross(move_between(start, end), move_between(start, other)) == 0


def pleats_along(pattern: CreasePattern, cycle: tuple[int, ...], left_out: frozenset[int]) -> list[int]:
    """Return the pleat and inside lines round a face."""
    ring = {frozenset(ends) for ends in zip(cycle, cycle[1:] + cycle[:1], strict=True)}
    return [
        edge
        for edge in pattern.creases
        if frozenset(pattern.edges[edge][:2]) in ring
        and pattern.edges[edge].role in ("pleat", "inside")
        and edge not in left_out
    ]


@pytest.mark.parametrize("base", ONE_OF_EACH, ids=lambda base: str(base.plan))
def test_tips_are_as_far_apart_as_is_said(base: Base) -> None:
    """Measured on the folded sheet; by the grid the tips are nearer to each other on the paper."""
    pattern = draw(base)
    folded = fold(pattern)
    unit = pattern.on_integers.unit
    place = {point: vertex for vertex, point in enumerate(pattern.vertices)}
    scale = hypot(*_between(folded.points, *pattern.edges[0][:2])) / hypot(
        *_between(pattern.on_integers.points, *pattern.edges[0][:2])
    )
    for join in base.joins():
        first, second = (place[tip] for tip in join.tips)
        apart = hypot(*_between(folded.points, first, second)) / (scale * unit)
        assert apart == pytest.approx(join.folded)
        assert max(join.apart) < join.folded < hypot(*join.apart) + 1e-9
        assert join.saved >= 1


def _between(points: tuple[tuple[int, int], ...], start: int, end: int) -> tuple[int, int]:
    return points[end][0] - points[start][0], points[end][1] - points[start][1]


def test_a_mirror_axis_has_the_same_labels_on_both_sides() -> None:
    """Creases off the axis wear the label of their image, but for a few on cells' sides by the axis."""
    base = Base(plans_of(Style(16, 16, ("stretch",), True))[0])
    pattern = draw(base)
    at = {frozenset(pattern.ends(edge)): edge for edge in pattern.creases}
    unlike = 0
    for ends, edge in at.items():
        image = at[frozenset(Point(16 - x, y) for x, y in ends)]
        unlike += pattern.edges[edge].label != pattern.edges[image].label
    assert unlike <= len(at) // 20


def test_a_crop_keeps_all_that_is_slanted_and_folds() -> None:
    """One in six is cropped, and the paper's edge then cuts into nothing that is slanted."""
    drawn = [draw_base(Chance(f"crop {seed}"), ((16, 16),), ("stretch",)) for seed in range(60)]
    cropped = [base for base in drawn if any(base.crop)]
    assert 4 <= len(cropped) <= 20
    for base in cropped[:4]:
        pattern = draw(base)
        check_folds(pattern)
        check_stretches(base)
        assert (pattern.box[2], pattern.box[3]) == base.size


def test_half_of_them_have_a_mirror_axis() -> None:
    """And facings, exchanged labels and both axes come up."""
    drawn = [draw_base(Chance(f"axis {seed}"), ((16, 16),), ("stretch",)) for seed in range(100)]
    assert 35 <= sum(base.plan.has_axis for base in drawn) <= 65
    assert {base.facing for base in drawn} == set(range(8))
    assert len(set(drawn)) > 90
