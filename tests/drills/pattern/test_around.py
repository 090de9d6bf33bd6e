from __future__ import annotations

from math import atan2, gcd, pi

from drills.geometry import Chance, Direction, counterclockwise


def test_the_eight_winds_come_counterclockwise_from_east() -> None:
    """East, north-east, north and so on to south-east."""
    winds = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)]
    ways = [Direction(*wind) for wind in winds]
    assert counterclockwise(ways[::3] + ways[1::3] + ways[2::3], lambda way: way) == ways


def test_the_order_is_that_of_the_arguments() -> None:
    """Shuffled directions come out sorted by their angle from 0 up to a full turn."""
    ways = [Direction(x, y) for x in range(-6, 7) for y in range(-6, 7) if gcd(x, y) == 1]
    sorted_ways = counterclockwise(Chance("around").shuffled(ways), lambda way: way)
    angles = [atan2(way.dy, way.dx) % (2 * pi) for way in sorted_ways]
    assert angles == sorted(angles)
