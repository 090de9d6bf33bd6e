from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import product

import pytest

from drills.geometry import SYMMETRIES, Chance, Direction, Point, cross, dot, meeting, moved
from drills.pattern import CreasePattern, Line, Paper, build, shifted
from drills.questions import FAIR_CUTS
from drills.questions.sinks import tip, turning_points
from drills.structures import TRIANGLES, Found, Stretch, Triangle, draw, find_stretches, outline
from tests.drills.questions.test_levels import cut_stretches
from tests.drills.sheets import HINGES

UNITS: list[tuple[int, int]] = [(1, 1), (2, 2), (3, 3), (1, 2), (2, 1), (1, 3), (3, 1), (2, 3), (3, 2)]
Spot = tuple[Stretch, int, int]


@pytest.mark.parametrize("units", UNITS)
def test_each_whole_stretch_is_found_once_and_as_it_was_drawn(units: tuple[int, int]) -> None:
    """With all hinges, no to three pleats around and in each facing: corners, lines, points and sides."""
    for hinges, pleats, facing in product(HINGES, range(4), range(4)):
        stretch = Stretch(units, hinges, pleats, facing)
        assert seen(find_stretches(bare(draw(stretch)))) == [shown(stretch)]
        (found,) = find_stretches(bare(draw(stretch)))
        assert (found.units, found.facing, found.is_whole) == (units, facing, True)
        assert found.corners == outline(stretch)


def bare(pattern: CreasePattern) -> CreasePattern:
    """Return the pattern with nothing said of its creases: no roles and no labels."""
    edges = (edge._replace(role="other") for edge in pattern.unlabelled().edges)
    return CreasePattern(pattern.vertices, tuple(edges))


Seen = tuple[str, tuple[Point | None, ...], tuple[int, ...], tuple[int, ...], tuple[int, ...]]


def seen(found: Iterable[Found]) -> list[Seen]:
    """Return what is compared of each stretch found."""
    return [(f.triangle.name, f.corners, f.outline, f.inside, f.turning_points) for f in found]


def shown(stretch: Stretch) -> Seen:
    """Return what the drawn sheet shows of a stretch, by the roles that it was drawn with."""
    pattern = draw(stretch)
    places = {point: vertex for vertex, point in enumerate(pattern.vertices)}
    corners = [corner if sides_at(pattern, places.get(corner)) == 2 else None for corner in outline(stretch)]
    edges = [with_role(pattern, role) for role in ("outline", "inside")]
    return stretch.triangle.name, tuple(corners), edges[0], edges[1], tuple(turning_points(pattern))


def with_role(pattern: CreasePattern, role: str) -> tuple[int, ...]:
    """Return the edges of a role."""
    return tuple(index for index, edge in enumerate(pattern.edges) if edge.role == role)


def sides_at(pattern: CreasePattern, vertex: int | None) -> int:
    """Return how many of the edges at a vertex, if it is one, were drawn as outline."""
    return 0 if vertex is None else sum(pattern.edges[e].role == "outline" for e in pattern.around[vertex])


def test_the_worked_example_has_its_sides_and_steps() -> None:
    """Two pleats a side, one around: shallow (6, 2), steep (2, 4); mirrored, the other way across."""
    (found,) = find_stretches(bare(draw(Stretch((2, 2)))))
    assert (found.shallow, found.steep) == ((6, 2), (2, 4))
    (found,) = find_stretches(bare(draw(Stretch((2, 2), facing=2))))
    assert (found.shallow, found.steep) == ((-6, 2), (-2, 4))


def test_roles_and_labels_play_no_part() -> None:
    """Labelled, with mountains and valleys exchanged, or bare: the same is found."""
    for units, facing, exchanged in product(UNITS, range(4), (False, True)):
        pattern = draw(Stretch(units, facing=facing, exchanged=exchanged))
        assert find_stretches(pattern) == find_stretches(bare(pattern)) != ()


def test_the_table_of_triangles() -> None:
    """Five, each with sides that enclose 45 degrees and inside lines along the triangle."""
    legs = [sorted(int(part) for part in triangle.name.split("-")[:2]) for triangle in TRIANGLES]
    assert legs == [[3, 4], [5, 12], [8, 15], [7, 24], [20, 21]]
    assert [sorted(triangle.inside) for triangle in TRIANGLES] == legs
    assert all(cross(t.shallow, t.steep) == dot(t.shallow, t.steep) > 0 for t in TRIANGLES)
    assert [triangle.width for triangle in TRIANGLES] == [1, 2, 3, 3, 6]


@pytest.mark.parametrize("triangle", TRIANGLES[1:], ids=lambda triangle: triangle.name)
def test_stretches_of_other_triangles(triangle: Triangle) -> None:
    """With their narrowest pleats, and with pleats one square wide: turning points on halves and thirds."""
    for drawn in (triangle, triangle._replace(width=1)):
        for facing, (units, pleats) in enumerate(product(UNITS, (0, 1))):
            stretch = Stretch(units, HINGES[1], pleats, facing % 4, triangle=drawn)
            found = find_stretches(bare(draw(stretch)))
            assert seen(found) == [shown(stretch)]
            assert (found[0].triangle, found[0].units) == (triangle, units)


CUT_FIRST = [(2, 2), (2, 1)]
CUT_LATER = [pytest.param(units, marks=pytest.mark.long) for units in FAIR_CUTS if units not in CUT_FIRST]


@pytest.mark.parametrize("units", [*CUT_FIRST, *CUT_LATER])
def test_stretches_that_the_papers_edge_cuts(units: tuple[int, int]) -> None:
    """Every fair cut leaves one stretch, with all that is on the paper and no corner that is off it."""
    for stretch in cut_stretches(units):
        (found,) = find_stretches(bare(draw(stretch)))
        assert seen([found]) == [shown(stretch)]
        assert not found.is_whole


@pytest.mark.parametrize("crops", [40, pytest.param(300, marks=pytest.mark.long)])
def test_stretches_cut_anyhow(crops: int) -> None:
    """Each chance crop is found once, or not at all where too little is left to tell."""
    chance, told = Chance("cut anyhow"), 0
    for _ in range(crops):
        stretch = cut_anyhow(chance)
        told += is_told(stretch)
        assert seen(find_stretches(bare(draw(stretch)))) == [shown(stretch)] * is_told(stretch), stretch
    assert told > crops / 3


def cut_anyhow(chance: Chance) -> Stretch:
    """Return a stretch of any triangle of which any rectangle is left."""
    units, triangle = chance.pick(UNITS), chance.pick(TRIANGLES)
    whole = Stretch(units, chance.pick(HINGES), chance.below(3), chance.below(4), triangle=triangle)
    paper = whole.paper
    left, bottom = chance.below(int(paper.right - paper.left)), chance.below(int(paper.top - paper.bottom))
    if chance.one_in(2):
        left, bottom = left // 4, bottom // 4
    right = chance.below(int(paper.right - paper.left) - left) // 2
    top = chance.below(int(paper.top - paper.bottom) - bottom) // 2
    crop = (left, bottom, right, top)
    return Stretch(units, whole.hinges, whole.pleats, whole.facing, crop=crop, triangle=triangle)


def is_told(stretch: Stretch) -> bool:
    """Whether unlike sides show, and a line ends in a turning point or, near a ridge, a far corner."""
    pattern = draw(stretch)
    edges, inside = with_role(pattern, "outline"), with_role(pattern, "inside")
    slopes = {frozenset(pattern.direction(edge, pattern.edges[edge].start)) for edge in edges}
    ends = {vertex for edge in inside for vertex in pattern.edges[edge][:2]}
    corners = {vertex for vertex, at in enumerate(pattern.vertices) if at in shown(stretch)[1]}
    anchored = turning_points(pattern) or (ends & corners and corners & set(pattern.interior))
    return len(slopes) == 2 and bool(anchored)


@pytest.mark.parametrize(("units", "pleats"), [*product(((1, 1), (2, 2), (3, 3)), range(4))])
def test_a_lone_tip_is_not_taken_for_a_stretch(units: tuple[int, int], pleats: int) -> None:
    """A side corner at the paper's edge, with a piece of two sides and no inside line, is not enough."""
    for hinges, facing in product(HINGES, range(4)):
        assert find_stretches(bare(draw(tip(Stretch(units, hinges, pleats, facing))))) == ()


def test_several_stretches_on_one_sheet() -> None:
    """Two and three, mirrored, of different triangles and pleats, a square or two apart, are each found."""
    thin = TRIANGLES[3]._replace(width=1)
    for facing, other in product(range(4), repeat=2):
        first, second = Stretch((2, 2), facing=facing), Stretch((1, 2), HINGES[3], 1, other)
        third = Stretch((1, 1), facing=facing, triangle=TRIANGLES[1])
        narrow = Stretch((2, 1), facing=other, triangle=thin)
        for spots in ([(first, 0, 0), (second, 11, 0)], [(third, 0, 0), (second, 18, 1), (narrow, 30, 0)]):
            check_found(spots, build(lines_of(spots), Paper(-1, -1, 60, 60)))


def lines_of(spots: Iterable[Spot]) -> list[Line]:
    """Return the creases of stretches, each so far right and up."""
    patterns = (shifted(draw(stretch), right, up) for stretch, right, up in spots)
    return [Line(*p.ends(edge), p.edges[edge].role, "U") for p in patterns for edge in p.creases]


def check_found(spots: Sequence[Spot], pattern: CreasePattern) -> None:
    """Compare what is found with the corners of the stretches, and with the roles they were drawn with."""
    corners = {
        (stretch.triangle.name, *(Point(x + right, y + up) for x, y in outline(stretch)))
        for stretch, right, up in spots
    }
    found = find_stretches(bare(pattern))
    assert len(found) == len(spots)
    assert {(f.triangle.name, *f.corners) for f in found} == corners
    assert sorted(e for f in found for e in f.outline) == list(with_role(pattern, "outline"))
    assert sorted(e for f in found for e in f.inside) == list(with_role(pattern, "inside"))


def test_stretches_that_touch_in_their_far_corners() -> None:
    """Where one's T is the other's S no ridge leaves it; pleat lines do, and both are found."""
    spots = [(Stretch((2, 2), pleats=0), 0, 0), (Stretch((2, 2), pleats=0), 8, 6)]
    across = [line((0, 6), (16, 6)), line((8, 0), (8, 12))]
    check_found(spots, build(lines_of(spots) + across, Paper(0, 0, 16, 12)))


def line(start: tuple[int, int], end: tuple[int, int]) -> Line:
    """Return a line between two crossings of the grid."""
    return Line(Point(*start), Point(*end), "other", "U")


LATER = [pytest.param(50 * part, 50, marks=pytest.mark.long) for part in range(6)]


@pytest.mark.parametrize(("first", "sheets"), [(0, 5), *LATER])
def test_among_scribbles_all_are_found_and_none_invented(first: int, sheets: int) -> None:
    """Sheets each with no to two stretches and forty lines like theirs drawn all across."""
    for number in range(first, first + sheets):
        chance = Chance(f"scribbles {number}")
        spots = [any_spot(chance, 16 * place) for place in range(chance.below(3))]
        lines = lines_of(spots)
        check_found(spots, build(lines + scribbles(chance, lines), Paper(-1, -1, 34, 17)))


def any_spot(chance: Chance, right: int) -> Spot:
    """Return a stretch of up to two pleats a side with its place."""
    units = 1 + chance.below(2), 1 + chance.below(2)
    return Stretch(units, chance.pick(HINGES), 1 + chance.below(2), chance.below(4)), right, chance.below(4)


SLOPES = [(3, 1), (1, 3), (2, 1), (1, 2), (4, 3), (3, 4), (1, 1), (1, 0), (0, 1)]
RARE = [(5, 1), (2, 3), (3, 2), (1, 5), (12, 5), (4, 1), (3, 5), (7, 1), (24, 7), (5, 2), (3, 7)]


def scribbles(chance: Chance, lines: Sequence[Line]) -> list[Line]:
    """Return forty lines from crossings, halves and thirds of the grid that lie on no other line."""
    drawn: list[Line] = []
    while len(drawn) < 40:
        parts = chance.pick((1, 1, 2, 3))
        start = Point(Fraction(chance.below(33 * parts), parts), Fraction(chance.below(16 * parts), parts))
        dx, dy = chance.pick(SLOPES if chance.below(4) else RARE)
        end = moved(start, Direction(dx, chance.pick((dy, -dy))), Fraction(1 + chance.below(6), 2))
        more = Line(start, end, "other", "U")
        if not any(overlap(more, other) for other in (*lines, *drawn)):
            drawn.append(more)
    return drawn


def overlap(one: Line, two: Line) -> bool:
    """Whether two lines lie on top of each other."""
    return len(meeting((one.start, one.end), (two.start, two.end))) > 1


def test_symmetries_shifts_and_scales_change_no_answer() -> None:
    """Turned, mirrored, moved, twice as large or a third the size: the same edges and points are found."""
    third = Fraction(1, 3)
    images: list[Callable[[Point], Point]] = [symmetry.of for symmetry in SYMMETRIES]
    images += [lambda p: Point(p.x + third, p.y - 7), lambda p: Point(2 * p.x, 2 * p.y)]
    images += [lambda p: Point(p.x * third, p.y * third)]
    for units, crop, image in product(UNITS, ((0, 0, 0, 0), (4, 3, 0, 0)), images):
        pattern = bare(draw(Stretch(units, HINGES[2], 2, crop=crop)))
        (before,) = find_stretches(pattern)
        (after,) = find_stretches(CreasePattern(tuple(map(image, pattern.vertices)), pattern.edges))
        assert (after.triangle, after.units) == (before.triangle, before.units)
        assert set(after.corners) == {corner and image(corner) for corner in before.corners}
        assert (after.outline, after.inside) == (before.outline, before.inside)
        assert after.turning_points == before.turning_points
