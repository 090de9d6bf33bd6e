"""The slanted stretch as it is drawn: points, lines and roles."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given

from drills.geometry import (
    Direction,
    Point,
    Step,
    direction_of,
    dot,
    move_between,
    moved,
    on_segment,
    step_between,
)
from drills.pattern import CreasePattern, Role
from drills.structures import Stretch, draw
from tests.drills.sheets import small_stretches


def test_the_worked_example_of_two_pleats_a_side() -> None:
    """Two pleats a side: corners (0,0) (6,2) (8,6) (2,4), turning points and inside lines point by point."""
    pattern = draw(Stretch((2, 2), pleats=0))
    assert Stretch((2, 2)).corners == ((0, 0), (6, 2), (8, 6), (2, 4))
    assert turning_points(pattern) == {(3, 1), (7, 4), (1, 2), (5, 5)}
    assert lines(pattern, "inside") == {((0, 0), (8, 6)), ((3, 1), (7, 4)), ((1, 2), (5, 5))}
    steps = {step_between(*pattern.ends(edge)) for edge in edges(pattern, "inside")}
    assert steps == {Step(4, -3, 2), Step(4, -3, 1)}
    assert pattern.box == (0, 0, 8, 6)


def edges(pattern: CreasePattern, role: Role) -> list[int]:
    """Return the edges of one role."""
    return [index for index, edge in enumerate(pattern.edges) if edge.role == role]


def lines(pattern: CreasePattern, role: Role) -> set[tuple[Point, Point]]:
    """Return the edges of one role by their ends."""
    return {pattern.ends(edge) for edge in edges(pattern, role)}


def turning_points(pattern: CreasePattern) -> set[Point]:
    """Return the points where an inside line meets a pleat line, or the paper's edge in its stead."""
    found = set()
    for vertex, around in enumerate(pattern.around):
        roles = [pattern.edges[edge].role for edge in around]
        if roles.count("inside") == 1 and roles.count("outline") == 2 and set(roles) & {"pleat", "border"}:
            found.add(pattern.vertices[vertex])
    return found - set(Stretch((2, 2)).corners)


@pytest.mark.parametrize("k", [1, 2, 3, 4, 5])
def test_an_equal_sided_stretch_has_an_odd_number_of_inside_lines(k: int) -> None:
    """2k - 1 inside lines, each the step (4, 3), the middle one k times from far corner to far corner."""
    stretch = Stretch((k, k), pleats=0)
    pattern = draw(stretch)
    inside = lines(pattern, "inside")
    assert len(inside) == stretch.inside_lines == 2 * k - 1
    repeats = sorted(step_between(*ends).times for ends in inside)
    assert repeats == sorted([*range(1, k), k, *range(1, k)])
    assert {step_between(*ends)[:2] for ends in inside} == {(4, -3)}
    assert (stretch.corners[0], stretch.corners[2]) in inside
    assert stretch.is_equal


@pytest.mark.parametrize("units", [(3, 2), (1, 2), (1, 3), (3, 1), (2, 1), (2, 3), (4, 1), (2, 5)])
def test_a_stretch_of_unequal_sides_has_no_middle_line(units: tuple[int, int]) -> None:
    """(a_y + b_x) - 1 inside lines, none of which joins the far corners; far corners have one each."""
    stretch = Stretch(units, pleats=0)
    start, _, far, _ = stretch.corners
    inside = lines(draw(stretch), "inside")
    assert len(inside) == stretch.inside_lines == sum(units) - 1
    assert (start, far) not in inside
    assert [sum(corner in ends for ends in inside) for corner in (start, far)] == [1, 1]
    assert not any(on_segment(far, *ends) and on_segment(start, *ends) for ends in inside)
    assert not stretch.is_equal


@pytest.mark.parametrize("k", [1, 2, 3, 4])
def test_outline_sides_of_an_equal_sided_stretch_read_as_two_steps(k: int) -> None:
    """Sides are (3, 1) and (1, 2), each repeated k times (common practice, no source)."""
    start, a, far, b = Stretch((k, k)).corners
    assert step_between(start, a) == step_between(b, far) == Step(3, -1, k)
    assert step_between(start, b) == step_between(a, far) == Step(1, -2, k)
    outline = lines(draw(Stretch((k, k), pleats=0)), "outline")
    for corner, end, step in ((start, a, Direction(3, 1)), (a, far, Direction(1, 2))):
        stops = [moved(corner, step, times) for times in range(k + 1)]
        assert stops[-1] == end
        assert set(pairwise(stops)) <= outline
    assert len(outline) == 4 * k


@pytest.mark.parametrize("k", [1, 2, 3])
def test_the_side_corners_are_the_incentres_of_two_right_triangles(k: int) -> None:
    """A is k squares from all three sides of the triangle under S-T in the 4k x 3k box, B of the other."""
    start, a, far, b = Stretch((k, k)).corners
    assert (start, far) == ((0, 0), (4 * k, 3 * k))
    assert (a.y, 4 * k - a.x, 3 * a.x - 4 * a.y) == (k, k, 5 * k)
    assert (b.x, 3 * k - b.y, 4 * b.y - 3 * b.x) == (k, k, 5 * k)


@given(small_stretches())
def test_inside_lines_join_points_of_the_outline(stretch: Stretch) -> None:
    """Every end of an inside line, a pleat line's inner end, lies on the outline; all run one way."""
    pattern = draw(stretch)
    on_outline = {point for ends in lines(pattern, "outline") for point in ends}
    assert {point for ends in lines(pattern, "inside") for point in ends} <= on_outline
    assert len({direction_of(move_between(*ends)) for ends in lines(pattern, "inside")}) == 1
    assert len(edges(pattern, "inside")) == stretch.inside_lines


@given(small_stretches())
def test_pleat_lines_and_hinges_run_along_the_grid_and_ridges_at_45_degrees(stretch: Stretch) -> None:
    """Only the outline and the inside lines are slanted."""
    pattern = draw(stretch)
    for index in pattern.creases:
        dx, dy = (abs(part) for part in direction_of(move_between(*pattern.ends(index))))
        role = pattern.edges[index].role
        expected = {"pleat": dx * dy == 0, "hinge": dx * dy == 0, "ridge": dx == dy}
        assert expected.get(role, dx * dy != 0 and dx != dy)


@given(small_stretches())
def test_each_side_corner_has_three_ridges_and_one_hinge(stretch: Stretch) -> None:
    """Two outline sides and the ridge outward are three, so one hinge each makes the corner even."""
    pattern = draw(stretch)
    hinged = [
        vertex
        for vertex in pattern.interior
        if sorted(pattern.edges[edge].role for edge in pattern.around[vertex])
        in (["hinge", "inside", "outline", "outline", "ridge"], ["hinge", "outline", "outline", "ridge"])
    ]
    assert len(hinged) == 2
    for vertex in hinged:
        hinge = next(edge for edge in pattern.around[vertex] if pattern.edges[edge].role == "hinge")
        way = pattern.direction(hinge, vertex)
        assert way.dx * way.dy == 0


@given(small_stretches())
def test_hinges_cross_pleat_lines_at_right_angles_and_reach_the_edge(stretch: Stretch) -> None:
    """From a side corner straight on each hinge meets only pleat lines across it, then the paper's edge."""
    pattern = draw(stretch)
    crossings = 0
    for vertex in pattern.interior:
        roles = [pattern.edges[edge].role for edge in pattern.around[vertex]]
        if roles.count("hinge") == 2:
            crossings += 1
            assert sorted(roles) == ["hinge", "hinge", "pleat", "pleat"]
            ways = pattern.directions[vertex]
            assert all(dot(first, second) == 0 for first, second in pairwise(ways))
    at_edge = {
        vertex
        for edge in edges(pattern, "hinge")
        for vertex in (pattern.edges[edge].start, pattern.edges[edge].end)
        if vertex not in pattern.interior
    }
    assert len(at_edge) == 2
    assert len(edges(pattern, "hinge")) == crossings + 2


@given(small_stretches())
def test_the_size_said_is_the_size_drawn(stretch: Stretch) -> None:
    """Width and height of the sheet, as it faces, are those of the pattern's box from (0, 0)."""
    assert draw(stretch).box == (0, 0, *stretch.size)


def test_a_crop_cuts_squares_off_each_side() -> None:
    """A crop of 1, 0, 2, 1 leaves a sheet 3 narrower and 1 lower, in the same place."""
    whole, part = Stretch((2, 2)), Stretch((2, 2), crop=(1, 0, 2, 1))
    assert (whole.size, part.size) == ((10, 8), (7, 7))
    kept = [tuple(moved(p, Direction(1, 0)) for p in ends) for ends in lines(draw(part), "inside")]
    before = lines(draw(whole), "inside")
    assert len(kept) == 3
    assert all(any(on_segment(a, *ends) and on_segment(b, *ends) for ends in before) for a, b in kept)
