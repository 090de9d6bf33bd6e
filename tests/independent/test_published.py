"""The independent solver against published counts, before it is trusted with anything."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.independent.folded import TornError
from tests.independent.layers import does_fold, stacking
from tests.independent.sheet import Sheet, sheet_of

STAMPS = (1, 2, 6, 16, 50, 144, 462, 1392)
TWO_ROWS = (2, 8, 60, 320, 1980)


@pytest.mark.parametrize(("stamps", "orders"), list(enumerate(STAMPS, start=1)))
def test_stamps(stamps: int, orders: int) -> None:
    """A strip of n labelled stamps stacks in A000136(n) ways (OEIS)."""
    assert stacking(map_of(1, stamps)).count([]) == orders


def map_of(rows: int, columns: int) -> Sheet:
    """Return the map of so many rows and columns of unit squares, creases labelled U."""
    number = {(x, y): x * (rows + 1) + y for x in range(columns + 1) for y in range(rows + 1)}
    edges, labels = [], []
    for (x, y), here in number.items():
        for there, on_border in (((x + 1, y), y in (0, rows)), ((x, y + 1), x in (0, columns))):
            if there in number:
                edges.append((here, number[there]))
                labels.append("B" if on_border else "U")
    points = tuple((Fraction(x), Fraction(y)) for x, y in number)
    return Sheet(points, tuple(edges), tuple(labels))


@pytest.mark.parametrize(("columns", "orders"), list(enumerate(TWO_ROWS, start=1)))
def test_maps_of_two_rows(columns: int, orders: int) -> None:
    """A 2 x n map folds in A001415(n) ways (OEIS; W. F. Lunnon, Math. Comp. 22 (1968) 193-199)."""
    assert stacking(map_of(2, columns)).count([]) == orders


def test_the_map_of_nine() -> None:
    """The 3 x 3 map folds in A001418(3) = 1368 ways (OEIS)."""
    assert stacking(map_of(3, 3)).count([]) == 1368


@pytest.mark.parametrize("columns", [1, 2, 3, 4])
def test_a_crease_that_stays_flat_changes_nothing(columns: int) -> None:
    """A map of 2 x n whose middle line stays flat is a strip of n stamps, tortilla beside tortilla."""
    sheet = map_of(2, columns)
    middle = [e for e, ends in enumerate(sheet.edges) if all(sheet.points[p][1] == 1 for p in ends)]
    flat = sheet.labelled(tuple("F" if e in middle else label for e, label in enumerate(sheet.labels)))
    found = stacking(flat)
    assert found.count([]) == STAMPS[columns - 1]


def test_a_flat_crease_against_a_folded_one() -> None:
    """Cells 2, 1, 1 flat, 2 wide: the second and third are one cell that shorter ones fold against."""
    plain = strip((2, 2, 2), "UU")
    divided = strip((2, 1, 1, 2), "UFU")
    assert stacking(plain).count([]) == stacking(divided).count([])
    assert stacking(strip((1, 2, 1), "UU")).count([]) == stacking(strip((1, 1, 1, 1), "UFU")).count([])
    assert stacking(strip((2, 1, 2), "UU")).count([]) == 2


def strip(widths: tuple[int, ...], labels: str) -> Sheet:
    """Return a strip of cells of these widths, its creases labelled so from left to right."""
    places = [sum(widths[:count]) for count in range(len(widths) + 1)]
    points = tuple((Fraction(x), Fraction(y)) for x in places for y in (0, 1))
    upright = [(2 * n, 2 * n + 1) for n in range(len(places))]
    level = [(2 * n + side, 2 * n + 2 + side) for n in range(len(widths)) for side in (0, 1)]
    return Sheet(points, (*upright, *level), ("B", *labels, "B", *"BB" * len(widths)))


@pytest.mark.parametrize(("a", "b", "orders"), [(3, 1, 4), (5, 1, 6), (4, 2, 11), (5, 2, 13), (5, 3, 22)])
def test_mountains_then_valleys(a: int, b: int, orders: int) -> None:
    """M^a V^b stacks in ab + b^2 - b + 1 ways (Hull et al., DMTCS 27:3 (2025), arXiv:2503.23661)."""
    sheet = strip((1,) * (a + b + 1), "M" * a + "V" * b)
    assert stacking(sheet).count(stacking(sheet).units(sheet.labels)) == orders == a * b + b * b - b + 1


def test_two_mountains_round_a_short_cell() -> None:
    """Cells 2, 1, 2 wide fold as MV or VM only, big-little-big in one dimension."""
    assert [does_fold(strip((2, 1, 2), labels)) for labels in ("MV", "VM", "MM", "VV")] == [
        True,
        True,
        False,
        False,
    ]


def test_what_does_not_close_is_torn() -> None:
    """A corner creased three times at 45, 45 and 270 degrees does not lie flat."""
    points = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (2, 0), (2, 2), (0, 2), (1, 1), (2, 1)))
    edges = ((0, 1), (1, 5), (5, 2), (2, 3), (3, 0), (4, 5), (4, 2), (4, 0))
    with pytest.raises(TornError):
        stacking(Sheet(points, edges, ("B",) * 5 + ("U",) * 3))


def test_exact_coordinates_are_preferred() -> None:
    """A FOLD object's own fractions are read before its rounded numbers."""
    fold = {"vertices_coords": [[0.333, 0], [1, 0]], "edges_vertices": [[0, 1]], "edges_assignment": ["B"]}
    exact = {"slantwise:vertices_exact": [["1/3", "0"], ["1", "0"]]}
    assert sheet_of(fold).points[0][0] == Fraction("0.333")
    assert sheet_of(fold | exact).points[0][0] == Fraction(1, 3)
