from __future__ import annotations

from fractions import Fraction

from drills.geometry import Direction, Point, direction_of, move_between
from drills.pattern import CreasePattern, Line, Paper, build
from drills.structures import Stretch, draw
from tests.drills.sheets import map_sheet, star

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
