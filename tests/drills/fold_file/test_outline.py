from __future__ import annotations

import pytest

from drills.fold_file import (
    Ends,
    FoldFileError,
    Spot,
    is_convex,
    is_simple,
    lines_of,
    neighbours,
    reached,
    walk_round,
)
from tests.drills.fold_file.writing import lines_fold, read

SPOTS: list[Spot] = [(0, 0), (4, 0), (4, 4), (0, 4), (2, 2), (6, 1)]
SQUARE: list[Ends] = [(0, 1), (1, 2), (2, 3), (3, 0)]


def test_the_walk_round_a_square_passes_its_corners_counterclockwise() -> None:
    """Lines inside are not passed, whether they end there or run through."""
    ring = walk_round(SPOTS, neighbours([*SQUARE, (0, 4), (4, 2)]))
    assert ring == [0, 1, 2, 3]
    assert is_simple(ring)
    assert lines_of(ring, [(0, 4), *SQUARE]) == {1, 2, 3, 4}


def test_the_walk_ends_where_it_comes_to_a_point_again() -> None:
    """A line that sticks out is walked out and back, so its foot comes twice."""
    ring = walk_round(SPOTS, neighbours([*SQUARE, (1, 5)]))
    assert ring == [0, 1, 5, 1]
    assert not is_simple(ring)


def test_two_sheets_that_hang_on_the_lowest_point_are_not_walked_round() -> None:
    """The walk is back at its start, but would go on with the other sheet."""
    spots: list[Spot] = [(0, 0), (4, 1), (4, 4), (-4, 4), (-4, 1)]
    pairs: list[Ends] = [(0, 1), (1, 2), (2, 0), (0, 3), (3, 4), (4, 0)]
    assert not is_simple(walk_round(spots, neighbours(pairs)))


def test_a_star_of_many_lines_is_given_up_at_once() -> None:
    """Not each of its points is walked to: that would take time in the square of their number."""
    spots: list[Spot] = [(0, 0), *((x, 1 + x * x) for x in range(-20_000, 20_000))]
    assert len(walk_round(spots, neighbours([(0, ray) for ray in range(1, len(spots))]))) < 4


@pytest.mark.parametrize(
    ("corner", "convex"), [((4, 4), True), ((2, 2), True), ((1, 2), False), ((1, 1), False)]
)
def test_a_ring_is_convex_where_it_never_turns_right(corner: Spot, convex: bool) -> None:
    """A corner between (4, 0) and (0, 4) may lie on the line between them, but not behind it."""
    assert is_convex([(0, 0), (4, 0), corner, (0, 4)], [0, 1, 2, 3], near=0) == convex


def test_a_hair_behind_is_still_convex_where_nearness_counts() -> None:
    """A corner that rounding put a unit behind the line through its neighbours is no notch."""
    spots: list[Spot] = [(0, 0), (4000, 0), (1999, 2000), (0, 4000)]
    assert not is_convex(spots, [0, 1, 2, 3], near=0)
    assert is_convex(spots, [0, 1, 2, 3], near=1)


def test_the_walk_ends_among_lines_on_top_of_each_other() -> None:
    """Of two lines in one direction either may be taken, and the walk need not come back to its start."""
    spots: list[Spot] = [(0, 0), (1, 0), (2, 0), (3, 0)]
    overlapping: list[Ends] = [(0, 2), (1, 3), (2, 3)]
    assert not is_simple(walk_round(spots, neighbours(overlapping)))
    drawn = [((0.0, 0.0), (2.0, 0.0), "F"), ((1.0, 0.0), (3.0, 0.0), "F"), ((2.0, 0.0), (3.0, 0.0), "F")]
    with pytest.raises(FoldFileError, match="no crease and no edge of the paper"):
        read(lines_fold(drawn))


def test_what_hangs_together_is_reached() -> None:
    """From one point along lines, and no further."""
    joined = neighbours([(0, 1), (1, 2), (3, 4)])
    assert reached(joined, 2) == {0, 1, 2}
    assert reached(joined, 3) == {3, 4}
