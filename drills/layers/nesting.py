"""Two creases on one side of a piece nest or lie apart: what follows from what is known of their faces.

A nest is given by its four faces, those of one crease first. What is known of it is a number of six
digits to the base 3, one for each pair of faces: 0 not known, 1 the first over the second, 2 under it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import permutations, product
from typing import TypeAlias

Nest: TypeAlias = tuple[int, int, int, int]

_PAIRS = ((0, 1), (2, 3), (0, 2), (0, 3), (1, 2), (1, 3))


STEPS = tuple(
    step
    for place, (one, two) in enumerate(_PAIRS)
    for step in ((one, two, 3**place), (two, one, 2 * 3**place))
)
"""The places of two faces, the upper one first, with what knowing them adds to the number of a nest."""


def _nested_orders() -> Iterator[tuple[int, ...]]:
    """Yield the digits of each order of the four faces that nests, the lowest digit first."""
    for heights in permutations(range(4)):
        low, high = sorted(heights[:2])
        if (low < heights[2] < high) == (low < heights[3] < high):
            yield tuple(1 if heights[one] > heights[two] else 2 for one, two in _PAIRS)


def _following() -> Mapping[int, tuple[tuple[int, int], ...]]:
    fitting: dict[int, list[tuple[int, ...]]] = defaultdict(list)
    for order in _nested_orders():
        for kept in product((0, 1), repeat=len(_PAIRS)):
            digits = zip(order, kept, strict=True)
            fitting[sum(3**place * digit * keep for place, (digit, keep) in enumerate(digits))].append(order)
    return {known: tuple(_settled(known, orders)) for known, orders in fitting.items()}


def _settled(known: int, orders: Sequence[tuple[int, ...]]) -> Iterator[tuple[int, int]]:
    """Yield the pairs not known that lie alike in all orders, the upper place first."""
    for place, digits in enumerate(zip(*orders, strict=True)):
        if known // 3**place % 3 == 0 and len(set(digits)) == 1:
            one, two = _PAIRS[place]
            yield (one, two) if digits[0] == 1 else (two, one)


FOLLOWING = _following()
"""Per number of a nest the places of the faces that follow, the upper first; no entry where it crosses."""
