from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise, product

import pytest
from hypothesis import given

from drills.geometry import Direction, Exact, Point, direction_of, double_area, move_between
from drills.pattern import CreasePattern, Line, Paper, Role, Run, bent_runs, build, faces, straight_runs
from drills.structures import Stretch, draw
from tests.drills.sheets import map_sheet, small_stretches, square_twist, star, triangle_twist

EAST, NORTH, WEST, SOUTH = Direction(1, 0), Direction(0, 1), Direction(-1, 0), Direction(0, -1)


def test_what_meets_at_a_point_is_listed_counterclockwise_from_east() -> None:
    """At the centre of a cross four creases leave to the east, north, west and south."""
    pattern = star([SOUTH, EAST, NORTH, WEST])
    (centre,) = pattern.interior
    assert pattern.vertices[centre] == Point(0, 0)
    assert pattern.directions[centre] == (EAST, NORTH, WEST, SOUTH)
    assert [pattern.other_end(edge, centre) for edge in pattern.around[centre]] == [
        pattern.vertices.index(Point(x, y)) for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1))
    ]


def test_interior_points_are_those_off_the_border() -> None:
    """A map of 2 x 3 squares has 2 interior points, 7 creases and its border of 10 pieces."""
    pattern = map_sheet(2, 3)
    assert {pattern.vertices[vertex] for vertex in pattern.interior} == {(1, 1), (2, 1)}
    assert (len(pattern.creases), len(pattern.edges)) == (7, 17)
    assert pattern.box == (0, 0, 3, 2)


def test_interior_ends_are_the_ends_off_the_border() -> None:
    """In a 2 x 3 map the crease between the two interior points has two, the other six have one."""
    pattern = map_sheet(2, 3)
    assert sorted(len(pattern.interior_ends[edge]) for edge in pattern.creases) == [1] * 6 + [2]
    assert all(
        pattern.interior_ends[index] == () for index, edge in enumerate(pattern.edges) if edge.label == "B"
    )


def switched_there_and_back(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern with its first two creases switched twice."""
    switch = pattern.creases[:2]
    return pattern.switched(switch).switched(switch)


def test_switching_exchanges_mountain_and_valley_on_the_chosen_creases_only() -> None:
    """Exactly the chosen creases change, and a second switch takes it back."""
    pattern = draw(Stretch((1, 1)))
    chosen = pattern.creases[:2]
    other = pattern.switched(chosen)
    changed = {i for i, (a, b) in enumerate(zip(pattern.labels(), other.labels(), strict=True)) if a != b}
    assert changed == set(chosen)
    assert switched_there_and_back(pattern) == pattern


def test_the_border_has_no_mountain_or_valley_to_switch_or_take_away() -> None:
    """Border pieces stay B when switched and when the labels are taken away."""
    pattern = draw(Stretch((1, 1)))
    border = [index for index, edge in enumerate(pattern.edges) if edge.role == "border"]
    assert pattern.switched(border) == pattern
    bare = pattern.unlabelled()
    assert {bare.edges[index].label for index in border} == {"B"}
    assert {bare.edges[index].label for index in bare.creases} == {"U"}


def test_the_integer_view_has_the_same_points_in_a_smaller_unit() -> None:
    """Creases that cross at quarters: four units to a square, each number whole."""
    pattern = build(
        [Line(Point(0, 0), Point(3, 1), "other", "U"), Line(Point(0, 1), Point(1, 0), "other", "U")],
        Paper(0, 0, 3, 1),
    )
    unit, points = pattern.on_integers
    assert unit == 4
    assert [(Fraction(x, unit), Fraction(y, unit)) for x, y in points] == list(pattern.vertices)


def test_what_leaves_a_vertex_is_the_same_by_direction_as_around_it() -> None:
    """Each direction has the edge that leaves in it and the vertex at its other end."""
    pattern = draw(Stretch((1, 1)))
    for vertex, leaving in enumerate(pattern.leaving):
        assert tuple(leaving) == pattern.directions[vertex]
        assert tuple(edge for edge, _ in leaving.values()) == pattern.around[vertex]
        assert tuple(other for _, other in leaving.values()) == pattern.neighbours[vertex]
        for direction, (edge, other) in leaving.items():
            assert set(pattern.ends(edge)) == {pattern.vertices[vertex], pattern.vertices[other]}
            assert direction == direction_of(move_between(pattern.vertices[vertex], pattern.vertices[other]))


def test_a_map_has_its_squares_as_faces() -> None:
    """A map of 2 x 3 has six faces of four corners and area 1 each."""
    pattern = map_sheet(2, 3)
    found = faces(pattern)
    assert [len(cycle) for cycle in found] == [4] * 6
    assert [area_of(pattern, cycle) for cycle in found] == [2] * 6


def area_of(pattern: CreasePattern, cycle: tuple[int, ...]) -> Exact:
    """Return twice the area of a face."""
    return double_area([pattern.vertices[vertex] for vertex in cycle])


def fills_the_paper(pattern: CreasePattern) -> bool:
    """Whether V - E + F = 1 without the outside, and the faces' areas add up to the paper's."""
    left, bottom, right, top = pattern.box
    found = faces(pattern)
    euler = len(pattern.vertices) - len(pattern.edges) + len(found)
    area = sum(area_of(pattern, cycle) for cycle in found)
    return euler == 1 and area == 2 * (right - left) * (top - bottom)


@given(small_stretches())
def test_the_faces_of_a_stretch_fill_its_paper(stretch: Stretch) -> None:
    """Euler's formula holds and the areas add up to the sheet."""
    assert fills_the_paper(draw(stretch))


def test_twists_have_the_known_number_of_faces() -> None:
    """The square twist has 9 faces, and the square's area is 2."""
    pattern = square_twist()
    assert fills_the_paper(pattern)
    areas = [area_of(pattern, cycle) for cycle in faces(pattern)]
    assert len(areas) == 9
    assert min(areas) == 4


def test_each_piece_of_a_crease_has_one_face_on_either_side() -> None:
    """Every crease is walked once each way; every border piece once, with the paper on its left."""
    pattern = draw(Stretch((2, 2)))
    walked = [pair for cycle in faces(pattern) for pair in zip(cycle, cycle[1:] + cycle[:1], strict=True)]
    assert len(set(walked)) == len(walked)
    for edge, both in product(pattern.edges, (True, False)):
        pair = (edge.start, edge.end) if both else (edge.end, edge.start)
        assert pair in walked or edge.label == "B"


def test_a_triangle_with_rays_has_seven_faces() -> None:
    """The triangle, three pleats and three corners: 7."""
    assert len(faces(triangle_twist([Point(0, 0), Point(4, 0), Point(2, 3)]))) == 7


ROLES: tuple[Role, ...] = ("outline", "inside", "ridge", "pleat", "hinge")
SHEET = draw(Stretch((2, 2)))


def test_a_side_is_one_straight_run_through_its_turning_point() -> None:
    """S (1, 1), A (7, 3), T (9, 7), B (3, 5), by hand: four sides of two pieces each."""
    expected = [
        [(1, 1), (2, 3), (3, 5)],
        [(1, 1), (4, 2), (7, 3)],
        [(3, 5), (6, 6), (9, 7)],
        [(7, 3), (8, 5), (9, 7)],
    ]
    assert places(SHEET, straight_runs(SHEET, "outline")) == expected


def places(pattern: CreasePattern, runs: list[Run]) -> list[list[Point]]:
    """Return the points of each run, from its lesser end, all sorted."""
    rows = [[pattern.vertices[vertex] for vertex in run.vertices] for run in runs]
    return sorted(min(row, row[::-1]) for row in rows)


def test_inside_lines_and_hinges_of_a_known_sheet() -> None:
    """Three inside lines of one piece; the hinge of A runs straight down over a pleat line to the edge."""
    assert places(SHEET, straight_runs(SHEET, "inside")) == [
        [(1, 1), (9, 7)],
        [(2, 3), (6, 6)],
        [(4, 2), (8, 5)],
    ]
    hinges = places(SHEET, straight_runs(SHEET, "hinge"))
    assert [(7, 0), (7, 1), (7, 2), (7, 3)] in hinges
    assert [(3, 5), (3, 6), (3, 7), (3, 8)] in hinges


def test_a_pleat_line_bends_at_the_ridges() -> None:
    """The line of rank 1 round A leaves (4, 2), turns up at A's ridge in (8, 2) and ends in (8, 5)."""
    straight, bent = (places(SHEET, runs(SHEET, "pleat")) for runs in (straight_runs, bent_runs))
    assert [(4, 2), (7, 2), (8, 2)] in straight
    assert [(8, 2), (8, 5)] in straight
    assert [(4, 2), (7, 2), (8, 2), (8, 5)] in bent
    assert len(bent) < len(straight)


@pytest.mark.parametrize("runs", [straight_runs, bent_runs])
@given(stretch=small_stretches())
def test_every_edge_of_a_role_is_in_one_run(
    runs: Callable[[CreasePattern, Role], list[Run]], stretch: Stretch
) -> None:
    """No edge is left out or taken twice, and each joins its two vertices in the row."""
    pattern = draw(stretch)
    for role in ROLES:
        found = runs(pattern, role)
        taken = [edge for run in found for edge in run.edges]
        assert sorted(taken) == [edge for edge in pattern.creases if pattern.edges[edge].role == role]
        for run in found:
            joined = [{pattern.edges[edge].start, pattern.edges[edge].end} for edge in run.edges]
            assert joined == [set(pair) for pair in pairwise(run.vertices)]


@given(small_stretches())
def test_a_straight_run_goes_one_way_and_as_far_as_it_can(stretch: Stretch) -> None:
    """All its edges have one direction, and no other run of the role goes on beyond its ends."""
    pattern = draw(stretch)
    for role in ROLES:
        for run in straight_runs(pattern, role):
            ways = {pattern.direction(edge, at) for edge, at in zip(run.edges, run.vertices, strict=False)}
            assert len(ways) == 1
            (way,) = ways
            last = run.vertices[-1]
            for edge in set(pattern.around[last]) - {run.edges[-1]}:
                assert pattern.edges[edge].role != role or pattern.direction(edge, last) != way


@given(small_stretches())
def test_pleat_lines_keep_their_label_round_every_bend(stretch: Stretch) -> None:
    """A pleat line of one rank has one label from end to end, bends included."""
    pattern = draw(stretch)
    for run in bent_runs(pattern, "pleat"):
        assert len({pattern.edges[edge].label for edge in run.edges}) == 1


def test_a_line_that_closes_is_one_run() -> None:
    """A square inside the sheet bends four times and comes back to where it began."""
    corners = [Point(1, 1), Point(3, 1), Point(3, 3), Point(1, 3)]
    sides = [Line(a, b, "pleat", "M") for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    (run,) = bent_runs(build(sides, Paper(0, 0, 4, 4)), "pleat")
    assert len(run.edges) == 4
    assert run.vertices[0] == run.vertices[-1]
    assert len(straight_runs(build(sides, Paper(0, 0, 4, 4)), "pleat")) == 4


def test_where_three_of_a_role_meet_a_run_does_not_choose() -> None:
    """At a fork only what goes straight on is followed."""
    fork = [
        Line(Point(0, 1), Point(4, 1), "pleat", "M"),
        Line(Point(2, 1), Point(2, 3), "pleat", "M"),
    ]
    pattern = build(fork, Paper(0, 0, 4, 3))
    assert places(pattern, bent_runs(pattern, "pleat")) == [[(0, 1), (2, 1), (4, 1)], [(2, 1), (2, 3)]]
    arms = [Point(0, 1), Point(4, 1), Point(2, 4)]
    star = build([Line(Point(2, 2), end, "pleat", "M") for end in arms], Paper(0, 0, 4, 4))
    assert len(bent_runs(star, "pleat")) == 3
