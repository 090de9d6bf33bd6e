"""Points whose directions are not rational: angles as floats, equal within a millionth of a radian."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import atan2, pi, tau
from typing import NamedTuple

from drills.exact.plane import move_between
from drills.pattern.crease_pattern import CreasePattern, Label
from drills.vertex.crimping import folds_flat

TOLERANCE = 1e-6


class Radians(NamedTuple):
    """An angle in radians; two within the tolerance are equal."""

    size: float

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Radians) and abs(self.size - other.size) <= TOLERANCE

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        raise TypeError("angles that are only nearly equal have no hash")

    def is_below(self, other: Radians) -> bool:
        """Whether this angle is the smaller one, by more than the tolerance."""
        return self.size < other.size - TOLERANCE

    def plus_minus(self, more: Radians, less: Radians) -> Radians:
        """Return self + more - less."""
        return Radians(self.size + more.size - less.size)


def angles_around(pattern: CreasePattern, vertex: int) -> list[Radians]:
    """Return the angles between the edges at a vertex, counterclockwise."""
    here = pattern.vertices[vertex]
    moves = [
        move_between(here, pattern.vertices[pattern.other_end(e, vertex)]) for e in pattern.around[vertex]
    ]
    ways = [atan2(move.dy, move.dx) for move in moves]
    return [Radians((after - way) % tau) for way, after in zip(ways, [*ways[1:], *ways[:1]], strict=True)]


def check_angles_rounded(pattern: CreasePattern) -> tuple[int, ...]:
    """Return the interior vertices where every second angle does not add up to half a turn, nearly."""
    return tuple(
        vertex for vertex in pattern.interior if not _is_nearly_kawasaki(angles_around(pattern, vertex))
    )


def can_fold_rounded(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
    """Whether the vertex folds flat for some choice of free labels, nearly equal angles taken as equal."""
    angles = angles_around(pattern, vertex)
    choices = [("M", "V") if labels[e] == "U" else (labels[e],) for e in pattern.around[vertex]]
    return any(_nearly_folds(angles, [label == "M" for label in choice]) for choice in product(*choices))


def _is_nearly_kawasaki(angles: Sequence[Radians]) -> bool:
    return len(angles) % 2 == 0 and abs(sum(angle.size for angle in angles[::2]) - pi) <= TOLERANCE


def _nearly_folds(angles: Sequence[Radians], mountains: Sequence[bool]) -> bool:
    return abs(2 * sum(mountains) - len(mountains)) == 2 and folds_flat(angles, mountains)
