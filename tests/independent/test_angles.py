"""The angle condition against sympy: alternate angles added up as exact arc tangents."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
import sympy  # type: ignore[import-untyped]

from drills.flatfold import is_kawasaki
from drills.geometry import Chance, Direction, counterclockwise
from drills.structures import Stretch, draw
from tests.drills.flatfold.assorted import assorted
from tests.drills.sheets import ways


def test_the_345_angle_halved() -> None:
    """Slopes 0, 1/2 and 3/4 with the way back along 1/2 fold flat; back along 3/4 they do not."""
    assert alternate_sum_is_half_a_turn(ways((1, 0), (2, 1), (3, 4), (-2, -1)))
    assert not alternate_sum_is_half_a_turn(ways((1, 0), (2, 1), (3, 4), (-4, -3)))


def alternate_sum_is_half_a_turn(directions: Sequence[Direction]) -> bool:
    """Whether every second angle between counterclockwise directions adds up to 180 degrees, exactly."""
    if len(directions) % 2:
        return False
    angles = [sympy.atan2(way.dy, way.dx) for way in directions]
    total = sum(angles[1::2]) - sum(angles[::2])
    # two sums of less than a full turn whose cosine is -1: half a turn
    return bool(sympy.simplify(sympy.cos(total).expand(trig=True) + 1) == 0)


def all_directions() -> list[tuple[Direction, ...]]:
    """Return the different sets of directions at the interior points of many sheets."""
    sheets = [draw(Stretch((2, 3), pleats=2)), draw(Stretch((3, 1), ("steep", "steep"), facing=1))]
    found = {
        pattern.directions[vertex]
        for pattern in sheets + list(assorted(48, "angles"))
        for vertex in pattern.interior
    }
    return sorted(ways for ways in found if len(ways) <= 8)


def test_points_of_sheets_of_all_sorts() -> None:
    """Each point of a sheet that folds meets the condition for sympy as well."""
    points = Chance("points").shuffled(all_directions())[:20]
    assert len(points) == 20
    assert all(is_kawasaki(point) and alternate_sum_is_half_a_turn(point) for point in points)


@pytest.mark.parametrize("degree", [2, 3, 4, 6])
def test_points_by_chance(degree: int) -> None:
    """Directions by chance, most of which cannot fold, get the same verdict from sympy."""
    chance = Chance(f"by chance {degree}")
    choice = ways(*[(x, y) for x in range(-3, 4) for y in range(-3, 4) if sympy.igcd(x, y) == 1])
    for _ in range(12):
        point = counterclockwise(chance.shuffled(choice)[:degree], lambda way: way)
        assert is_kawasaki(point) is alternate_sum_is_half_a_turn(point)


def test_points_that_were_bent() -> None:
    """One direction of a point that folds replaced by another: neither finds the condition met."""
    chance = Chance("bent")
    for point in chance.shuffled(all_directions())[:8]:
        bent = counterclockwise({*point[1:], Direction(7, 5)}, lambda way: way)
        assert is_kawasaki(bent) is alternate_sum_is_half_a_turn(bent)
