"""Folded shapes against known ones, and against the independent folding and its layers."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drills.flatfold import FoldedShape, Limit, Side, TearingError, folded_shape
from drills.geometry import Point, double_area, move_between
from drills.pattern import Line, Paper, build
from drills.structures import Stretch, draw, faces_inside, find_stretches
from tests.drills.flatfold.assorted import assorted, plain
from tests.drills.sheets import map_sheet, square_twist, star, ways
from tests.independent.folded import folded

PRELIMINARY = star(ways((1, 0), (0, 1), (-1, 0), (0, -1), (1, 1), (-1, -1)))
WATERBOMB = star(ways((1, 1), (-1, 1), (-1, -1), (1, -1), (1, 0), (-1, 0)))
NO_TIME = Limit(-1, lambda: 0.0)


def squared(one: Point, two: Point) -> Fraction:
    """Return the square of a distance."""
    move = move_between(one, two)
    return Fraction(move.dx * move.dx + move.dy * move.dy)


def outline_points(shape: FoldedShape) -> set[Point]:
    """Return the points round a shape."""
    return {point for ends in shape.outline() for point in ends}


@pytest.mark.parametrize("facing", range(4))
@pytest.mark.parametrize("pleats", [0, 1, 3])
def test_the_far_corners_of_a_stretch_lie_ten_apart(facing: int, pleats: int) -> None:
    """3-4-5 with two pleats a side: the middle line is the hypotenuse of 8 and 6 (Euclid I.47).

    What lies on either side of it goes in, so that it stays as long as it is.
    """
    pattern = draw(Stretch((2, 2), pleats=pleats, facing=facing))
    found = find_stretches(pattern)[0]
    shape = folded_shape(pattern)
    start, _, far, _ = (shape.points[pattern.vertices.index(p)] for p in found.corners if p is not None)
    assert squared(start, far) == 10 * 10
    assert shape.is_ordered


def test_the_preliminary_base_is_a_square_of_a_quarter_with_four_layers() -> None:
    """The sheet of side 2 becomes a square of side 1 (common practice, no source)."""
    shape = folded_shape(PRELIMINARY)
    assert {len(stack.faces) for stack in shape.stacks} == {4}
    xs, ys = ({getattr(p, axis) for p in outline_points(shape)} for axis in "xy")
    assert (max(xs) - min(xs), max(ys) - min(ys)) == (1, 1)
    assert sum(double_area(stack.corners) for stack in shape.stacks) == 2


def test_the_waterbomb_base_is_a_triangle_of_a_quarter_with_four_layers() -> None:
    """Right-angled, its legs half the sheet's diagonal (common practice, no source)."""
    shape = folded_shape(WATERBOMB)
    assert {len(stack.faces) for stack in shape.stacks} == {4}
    apex = shape.points[WATERBOMB.interior[0]]
    furthest = max(squared(apex, point) for point in outline_points(shape))
    assert furthest == 2
    assert sum(1 for point in outline_points(shape) if squared(apex, point) == furthest) == 2
    assert sum(double_area(stack.corners) for stack in shape.stacks) == 2


def test_shapes_of_sheets_of_all_sorts_are_those_of_the_independent_folding() -> None:
    """Distances of folded points by another hand; and no paper is lost: areas times layers are the faces'."""
    for pattern in (*assorted(12, "shapes"), square_twist(), map_sheet(2, 3)):
        shape, again = folded_shape(pattern), folded(plain(pattern))
        here, there = shape.points, [Point(*place) for place in again.places]
        for vertex in range(len(here)):
            assert squared(here[0], here[vertex]) == squared(there[0], there[vertex])
            assert squared(here[-1], here[vertex]) == squared(there[-1], there[vertex])
        areas = [double_area(stack.corners) for stack in shape.stacks]
        assert min(areas) > 0
        layered = sum(area * len(s.faces) for area, s in zip(areas, shape.stacks, strict=True))
        assert layered == sum(double_area([pattern.vertices[v] for v in face]) for face in shape.faces)


@pytest.mark.parametrize("staying", [False, True])
def test_a_mountain_has_its_upright_face_above(staying: bool) -> None:
    """In every stack that holds both faces of a crease, whichever face is left as it lies."""
    pattern = draw(Stretch((2, 2), pleats=2))
    part = find_stretches(pattern)[0].parts_that_go_in()[0]
    shape = folded_shape(pattern, faces_inside(pattern, part) if staying else ())
    beside = {
        frozenset(ends): face
        for face, cycle in enumerate(shape.faces)
        for ends in zip(cycle, cycle[1:] + cycle[:1], strict=True)
        if not shape.over[face]
    }
    judged = 0
    for edge in pattern.edges:
        upright = beside.get(frozenset((edge.start, edge.end)))
        both = [f for f, cycle in enumerate(shape.faces) if {edge.start, edge.end} <= {*cycle}]
        if upright is None or len(both) != 2:
            continue
        other = sum(both) - upright
        for stack in shape.stacks:
            if {upright, other} <= {*stack.faces}:
                is_above = stack.faces.index(upright) > stack.faces.index(other)
                assert is_above == (edge.label == "M")
                judged += 1
    assert judged > 100


def test_from_behind_the_lowest_layers_are_seen() -> None:
    """A strip of cells 1, 2, 2 folded over itself: its edge is seen from one side only, by hand."""
    lines = [Line(Point(1, 0), Point(1, 1), "other", "V"), Line(Point(3, 0), Point(3, 1), "other", "M")]
    shape = folded_shape(build(lines, Paper(0, 0, 5, 1)))
    sides: tuple[Side, Side] = "above", "below"
    inner = [len(list(shape.edges_seen(side))) - len(list(shape.outline())) for side in sides]
    assert sorted(inner) == [0, 1]


def test_without_an_order_only_the_outline_is_seen() -> None:
    """Labels that cannot fold, and a search without time, leave the shape and no layers."""
    wrong = PRELIMINARY.with_labels("B" if edge.label == "B" else "M" for edge in PRELIMINARY.edges)
    for shape in (folded_shape(wrong), folded_shape(draw(Stretch((3, 3), pleats=8)), limit=NO_TIME)):
        assert not shape.is_ordered
        assert list(shape.edges_seen("above")) == list(shape.outline())


def test_what_does_not_close_has_no_shape() -> None:
    """Angles of 45, 45 and 270 degrees."""
    with pytest.raises(TearingError):
        folded_shape(star(ways((1, 0), (1, 1), (-1, 0), (0, -1))))
