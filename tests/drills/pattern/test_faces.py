from __future__ import annotations

from itertools import product

from hypothesis import given

from drills.geometry import Exact, Point, double_area
from drills.pattern import CreasePattern, faces
from drills.structures import Stretch, draw
from tests.drills.sheets import map_sheet, small_stretches, square_twist, triangle_twist


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
