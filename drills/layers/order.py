"""A layer order in the making: which faces are known to lie below which, and what follows from it."""

from __future__ import annotations

from functools import cache
from itertools import permutations

from drills.layers.conditions import Conditions, bits

_PAIRS = ((0, 1), (2, 3), (0, 2), (0, 3), (1, 2), (1, 3))


class CrossingError(Exception):
    """The layers would cross."""


class Order:
    """Per face the sets of faces known below and above it; orders may run in circles over the sheet."""

    def __init__(self, conditions: Conditions) -> None:
        self.conditions = conditions
        self.below = [0] * conditions.faces
        self.above = [0] * conditions.faces

    def copy(self) -> Order:
        """Return an order that can grow by itself."""
        twin = Order.__new__(Order)
        twin.conditions, twin.below, twin.above = self.conditions, self.below[:], self.above[:]
        return twin

    def open_pair(self) -> tuple[int, int] | None:
        """Return two overlapping faces whose order is not known, those with most unknown first."""
        most, chosen = 0, -1
        for face, others in enumerate(self.conditions.overlaps):
            unknown = others & ~(self.below[face] | self.above[face])
            if unknown.bit_count() > most:
                most, chosen = unknown.bit_count(), face
        if chosen < 0:
            return None
        unknown = self.conditions.overlaps[chosen] & ~(self.below[chosen] | self.above[chosen])
        return chosen, (unknown & -unknown).bit_length() - 1

    def put(self, pairs: list[tuple[int, int]]) -> None:
        """Put the first face of each pair over the second and follow up; CrossingError if it cannot be."""
        waiting = list(pairs)
        while waiting:
            upper, lower = waiting.pop()
            if self.below[upper] >> lower & 1:
                continue
            if upper == lower or self.above[upper] >> lower & 1:
                raise CrossingError
            self.below[upper] |= 1 << lower
            self.above[lower] |= 1 << upper
            self._follow_tacos(upper, lower, waiting)
            self._follow_cells(upper, lower, waiting)
            self._follow_nests(upper, lower, waiting)

    def _follow_tacos(self, upper: int, lower: int, waiting: list[tuple[int, int]]) -> None:
        """Put what runs through a crease over both of its faces or under both."""
        tacos = self.conditions.tacos_at
        waiting += [(other, lower) for other, through in tacos[upper] if through >> lower & 1]
        waiting += [(upper, other) for other, through in tacos[lower] if through >> upper & 1]

    def _follow_cells(self, upper: int, lower: int, waiting: list[tuple[int, int]]) -> None:
        """Put what is over the upper face over the lower one, and so on below, where all three meet."""
        overlaps, cells = self.conditions.overlaps, self.conditions.cells_at
        here = cells[upper] & cells[lower]
        over = bits(self.above[upper] & overlaps[lower] & ~self.above[lower])
        under = bits(self.below[lower] & overlaps[upper] & ~self.below[upper])
        waiting += [(face, lower) for face in over if cells[face] & here]
        waiting += [(upper, face) for face in under if cells[face] & here]

    def _follow_nests(self, upper: int, lower: int, waiting: list[tuple[int, int]]) -> None:
        """Keep two creases on one side of a piece nested or apart."""
        pair = (upper, lower) if upper < lower else (lower, upper)
        for nest in self.conditions.nests_at.get(pair, ()):
            known = tuple(self._known(nest[a], nest[b]) for a, b in _PAIRS)
            forced = _forced(known)
            if forced is None:
                raise CrossingError
            for index, sense in forced:
                a, b = (nest[place] for place in _PAIRS[index])
                waiting.append((a, b) if sense > 0 else (b, a))

    def _known(self, one: int, two: int) -> int:
        """Return 1 where the first lies above the second, -1 below, 0 not known."""
        return (self.below[one] >> two & 1) - (self.above[one] >> two & 1)


def _nested_orders() -> list[tuple[int, ...]]:
    """Return the senses of the six pairs in each order of two creases (0, 1) and (2, 3) that nests."""
    found = []
    for heights in permutations(range(4)):
        low, high = sorted(heights[:2])
        if (low < heights[2] < high) == (low < heights[3] < high):
            found.append(tuple(1 if heights[a] > heights[b] else -1 for a, b in _PAIRS))
    return found


_NESTED = _nested_orders()


@cache
def _forced(known: tuple[int, ...]) -> tuple[tuple[int, int], ...] | None:
    """Return the unknown pairs of a nest that are forced, with their sense; None where nothing fits."""
    fitting = [
        order for order in _NESTED if all(k in (0, sense) for k, sense in zip(known, order, strict=True))
    ]
    if not fitting:
        return None
    senses = [set(column) for column in zip(*fitting, strict=True)]
    return tuple(
        (index, min(found)) for index, found in enumerate(senses) if len(found) == 1 and known[index] == 0
    )
