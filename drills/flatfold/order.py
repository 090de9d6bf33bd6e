"""A layer order in the making: which faces are known to lie below which, and what follows from it."""

from __future__ import annotations

from drills.flatfold.conditions import FOLLOWING, Conditions, bits


class CrossingError(Exception):
    """The layers would cross."""


class Order:
    """Per face the sets of faces known below and above it; orders may run in circles over the sheet."""

    def __init__(self, conditions: Conditions) -> None:
        self.conditions = conditions
        self.below = [0] * conditions.faces
        self.above = [0] * conditions.faces
        self.known = [0] * len(conditions.nests)

    def copy(self) -> Order:
        """Return an order that can grow by itself."""
        twin = Order.__new__(Order)
        twin.conditions, twin.known = self.conditions, self.known[:]
        twin.below, twin.above = self.below[:], self.above[:]
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
        for other, through in self.conditions.tacos_at[upper]:
            if through >> lower & 1:
                waiting.append((other, lower))
        for other, through in self.conditions.tacos_at[lower]:
            if through >> upper & 1:
                waiting.append((upper, other))

    def _follow_cells(self, upper: int, lower: int, waiting: list[tuple[int, int]]) -> None:
        """Put what is over the upper face over the lower one, and so on below, where all three meet."""
        overlaps, cells = self.conditions.overlaps, self.conditions.cells_at
        here = cells[upper] & cells[lower]
        over = self.above[upper] & overlaps[lower] & ~self.above[lower]
        under = self.below[lower] & overlaps[upper] & ~self.below[upper]
        if over:
            waiting += [(face, lower) for face in bits(over) if cells[face] & here]
        if under:
            waiting += [(upper, face) for face in bits(under) if cells[face] & here]

    def _follow_nests(self, upper: int, lower: int, waiting: list[tuple[int, int]]) -> None:
        """Keep two creases on one side of a piece nested or apart."""
        known, nests = self.known, self.conditions.nests
        for number, step in self.conditions.nests_at.get((upper, lower), ()):
            known[number] += step
            following = FOLLOWING.get(known[number])
            if following is None:
                raise CrossingError
            if following:
                nest = nests[number]
                waiting += [(nest[one], nest[two]) for one, two in following]
