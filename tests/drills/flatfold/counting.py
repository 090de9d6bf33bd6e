"""Counts to hold against published ones: labellings of a point, labellings and layer orders of a sheet.

The number of labellings of a point by Hull's recursion: T. C. Hull, Ars Combinatoria 67 (2003)
175-188, arXiv:1410.5022.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from math import comb
from typing import NamedTuple

from drills.flatfold import (
    AnyAngle,
    CrossingError,
    LayerSolution,
    Order,
    completions,
    conditions_of,
    find_order,
    fold,
    label_pairs,
    smallest_run,
    without_run,
)
from drills.pattern import CreasePattern


class Degrees(NamedTuple):
    """An angle as an exact number of degrees, or of any other unit."""

    size: Fraction

    def is_below(self, other: Degrees) -> bool:
        """Whether this angle is the smaller one."""
        return self.size < other.size

    def plus_minus(self, more: Degrees, less: Degrees) -> Degrees:
        """Return self + more - less."""
        return Degrees(self.size + more.size - less.size)


def count_labellings(angles: Sequence[AnyAngle]) -> int:
    """Return the number of labellings with which a point that meets the angle condition folds flat."""
    count = 1
    while (run := smallest_run(angles)) is not None:
        count *= comb(run.length + 1, (run.length + 1) // 2)
        angles = without_run([*angles[run.start :], *angles[: run.start]], run.length)
    half = len(angles) // 2
    return count * 2 * comb(2 * half, half - 1)


def count_of_degrees(angles: Sequence[int | Fraction]) -> int:
    """Return the number of labellings of a point given by its angles; 0 where it cannot fold flat."""
    if len(angles) % 2 or sum(angles[::2]) != sum(angles[1::2]):
        return 0
    return count_labellings([Degrees(Fraction(angle)) for angle in angles])


def count_foldable(pattern: CreasePattern) -> tuple[int, int]:
    """Return the number of labellings that fold at each point, and of those that have a layer order."""
    folded = fold(pattern)
    conditions = conditions_of(folded)
    found: list[LayerSolution] = [
        find_order(conditions, label_pairs(folded, labels))
        for labels in completions(pattern, pattern.labels())
    ]
    return len(found), sum(order.folds is True for order in found)


def count_orders(pattern: CreasePattern) -> int:
    """Return the number of layer orders; labelled creases keep their labels, U folds either way."""
    return sum(1 for _ in orders_of(pattern))


def orders_of(pattern: CreasePattern) -> Iterator[Order]:
    """Yield every layer order of a pattern with its labels; each is gone when the next one is asked for."""
    folded = fold(pattern)
    order = Order(conditions_of(folded))
    try:
        order.put(label_pairs(folded, pattern.labels()))
    except CrossingError:
        return
    yield from _grown(order)


def _grown(order: Order) -> Iterator[Order]:
    pair = order.open_pair()
    if pair is None:
        yield order
        return
    known = len(order.put_in)
    for guess in (pair, pair[::-1]):
        with suppress(CrossingError):
            order.put([guess])
            yield from _grown(order)
        order.take_out(known)
