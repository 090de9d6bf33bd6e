from __future__ import annotations

from time import perf_counter

import pytest

from drills.geometry import Point
from drills.pattern import CreasePattern, Edge, Paper, build, faces
from drills.structures import Stretch, draw, find_stretches, outline
from tests.drills.sheets import map_sheet, miura, square_twist, star, triangle_twist, ways
from tests.drills.structures.test_finder import bare, line, with_role


@pytest.mark.parametrize("role", ["outline", "ridge", "inside"])
def test_what_a_stretch_cannot_be_without(role: str) -> None:
    """An edge of its outline, the only inside line, and the ridges of its side corners."""
    pattern = draw(Stretch((1, 1)))
    at_side_corners = {pattern.vertices.index(corner) for corner in outline(Stretch((1, 1)))[1::2]}
    for edge in with_role(pattern, role):
        if role != "ridge" or at_side_corners & set(pattern.edges[edge][:2]):
            rest = tuple(other for number, other in enumerate(pattern.edges) if number != edge)
            assert find_stretches(bare(CreasePattern(pattern.vertices, rest))) == ()


SIDES = [line((4, 4), (7, 5)), line((7, 5), (8, 7)), line((8, 7), (5, 6)), line((5, 6), (4, 4))]
MIDDLE = line((4, 4), (8, 7))
RIDGES = [line((4, 4), (2, 2)), line((7, 5), (9, 3)), line((8, 7), (9, 8)), line((5, 6), (3, 8))]
ROOF = [line((2, 3), (4, 5)), line((2, 7), (4, 5)), line((9, 3), (7, 5)), line((9, 7), (7, 5))]
ZIGZAG = [line((0, 1), (12, 5)), line((1, 3), (10, 6))] + [
    line(*ends)
    for x, y in ((3, 2), (6, 3))
    for ends in (((x, y), (12, y)), ((x, y), (x + 4, y + 3)), ((x + 4, y + 3), (0, y + 3)))
]
DIAMOND = [line((2, 5), (5, 8)), line((5, 8), (8, 5)), line((8, 5), (5, 2)), line((5, 2), (2, 5))] + [
    line(*ends)
    for x, y in ((2, 5), (3, 6), (4, 7), (5, 8), (6, 7), (7, 6), (8, 5))
    for ends in (((x, 0), (x, 10 - y)), ((x, 10), (x, y)))
]
LOOK_ALIKES = {
    "the example itself": ([*SIDES, *RIDGES, MIDDLE], 1),
    "no ridges": ([*SIDES, MIDDLE], 0),
    "nothing inside": ([*SIDES, *RIDGES], 0),
    "the other middle": ([*SIDES, *RIDGES, line((7, 5), (5, 6))], 0),
    "an open outline": ([*SIDES[:3], *RIDGES, MIDDLE], 0),
    "two lines that cross": ([line((0, 1), (12, 5)), line((3, 0), (8, 10)), MIDDLE], 0),
    "a rhombus": (
        [line((2, 5), (4, 9)), line((4, 9), (6, 5)), line((6, 5), (4, 1)), line((4, 1), (2, 5))],
        0,
    ),
    "a roof": ([*ROOF, line((4, 5), (7, 5)), line((2, 3), (9, 3)), line((2, 7), (9, 7))], 0),
    "a 45-degree stretch": (DIAMOND, 0),
    "a zigzag between parallel sides": (ZIGZAG, 0),
    "plain diagonals": ([line((0, 0), (10, 10)), line((0, 10), (10, 0)), line((0, 5), (5, 10))], 0),
    "three rays from the paper's corner": ([line((0, 0), end) for end in ((12, 4), (12, 9), (5, 10))], 0),
}


@pytest.mark.parametrize("name", LOOK_ALIKES)
def test_nothing_else_is_taken_for_a_stretch(name: str) -> None:
    """Of figures with the same slopes or the same shape only the one with all its parts is found."""
    lines, number = LOOK_ALIKES[name]
    assert len(find_stretches(build(lines, Paper(0, 0, 12, 10)))) == number


def test_no_stretch_in_known_sheets() -> None:
    """Maps, the Miura pattern, twists, and single points with slanted creases have none."""
    twist = triangle_twist([Point(0, 0), Point(6, 2), Point(2, 4)])
    stars = [star(ways((3, 1), (-3, -1), (1, 0), (4, 3))), star(ways((1, 2), (2, 1), (-1, -2), (-2, -1)))]
    for pattern in (map_sheet(4, 4), miura(6, 6), square_twist(), twist, *stars):
        assert find_stretches(pattern) == ()


@pytest.mark.long
def test_finding_takes_no_time_to_speak_of() -> None:
    """Under 20 ms for a sheet of 130 faces, under half a second for 5,000 edges, cut or whole."""
    sheet = draw(Stretch((10, 10), pleats=10))
    assert len(faces(sheet)) >= 130
    assert seconds(sheet) < 0.02
    for crop in ((0, 0, 0, 0), (6, 4, 0, 0)):
        large = many(draw(Stretch((3, 3), pleats=2, crop=crop)), 5000)
        assert len(large.edges) >= 5000
        assert seconds(large) < 0.5


def many(pattern: CreasePattern, edges: int) -> CreasePattern:
    """Return the pattern side by side with itself until there are so many edges."""
    points, joined = len(pattern.vertices), list[Edge]()
    copies = -(-edges // len(pattern.edges))
    for copy in range(copies):
        joined += (
            e._replace(start=e.start + copy * points, end=e.end + copy * points) for e in pattern.edges
        )
    row = (Point(x + 40 * copy, y) for copy in range(copies) for x, y in pattern.vertices)
    return CreasePattern(tuple(row), tuple(joined))


def seconds(pattern: CreasePattern) -> float:
    """Return the shortest of three times that finding takes."""
    times = []
    for _ in range(3):
        start = perf_counter()
        find_stretches(pattern)
        times.append(perf_counter() - start)
    return min(times)
