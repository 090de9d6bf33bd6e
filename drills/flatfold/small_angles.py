"""What the smallest angles round a point ask of the labels beside them, whatever the counts are.

Equal angles with a larger one on both sides fold into a stack of their own, so that their creases are as
many mountains as valleys, or one more of one kind where their number is odd; the two creases of a single
such angle are one of each.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from drills.flatfold.vertex import AnyAngle, Run, turns_around
from drills.pattern import CreasePattern, Label


class Crowded(NamedTuple):
    """Small angles whose labels cannot fold: the point and, counterclockwise, the creases beside them."""

    vertex: int
    creases: tuple[int, ...]


def crowded(pattern: CreasePattern, labels: Sequence[Label], vertices: Iterable[int]) -> Iterator[Crowded]:
    """Yield the small angles at these points whose labels cannot fold, single angles first."""
    found = [angles for vertex in vertices for angles in _crowded_at(pattern, labels, vertex)]
    yield from sorted(found, key=lambda angles: len(angles.creases))


def _crowded_at(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> Iterator[Crowded]:
    around = pattern.around[vertex]
    for start, length in runs_of_small(turns_around(pattern.directions[vertex])):
        creases = tuple(around[(start + place) % len(around)] for place in range(length + 1))
        mountains = sum(labels[crease] == "M" for crease in creases)
        if abs(2 * mountains - len(creases)) > 1:
            yield Crowded(vertex, creases)


def runs_of_small(angles: Sequence[AnyAngle]) -> Iterator[Run]:
    """Yield each run of equal angles with a larger one on both sides."""
    count = len(angles)
    for start in range(count):
        length = 1
        while length < count and angles[(start + length) % count] == angles[start]:
            length += 1
        before, after = angles[start - 1], angles[(start + length) % count]
        if length < count and angles[start].is_below(before) and angles[start].is_below(after):
            yield Run(start, length)
