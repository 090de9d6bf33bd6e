from __future__ import annotations

from fractions import Fraction
from math import cos, sin, sqrt
from time import process_time
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drills.fold_file import FoldFileError, ImportedPattern, read_sheet
from drills.geometry import Point
from drills.pattern import CreasePattern, Label, Line, Paper, build, clipped
from tests.drills.fold_file.writing import Drawn, figure, lines_fold, plain_fold, read, square, text_of


def test_lines_are_split_where_they_cross_at_an_exact_point() -> None:
    """(0, 0)-(4, 3) and (0, 2)-(4, 0) cross at (8/5, 6/5), a new point that both go through."""
    sheet = read(lines_fold([*square(4), ((0, 0), (4, 3), "M"), ((0, 2), (4, 0), "V")]))
    (inner,) = sheet.pattern.interior
    assert sheet.pattern.vertices[inner] == (Fraction(8, 5), Fraction(6, 5))
    assert sorted(sheet.pattern.edges[edge].label for edge in sheet.pattern.around[inner]) == list("MMVV")


PAPER = Paper(0, 0, 8, 6)
numbers = st.integers(min_value=-4, max_value=12)
points = st.builds(Point, numbers, numbers)
labels: st.SearchStrategy[Label] = st.sampled_from(("M", "V", "U"))
lines = st.builds(Line, points, points, st.just("other"), labels).filter(lambda it: it.start != it.end)


@given(st.lists(lines, max_size=8))
def test_the_pieces_are_those_that_building_makes(drawn: list[Line]) -> None:
    """Another way to split, which compares all lines with all, gives the same labelled figure."""
    inside = [kept for line in drawn if (kept := clipped(line, PAPER))]
    try:
        built = build(inside, PAPER)
    except ValueError:
        assume(False)
    try:
        sheet = read_sheet(text_of(exact_fold(inside)))
    except FoldFileError:
        assert not hangs_together(built)
    else:
        assert hangs_together(built)
        assert figure(sheet.pattern) == figure(built)
        assert_numbers_are_told(sheet, len(inside) + 4)


def exact_fold(inside: list[Line]) -> dict[str, Any]:
    """Return an object that draws these lines and the paper's edge, with exact points."""
    corners = PAPER.corners
    edge = [(one, two, "B") for one, two in zip(corners, corners[1:] + corners[:1], strict=True)]
    drawn = [*edge, *((line.start, line.end, line.label) for line in inside)]
    fold = lines_fold(((float(a.x), float(a.y)), (float(b.x), float(b.y)), label) for a, b, label in drawn)
    ends = [point for start, end, _ in drawn for point in (start, end)]
    return {**fold, "slantwise:vertices_exact": [[str(point.x), str(point.y)] for point in ends]}


def hangs_together(pattern: CreasePattern) -> bool:
    """Whether every vertex can be reached from the first one along edges."""
    found, waiting = {0}, [0]
    while waiting:
        vertex = waiting.pop()
        beside = {pattern.other_end(edge, vertex) for edge in pattern.around[vertex]} - found
        found |= beside
        waiting += beside
    return len(found) == len(pattern.vertices)


def assert_numbers_are_told(sheet: ImportedPattern, edges: int) -> None:
    """Check that numbers are distinct, the file's first, and that each further piece names its edge."""
    assert len(set(sheet.edges)) == len(sheet.edges) == len(sheet.pattern.edges)
    assert list(sheet.vertices) == sorted(set(sheet.vertices))
    assert set(sheet.pieces) == {number for number in sheet.edges if number >= edges}
    assert all(0 <= source < edges for source in sheet.pieces.values())


@given(st.lists(lines, min_size=1, max_size=4), st.sampled_from((0.3, 0.7, 1.1)))
def test_off_the_grid_lines_are_split_as_on_it(drawn: list[Line], angle: float) -> None:
    """A sheet turned and sheared has the same number of points and of pieces of each label."""
    inside = [kept for line in drawn if (kept := clipped(line, PAPER))]
    try:
        straight = read_sheet(text_of(exact_fold(inside)))
    except FoldFileError:
        assume(False)
    fold = exact_fold(inside)
    del fold["slantwise:vertices_exact"]
    fold["vertices_coords"] = [
        [x * cos(angle) - y * sin(angle), x * sin(angle) + y * sqrt(2)] for x, y in fold["vertices_coords"]
    ]
    turned = read(fold)
    assert not turned.exact
    assert turned.vertices == straight.vertices
    assert turned.edges == straight.edges
    assert turned.pattern.labels() == straight.pattern.labels()
    assert [edge[:2] for edge in turned.pattern.edges] == [edge[:2] for edge in straight.pattern.edges]


def full_lines(squares: int) -> list[Drawn]:
    """Return a sheet of so many squares each way: every grid line and five diagonals, uncut."""
    third = squares // 3
    drawn = square(squares)
    for at in range(1, squares):
        drawn += [((at, 0), (at, squares), "MV"[at % 2]), ((0, at), (squares, at), "VM"[at % 2])]
    drawn.append(((0, 0), (squares, squares), "M"))
    for start in (third, 2 * third):
        drawn += [
            ((start, 0), (squares, squares - start), "M"),
            ((0, start), (squares - start, squares), "V"),
        ]
    return drawn


@pytest.fixture(scope="module")
def sheets() -> dict[int, ImportedPattern]:
    """Two large sheets, read from uncut lines; the second has twice the creases."""
    return {squares: read(lines_fold(full_lines(squares))) for squares in (70, 100)}


@pytest.mark.parametrize("squares", [70, 100])
def test_a_large_grid_has_the_pieces_one_can_count(sheets: dict[int, ImportedPattern], squares: int) -> None:
    """n(n - 1) pieces upright and across each, 4n of the edge, and the squares that each diagonal passes."""
    third = squares // 3
    passed = squares + 2 * sum(squares - start for start in (third, 2 * third))
    pattern = sheets[squares].pattern
    assert len(pattern.vertices) == (squares + 1) ** 2
    assert len(pattern.edges) == 2 * squares * (squares - 1) + 4 * squares + passed
    assert sheets[squares].exact


@pytest.mark.long
@pytest.mark.parametrize("cut", [False, True], ids=["full lines", "cut up"])
def test_time_grows_with_the_number_of_creases(sheets: dict[int, ImportedPattern], cut: bool) -> None:
    """Twice as many creases, rounded parts of a unit square, take about twice as long, not four times."""
    texts = []
    for squares in (70, 100):
        fold = plain_fold(sheets[squares].pattern) if cut else lines_fold(full_lines(squares))
        points = [[round(value / squares, 7) for value in point] for point in fold["vertices_coords"]]
        texts.append(text_of({**fold, "vertices_coords": points}))
    half, whole = (min(timed(text) for text in [text] * 2) for text in texts)
    assert len(sheets[100].edges) > 2 * len(sheets[70].edges) > 20_000
    assert whole < 3.5 * half


def timed(text: bytes) -> float:
    """Return the seconds of processor time that reading takes."""
    start = process_time()
    read_sheet(text)
    return process_time() - start


def test_more_crossings_than_can_be_held_are_refused() -> None:
    """900 lines that all cross each other at points of their own have 404,550 crossings."""
    drawn: list[Drawn] = [((0, k * k / 8100), (100, 100 - k / 9), "M") for k in range(900)]
    with pytest.raises(FoldFileError, match=r"^Too many creases lie close together; save a smaller part"):
        read(lines_fold([*square(100), *drawn]))
