"""The grid from blank paper: Haga's fold reflected exactly, and every part reached by laying line on line."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drills.pattern import Paper, build
from drills.plan import grid_of, halvings


def crossed(corner: Fraction) -> Fraction:
    """Return how far below the top left corner the folded lower edge of a unit square meets the left edge.

    Worked out with analytic geometry alone: the fold carries (1, 0) to (1 - corner, 1), so it is their
    perpendicular bisector; the lower edge's other end (0, 0) is reflected in it.
    """
    dx, dy = -corner, Fraction(1)
    middle_x, middle_y = 1 + dx / 2, dy / 2
    share = 2 * (dx * (0 - middle_x) + dy * (0 - middle_y)) / (dx * dx + dy * dy)
    image_x, image_y = -share * dx, -share * dy
    top_x, top_y = 1 - corner, Fraction(1)
    return 1 - (top_y + (image_y - top_y) * (0 - top_x) / (image_x - top_x))


@pytest.mark.parametrize("squares", [*range(1, 65)])
def test_an_odd_number_of_parts_is_exact(squares: int) -> None:
    """The mark lies on a line of the grid; its corner is found by halving; an error grows as reckoned."""
    grid = grid_of(build([], Paper(0, 0, squares, squares)))
    assert grid.parts << grid.halved == squares == grid.squares
    assert grid.parts % 2 == 1
    assert not grid.is_cut
    reference = grid.reference
    if reference is None:
        assert grid.parts == 1
        return
    assert crossed(reference.corner) == reference.mark
    assert (reference.mark * grid.parts).denominator == 1
    assert reference.corner.denominator & (reference.corner.denominator - 1) == 0
    little = Fraction(1, 10**9)
    grown = (crossed(reference.corner + little) - reference.mark) / little
    assert abs(grown - reference.gain) < Fraction(1, 10**6)


def test_thirds_fifths_and_sevenths() -> None:
    """The corner at a half gives thirds, a quarter fifths: Haga, Origamics, from memory."""
    marks = {}
    for squares in (3, 5, 7, 12):
        reference = grid_of(build([], Paper(0, 0, squares, squares))).reference
        assert reference
        marks[squares] = reference.corner, reference.mark
    half, quarter = Fraction(1, 2), Fraction(1, 4)
    assert marks == {
        3: (half, Fraction(2, 3)),
        5: (quarter, Fraction(2, 5)),
        7: (3 * quarter, Fraction(6, 7)),
        12: (half, Fraction(2, 3)),
    }


@pytest.mark.parametrize("parts", [3, 5, 7, 9, 11, 13, 15, 21, 25])
def test_line_on_line_reaches_every_part(parts: int) -> None:
    """Each fold lays two lines that are there on each other, and in the end all are there once."""
    reference = grid_of(build([], Paper(0, 0, parts, parts))).reference
    assert reference
    lines = {Fraction(0), Fraction(parts), reference.mark * parts}
    for one, other, new in halvings(reference):
        assert {one, other} <= lines
        assert new not in lines
        assert Fraction(one + other, 2) == new
        lines.add(Fraction(new))
    assert lines == set(range(parts + 1))


def test_a_sheet_that_is_no_square_is_cut_from_one() -> None:
    """9 by 6 squares come out of 9 by 9, those by thirds halved no more."""
    grid = grid_of(build([], Paper(0, 0, 9, 6)))
    assert (grid.squares, grid.across, grid.down, grid.is_cut) == (9, 9, 6, True)
    assert grid.next_power == 16
