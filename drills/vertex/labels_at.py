"""Labels at one point: mountains against valleys (Maekawa-Justin), and the full test by crimping."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import product
from typing import TypeAlias

from drills.exact.plane import Direction
from drills.pattern.crease_pattern import CreasePattern, Label
from drills.vertex.crimping import folds_flat
from drills.vertex.kawasaki import turns_around

Rule: TypeAlias = Callable[[CreasePattern, Sequence[Label], int], bool]
"""A condition on a pattern's labels at one interior vertex, where the angle condition holds."""


def counts_at(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> tuple[int, int]:
    """Return the number of mountains and of valleys at a vertex."""
    meeting = [labels[edge] for edge in pattern.around[vertex]]
    return meeting.count("M"), meeting.count("V")


def balances(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
    """Whether mountains and valleys differ by 2 at the vertex, which is what a person counts."""
    mountains, valleys = counts_at(pattern, labels, vertex)
    return abs(mountains - valleys) == 2


def folds(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
    """Whether the vertex folds flat with these labels, by the full test."""
    mountains = tuple(labels[edge] == "M" for edge in pattern.around[vertex])
    return _folds(pattern.directions[vertex], mountains)


def can_fold(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
    """Whether the vertex folds flat for some choice of the labels that are not given (U)."""
    given = [labels[edge] for edge in pattern.around[vertex]]
    if "U" not in given:
        return folds(pattern, labels, vertex)
    return any(
        all(label == "U" or (label == "M") == is_m for label, is_m in zip(given, valid, strict=True))
        for valid in valid_at(pattern.directions[vertex])
    )


def failing(pattern: CreasePattern, labels: Sequence[Label], rule: Rule) -> tuple[int, ...]:
    """Return the interior vertices at which the labels break the rule."""
    return tuple(vertex for vertex in pattern.interior if not rule(pattern, labels, vertex))


@lru_cache(maxsize=4096)
def valid_at(directions: tuple[Direction, ...]) -> tuple[tuple[bool, ...], ...]:
    """Return every valid set of labels of a vertex, True for a mountain, in the order of the directions."""
    return tuple(
        labels for labels in product((True, False), repeat=len(directions)) if _folds(directions, labels)
    )


@lru_cache(maxsize=65536)
def _folds(directions: tuple[Direction, ...], mountains: tuple[bool, ...]) -> bool:
    if abs(2 * sum(mountains) - len(mountains)) != 2:
        return False
    return folds_flat(turns_around(directions), mountains)
