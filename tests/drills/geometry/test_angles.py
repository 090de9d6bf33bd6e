from __future__ import annotations

from itertools import product
from math import atan2, gcd, isclose, pi

from drills.geometry import Chance, Direction, Turn, counterclockwise, is_half_turn, turn_between

WAYS = [Direction(x, y) for x, y in product(range(-4, 5), repeat=2) if (x, y) != (0, 0)]


def radians(turn: Turn) -> float:
    """Return the size of a turn."""
    return atan2(turn.y, turn.x)


def test_turns_are_sized_like_their_arguments() -> None:
    """For every two turns up to half a turn the exact comparison agrees with the float one."""
    turns = {turn for way in WAYS if radians(turn := turn_between(Direction(1, 0), way)) > 0}
    for one, two in product(turns, repeat=2):
        assert one.is_below(two) == (one != two and radians(one) < radians(two))


def test_the_turn_between_two_directions_is_the_counterclockwise_one() -> None:
    """It is the difference of their arguments, for all directions at most half a turn apart."""
    for first, second in product(WAYS, repeat=2):
        angle = (atan2(second.dy, second.dx) - atan2(first.dy, first.dx)) % (2 * pi)
        if 1e-9 < angle < pi + 1e-9:
            assert isclose(radians(turn_between(first, second)), angle, abs_tol=1e-9)


def test_adding_and_taking_away_turns() -> None:
    """90 + 45 - 26.57 degrees is 108.43 degrees, the argument of -1 + 3i."""
    assert Turn(0, 1).plus_minus(Turn(1, 1), Turn(2, 1)) == Turn(-1, 3)


def test_the_half_angles_of_the_345_triangle_are_an_eighth_of_a_turn_together() -> None:
    """(2 + i)(3 + i) = 5(1 + i), so four times both make half a turn."""
    assert is_half_turn([Turn(2, 1), Turn(3, 1)] * 4)
    assert not is_half_turn([Turn(2, 1), Turn(3, 1)] * 8)
    assert not is_half_turn([Turn(2, 1), Turn(2, 1)] * 4)


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
