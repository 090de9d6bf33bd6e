from __future__ import annotations

from time import process_time

import pytest

from drills.fold_file import FoldFileError, read_sheet
from tests.drills.fold_file.writing import Drawn, border, lines_fold, read, square, text_of


def test_the_outline_is_found_whatever_runs_inside() -> None:
    """Without labels the square's sides are the paper's edge; lines that cross or end inside are not."""
    inside = [((0, 0), (4, 4), "M"), ((4, 0), (0, 4), "V"), ((2, 2), (3, 2), "M")]
    sheet = read(lines_fold([*((start, end, "U") for start, end, _ in square(4)), *inside]))
    edges = sheet.pattern.edges
    assert {sheet.edges[edge] for edge in range(len(edges)) if edges[edge].label == "B"} == {0, 1, 2, 3}


def test_two_sheets_that_hang_on_the_lowest_point_are_no_sheet() -> None:
    """A walk round the outside is back at the lowest point, but would go on with the other sheet."""
    wings: list[list[tuple[float, float]]] = [[(0, 0), (4, 1), (4, 4)], [(0, 0), (-4, 4), (-4, 1)]]
    with pytest.raises(FoldFileError, match="No closed convex edge"):
        read(lines_fold((start, end, "U") for wing in wings for start, end, _ in border(wing)))


@pytest.mark.parametrize("corner", [(4, 4), (2, 2), (3, 2)])
def test_a_corner_may_lie_on_the_line_between_its_neighbours(corner: tuple[float, float]) -> None:
    """Such paper is still convex, and so is what bulges by any amount."""
    sheet = read(lines_fold(border([(0, 0), (4, 0), corner, (0, 4)])))
    assert len(sheet.pattern.edges) == 4


@pytest.mark.parametrize("corner", [(1, 2), (1, 1), (2, 1.75)])
def test_a_corner_behind_that_line_makes_a_notch(corner: tuple[float, float]) -> None:
    """The paper is then not convex."""
    with pytest.raises(FoldFileError, match="The paper is not convex"):
        read(lines_fold(border([(0, 0), (4, 0), corner, (0, 4)])))


def test_a_hair_behind_is_still_convex_off_the_grid() -> None:
    """Rounding put a corner a millionth behind the line through its neighbours; that is no notch."""
    leaning: list[tuple[float, float]] = [
        (0, 0),
        (7.351234, 1.234567),
        (6.903171, 8.585801),
        (-1.041593, 7.351234),
    ]
    middle = (3.675616, 0.617284)
    sheet = read(lines_fold(border([leaning[0], middle, *leaning[1:]])))
    assert not sheet.exact
    assert len(sheet.pattern.edges) == 5


def test_lines_on_top_of_each_other_are_no_outline() -> None:
    """Of two in one direction either may be walked, and the walk need not come back to its start."""
    drawn: list[Drawn] = [((0, 0), (2, 0), "F"), ((1, 0), (3, 0), "F"), ((2, 0), (3, 0), "F")]
    with pytest.raises(FoldFileError, match="no crease and no edge of the paper"):
        read(lines_fold(drawn))


def test_a_star_of_many_lines_is_given_up_soon() -> None:
    """Not each of its rays is walked: sixteen times as many take about so much longer, not 256 times."""
    few, many = (star(rays) for rays in (1_000, 16_000))
    assert refused_after(many) < 64 * min(refused_after(few) for _ in range(3))


def star(rays: int) -> bytes:
    """Return a file of lines from the lowest point to points on a parabola above it."""
    points = [[0, 0], *([x, 1 + x * x] for x in range(-rays // 2, rays // 2))]
    pairs = [[0, ray] for ray in range(1, len(points))]
    labels = ["M"] * len(pairs)
    return text_of({"vertices_coords": points, "edges_vertices": pairs, "edges_assignment": labels})


def refused_after(text: bytes) -> float:
    """Return the seconds of processor time until a file is refused."""
    start = process_time()
    with pytest.raises(FoldFileError):
        read_sheet(text)
    return process_time() - start
