"""The labels of a slanted stretch: they pass at every point and are the only ones of their kind."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.flatfold import check_angles, completions, failing, folds
from drills.geometry import Direction
from drills.pattern import CreasePattern, Label, Role
from drills.structures import TRIANGLE_345, Side, Stretch, Triangle, draw
from tests.drills.sheets import HINGES, small_stretches


def test_the_smallest_stretch_folds_at_every_point() -> None:
    """One pleat a side, one around: every angle and every label passes."""
    assert folds_everywhere(draw(Stretch((1, 1))))


def folds_everywhere(pattern: CreasePattern) -> bool:
    """Whether every interior point is even and meets the angle condition and the full test of its labels."""
    even = all(len(pattern.around[vertex]) % 2 == 0 for vertex in pattern.interior)
    return even and not check_angles(pattern) and not failing(pattern, pattern.labels(), folds)


UNITS = [(1, 1), (2, 2), (3, 3), (2, 1), (1, 2), (1, 3), (3, 1)]
OTHERS = [
    (Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 2), (1, 1)),
    (Triangle("8-15-17", Direction(4, 1), Direction(3, 5), 3), (1, 1)),
    (Triangle("7-24-25", Direction(7, 1), Direction(3, 4), 1), (2, 3)),
]
CASES = [(TRIANGLE_345, units) for units in UNITS] + OTHERS


def test_the_sides_of_the_other_triangles() -> None:
    """(10, 2) and (2, 3); (12, 3) and (3, 5); (14, 2) and (3, 4) with turning points off the grid."""
    sides = [(corners[1], corners[3]) for corners in (Stretch(u, triangle=t).corners for t, u in OTHERS)]
    assert sides == [((10, 2), (2, 3)), ((12, 3), (3, 5)), ((14, 2), (3, 4))]


@pytest.mark.parametrize("hinges", HINGES)
@pytest.mark.parametrize(("triangle", "units"), CASES)
def test_every_stretch_folds_at_every_point_and_its_ridges_have_one_labelling(
    triangle: Triangle, units: tuple[int, int], hinges: tuple[Side, Side]
) -> None:
    """With up to three pleats around it folds at each point; with any the lines settle all other labels."""
    for pleats in range(4):
        pattern = draw(Stretch(units, hinges, pleats, triangle=triangle))
        assert folds_everywhere(pattern)
        given_lines = lines_only(pattern)
        found = list(completions(pattern, given_lines))
        assert pattern.labels() in found
        assert len(found) == 1 or pleats == 0


def lines_only(pattern: CreasePattern) -> tuple[Label, ...]:
    """Return the labels of the pleat and inside lines, those of all other creases taken away."""
    kept = ("pleat", "inside", "border")
    return tuple(edge.label if edge.role in kept else "U" for edge in pattern.edges)


@given(small_stretches())
def test_a_line_keeps_its_kind_from_pleat_to_inside(stretch: Stretch) -> None:
    """At a turning point and at a ridge the lines that meet are of one kind: one line, bent."""
    pattern = draw(stretch)
    for vertex in pattern.interior:
        meeting = [pattern.edges[edge] for edge in pattern.around[vertex]]
        roles = {edge.role for edge in meeting}
        if "hinge" not in roles and roles & {"pleat", "inside"}:
            kinds = {edge.label for edge in meeting if edge.role in ("pleat", "inside")}
            assert len(kinds) == 1


@given(small_stretches())
def test_lines_next_to_each_other_alternate(stretch: Stretch) -> None:
    """Pleat lines one square apart, and inside lines from side corner to side corner, are M and V in turn."""
    pattern = draw(stretch)
    pleats = [index for index, edge in enumerate(pattern.edges) if edge.role == "pleat"]
    for one, two in product(pleats, repeat=2):
        if are_neighbours(pattern, one, two):
            assert pattern.edges[one].label != pattern.edges[two].label
    ordered = sorted((place_across(pattern, index), pattern.edges[index].label) for index in inside(pattern))
    assert all(first[1] != second[1] for first, second in pairwise(ordered))


def are_neighbours(pattern: CreasePattern, one: int, two: int) -> bool:
    """Whether two grid-line creases run side by side one square apart for part of their way."""
    (a, b), (c, d) = pattern.ends(one), pattern.ends(two)
    for along, across in ((0, 1), (1, 0)):
        parallel = a[across] == b[across] and c[across] == d[across]
        if parallel and abs(a[across] - c[across]) == 1:
            return max(a[along], c[along]) < min(b[along], d[along])
    return False


def inside(pattern: CreasePattern) -> list[int]:
    """Return the inside lines."""
    return [index for index, edge in enumerate(pattern.edges) if edge.role == "inside"]


def place_across(pattern: CreasePattern, index: int) -> int:
    """Return how far to the left of its own direction a line runs, in a unit of the direction's own."""
    (start, _), way = pattern.ends(index), pattern.direction(index, pattern.edges[index].start)
    return int(way.dx * start.y - way.dy * start.x)


def straight_on(pattern: CreasePattern, vertex: int, role: Role) -> list[tuple[Label, Label]]:
    """Return the labels of the two edges of a role that run straight through a vertex, if there are two."""
    found = [pattern.edges[edge].label for edge in pattern.around[vertex] if pattern.edges[edge].role == role]
    return [(found[0], found[1])] if len(found) == 2 else []


@given(small_stretches())
def test_hinges_alternate_at_every_pleat_line(stretch: Stretch) -> None:
    """A hinge changes its kind where it crosses a pleat line, which keeps its own."""
    pattern = draw(stretch)
    for vertex in pattern.interior:
        for before, after in straight_on(pattern, vertex, "hinge"):
            assert before != after
            assert all(one == other for one, other in straight_on(pattern, vertex, "pleat"))


@given(small_stretches())
def test_a_hinge_begins_opposite_to_the_ridge_at_its_corner(stretch: Stretch) -> None:
    """At a side corner the hinge is of the other kind than the 45-degree ridge."""
    pattern = draw(stretch)
    for vertex in pattern.interior:
        labels = {pattern.edges[edge].role: pattern.edges[edge].label for edge in pattern.around[vertex]}
        if "hinge" in labels and "ridge" in labels:
            assert labels["hinge"] != labels["ridge"]


crops = st.tuples(*[st.integers(min_value=0, max_value=3)] * 4)


@given(small_stretches(), crops)
def test_any_crop_still_folds_at_every_point(stretch: Stretch, crop: tuple[int, int, int, int]) -> None:
    """Cutting the paper down leaves the angles and labels of every point that stays as they were."""
    part = Stretch(stretch.units, stretch.hinges, stretch.pleats, stretch.facing, stretch.exchanged, crop)
    paper = part.paper
    if paper.left < paper.right and paper.bottom < paper.top:
        assert folds_everywhere(draw(part))
