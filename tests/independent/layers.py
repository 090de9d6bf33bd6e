"""Layer orders as plain clauses for python-sat: one variable for each two faces that lie on each other.

The conditions are those of J. Justin (1997, from memory) under the names of today: a taco is a folded
crease, a tortilla a face that runs on, or two with a flat crease between them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from pysat.solvers import Solver  # type: ignore[import-untyped]

from tests.independent.folded import Folded, folded
from tests.independent.overlaps import Overlaps, overlaps
from tests.independent.sheet import Sheet

Clause = list[int]


class Stacking(NamedTuple):
    """A folded sheet's conditions on its layers but its labels; variable numbers are by pair of faces."""

    folded: Folded
    number: dict[tuple[int, int], int]
    clauses: list[Clause]

    def over(self, upper: int, lower: int) -> int:
        """Return the literal that says that one face lies over another."""
        if upper < lower:
            return self.number[upper, lower]
        return -self.number[lower, upper]

    def labelled(self, edge: int, label: str) -> int:
        """Return the literal that gives a folded crease this label, M or V.

        Seen from above, the face beyond a mountain goes under, unless the near one is upside down.
        """
        left, right = self.folded.beside[edge]
        literal = self.over(left, right)
        return literal if (label == "M") != self.folded.upside_down[left] else -literal

    def units(self, labels: Sequence[str]) -> list[int]:
        """Return the literals of all labels M and V."""
        return [self.labelled(edge, labels[edge]) for edge in self.folded.beside if labels[edge] in "MV"]

    def allows(self, literals: Sequence[int]) -> bool:
        """Whether there is a layer order in which these literals hold."""
        with Solver(name="cadical153", bootstrap_with=self.clauses) as solver:
            for literal in literals:
                solver.add_clause([literal])
            return bool(solver.solve())

    def broken(self, below: Sequence[int], labels: Sequence[str]) -> list[str]:
        """Return what is wrong with an order that says of each face, as bits, which lie below it."""
        return list(_broken(self, below, labels))

    def count(self, literals: Sequence[int]) -> int:
        """Return the number of layer orders in which these literals hold."""
        free = [[literal, -literal] for literal in self.number.values()]
        with Solver(name="glucose4", bootstrap_with=self.clauses + free) as solver:
            return sum(1 for _ in solver.enum_models(assumptions=list(literals)))


def stacking(sheet: Sheet) -> Stacking:
    """Return the conditions of a sheet; TornError where it does not close."""
    return _stacking(sheet.labelled(tuple(label if label in "BF" else "U" for label in sheet.labels)))


def does_fold(sheet: Sheet) -> bool:
    """Whether the labelled sheet folds flat, layers and all; U folds either way, F stays flat."""
    found = stacking(sheet)
    return found.allows(found.units(sheet.labels))


def forget() -> None:
    """Forget the sheets that were folded before."""
    _stacking.cache_clear()


@lru_cache(maxsize=256)
def _stacking(sheet: Sheet) -> Stacking:
    found = folded(sheet)
    lying = overlaps(sheet, found)
    number = {pair: index for index, pair in enumerate(lying.pairs, start=1)}
    empty = Stacking(found, number, [])
    flat = frozenset(edge for edge, label in enumerate(sheet.labels) if label == "F")
    return empty._replace(clauses=list(_clauses(empty, lying, flat)))


def _clauses(stacking: Stacking, lying: Overlaps, flat: frozenset[int]) -> Iterator[Clause]:
    over = stacking.over
    for edge, face in lying.through:
        left, right = stacking.folded.beside[edge]
        yield from _equal(over(left, face), over(right, face))
    for edge, (one, two), other, (three, four) in lying.along:
        folds = edge not in flat, other not in flat
        if all(folds):
            yield from _nested(over(one, three), over(one, four), over(two, three), over(two, four))
        elif any(folds):
            # the first face of the flat crease runs against the folded one and no further
            (upper, lower), face = ((one, two), three) if folds[0] else ((three, four), one)
            yield from _equal(over(upper, face), over(lower, face))
        else:
            yield from _equal(over(one, three), over(two, four))
    for one, two, three in lying.triples:
        circle = [over(one, two), over(two, three), over(three, one)]
        yield circle
        yield [-literal for literal in circle]


def _equal(one: int, two: int) -> Iterator[Clause]:
    yield [one, -two]
    yield [-one, two]


def _nested(*literals: int) -> Iterator[Clause]:
    """Yield that an even number of the four holds: of the second crease both faces or none are between."""
    for signs in product((1, -1), repeat=4):
        if signs.count(-1) % 2:
            yield [sign * literal for sign, literal in zip(signs, literals, strict=True)]


def _broken(stacking: Stacking, below: Sequence[int], labels: Sequence[str]) -> Iterator[str]:
    true = set()
    for (one, two), number in stacking.number.items():
        first, second = below[one] >> two & 1, below[two] >> one & 1
        if first == second:
            yield f"faces {one} and {two} lie over each other or have no order"
        true.add(number if first else -number)
    for literal in stacking.units(labels):
        if literal not in true:
            yield f"a label that is not kept: {literal}"
    for clause in stacking.clauses:
        if not true.intersection(clause):
            yield f"a condition that is not kept: {clause}"
