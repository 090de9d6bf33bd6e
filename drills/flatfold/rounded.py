"""Points that are only nearly where they were meant: angles in floats, and what may not be called a fault.

How far a point may be off turns a short crease by more than a long one. An angle sum or a difference
of angles that this could explain is in doubt, and what is in doubt is never a fault.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, hypot, inf, pi, tau
from typing import NamedTuple

from drills.flatfold.vertex import Rule, folds_flat
from drills.geometry import move_between
from drills.pattern import CreasePattern, Label

TOLERANCE = 1e-6
"""What two angles in radians may differ by where points are right."""
_BEYOND_THE_MIDDLE = 8
_WORST = 2000
"""No point is taken to be off by more than one part in so many of the sheet."""


class Radians(NamedTuple):
    """An angle in radians; two that differ by no more than the slack are equal."""

    size: float
    slack: float = TOLERANCE

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Radians) and abs(self.size - other.size) <= self.slack

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        raise TypeError("angles that are only nearly equal have no hash")

    def is_below(self, other: Radians) -> bool:
        """Whether this angle is the smaller one, by more than the slack."""
        return self.size < other.size - self.slack

    def plus_minus(self, more: Radians, less: Radians) -> Radians:
        """Return self + more - less."""
        return Radians(self.size + more.size - less.size, self.slack)


def noise_of(pattern: CreasePattern, off: float) -> float:
    """Return how far off the points lie by their own angles, at least as far as they are known to.

    Where most points fold, the middle one of what each would have to be off by is that of rounding, or
    of a hand, and a fault stands out.
    """
    shown = sorted(
        deviation(pattern, vertex) / _turning(pattern, vertex)
        for vertex in pattern.interior
        if len(pattern.around[vertex]) % 2 == 0
    )
    if not shown:
        return off
    left, bottom, right, top = pattern.box
    worst = float(max(right - left, top - bottom)) / _WORST
    return max(off, min(_BEYOND_THE_MIDDLE * shown[len(shown) // 2], worst))


def deviation(pattern: CreasePattern, vertex: int) -> float:
    """Return by how many radians every second angle of a vertex misses half a turn; inf for an odd number."""
    angles = angles_around(pattern, vertex)
    return inf if len(angles) % 2 else abs(sum(angle.size for angle in angles[::2]) - pi)


def is_kawasaki_rounded(pattern: CreasePattern, vertex: int, off: float = 0.0) -> bool:
    """Whether every second angle of a vertex adds up to half a turn, as far as one can tell."""
    return deviation(pattern, vertex) <= _slack(pattern, vertex, off)


def folds_rounded(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
    """Whether the vertex folds flat for some choice of free labels, nearly equal angles taken as equal."""
    return rule_of_rounded(0.0)(pattern, labels, vertex)


def rule_of_rounded(off: float) -> Rule:
    """Return the rule for points that may be so far off; labels of which one cannot tell keep it."""

    def folds(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
        slack = _slack(pattern, vertex, off)
        angles = [angle._replace(slack=slack) for angle in angles_around(pattern, vertex)]
        if min(angle.size for angle in angles) < 2 * slack:
            return True
        return folds_flat(angles, [labels[edge] for edge in pattern.around[vertex]])

    return folds


def angles_around(pattern: CreasePattern, vertex: int) -> list[Radians]:
    """Return the angles between the edges at a vertex, counterclockwise."""
    place = pattern.vertices[vertex]
    moves = [move_between(place, pattern.vertices[other]) for other in pattern.neighbours[vertex]]
    headings = [atan2(move.dy, move.dx) for move in moves]
    following = [*headings[1:], *headings[:1]]
    return [Radians((after - here) % tau) for here, after in zip(headings, following, strict=True)]


def _slack(pattern: CreasePattern, vertex: int, off: float) -> float:
    return max(TOLERANCE, off * _turning(pattern, vertex)) if off else TOLERANCE


def _turning(pattern: CreasePattern, vertex: int) -> float:
    """Return by how many radians the angles of a vertex may change together for each unit of being off."""
    place = pattern.vertices[vertex]
    moves = (move_between(place, pattern.vertices[other]) for other in pattern.neighbours[vertex])
    return sum(2 / hypot(move.dx, move.dy) for move in moves)
