"""Steps: the smallest whole-number move along a slanted crease, and how often it repeats."""

from __future__ import annotations

from math import gcd
from typing import NamedTuple

from drills.exact.plane import Direction, Point, is_whole, move_between, moved


class Step(NamedTuple):
    """So many squares across (right is positive) and down (down is positive), so many times."""

    across: int
    down: int
    times: int = 1

    @property
    def direction(self) -> Direction:
        """The move of one step, y up."""
        return Direction(self.across, -self.down)

    def end_from(self, start: Point) -> Point:
        """Return the point that the step, repeated, leads to."""
        return moved(start, self.direction, self.times)

    def smallest(self) -> Step:
        """Return the same way in the smallest step; the step must not stand still."""
        shared = gcd(self.across, self.down)
        return Step(self.across // shared, self.down // shared, self.times * shared)


def step_between(start: Point, end: Point) -> Step:
    """Return the smallest step from one grid crossing to another; ValueError off the grid."""
    if not (is_whole(start) and is_whole(end)):
        raise ValueError("a step leads from one crossing of the grid to another")
    move = move_between(start, end)
    return Step(int(move.dx), -int(move.dy)).smallest()


def ratio_of(direction: Direction) -> tuple[int, int]:
    """Return the two numbers of a step, the smaller first, whatever way it faces."""
    low, high = sorted((abs(direction.dx), abs(direction.dy)))
    return low, high
