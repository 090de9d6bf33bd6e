from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from drills.geometry import Point
from trainer.board import Arrow
from trainer.board.cursor import BACK, arrow_ways, nearest_that_way

places = st.sets(st.builds(Point, st.integers(-6, 6), st.fractions(-6, 6, max_denominator=3)), min_size=1)


def numbered(points: set[Point]) -> dict[int, Point]:
    """Return the points numbered in sorted order."""
    return dict(enumerate(sorted(points)))


def test_points_in_a_row_are_joined_in_their_order() -> None:
    """Three points on a grid line: right, right, and left, left back."""
    ways = arrow_ways({7: Point(0, 0), 8: Point(5, 0), 9: Point(2, 0)})
    assert ways == {(7, "right"): 9, (9, "left"): 7, (9, "right"): 8, (8, "left"): 9}


@settings(max_examples=150, deadline=None)
@given(places)
def test_any_set_of_points_is_joined_and_every_way_leads_back(points: set[Point]) -> None:
    """However they lie: the opposite arrow returns, and every point is reached from the first."""
    ways = arrow_ways(numbered(points))
    assert all(ways[end, BACK[arrow]] == start for (start, arrow), end in ways.items())
    seen, waiting = {0}, [0]
    while waiting:
        here = waiting.pop()
        found = {end for (start, _), end in ways.items() if start == here} - seen
        seen |= found
        waiting.extend(found)
    assert len(seen) == len(points)


@given(places, st.sampled_from(("right", "left", "up", "down")))
def test_the_nearest_point_that_way_is_none_only_where_none_is(points: set[Point], arrow: Arrow) -> None:
    """The outermost point that way has no further one; it never leads to where it is."""
    sign = 1 if arrow in ("right", "up") else -1
    known = numbered(points)
    outermost = max(points, key=lambda point: sign * (point.x if arrow in ("right", "left") else point.y))
    assert nearest_that_way(known, outermost, arrow) is None
    for point in points:
        found = nearest_that_way(known, point, arrow)
        assert found is None or known[found] != point
