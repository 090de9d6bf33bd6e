"""The conditions on the layers of a folded sheet: no face may pass through another or through a crease.

These are Justin's non-crossing conditions (J. Justin, Towards a mathematical theory of origami,
Origami Science & Art, Otsu 1994/1997, 15-29, from memory), by the names in use today:

    taco-tortilla       a face runs on across a crease: it lies over both of the crease's faces or under both
    taco-taco           two creases at one place open to one side: one nests in the other, or they lie apart
    tortilla-tortilla   two faces run on side by side: what is over stays over
    transitivity        three faces over one cell: what is over the upper one is over the lower one

The third needs no table here: an order of two faces is one fact for the whole sheet, so that it is
the same in every cell. Sets of faces are the bits of an int, so that one "and" asks about all of
them at once; tens of thousands of triples of faces shrink to a few dozen cells.

A nest (taco-taco) is given by its four faces, those of one crease first. What is known of it is a
number of six digits to the base 3, one for each pair of faces: 0 not known, 1 the first over the
second, 2 under it. Tables give for each such number what follows.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, permutations, product
from typing import TypeAlias

from drills.flatfold.folded import Folded, cells_of
from drills.flatfold.limit import UNLIMITED, Limit

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
        # the second crease lies between the faces of the first with both of its faces or with neither
        if (low < heights[2] < high) == (low < heights[3] < high):
            yield tuple(1 if heights[one] > heights[two] else 2 for one, two in _PAIRS)


def _following() -> Mapping[int, tuple[tuple[int, int], ...]]:
    # every part of an order that nests is a state that may be met; the orders it fits say what follows
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


@dataclass(frozen=True)
class Conditions:
    """All conditions of a folded sheet but its labels.

    ``cells`` are sets of faces as bits; ``tacos`` give per crease its two faces and the set of faces
    that run through it somewhere; ``nests`` are pairs of creases, each as its two faces.
    """

    faces: int
    cells: tuple[int, ...]
    tacos: tuple[tuple[int, int, int], ...]
    nests: tuple[Nest, ...]

    @cached_property
    def overlaps(self) -> tuple[int, ...]:
        """Per face the set of other faces that lie over or under it somewhere."""
        found = [0] * self.faces
        for cell in self.cells:
            for face in bits(cell):
                found[face] |= cell
        return tuple(faces & ~(1 << face) for face, faces in enumerate(found))

    @cached_property
    def cells_at(self) -> tuple[int, ...]:
        """Per face the set of cells that it lies in, by their number, as bits."""
        found = [0] * self.faces
        for number, cell in enumerate(self.cells):
            for face in bits(cell):
                found[face] |= 1 << number
        return tuple(found)

    @cached_property
    def tacos_at(self) -> tuple[tuple[tuple[int, int], ...], ...]:
        """Per face the faces it is creased to, each with what runs through that crease."""
        found: list[list[tuple[int, int]]] = [[] for _ in range(self.faces)]
        for one, two, through in self.tacos:
            found[one].append((two, through))
            found[two].append((one, through))
        return tuple(map(tuple, found))

    @cached_property
    def nests_at(self) -> dict[tuple[int, int], list[tuple[int, int]]]:
        """Per two faces, the upper one first, the nests by number in which they meet, each with the step."""
        found: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
        for number, nest in enumerate(self.nests):
            for upper, lower, step in STEPS:
                found[nest[upper], nest[lower]].append((number, step))
        return found


def conditions_of(folded: Folded, limit: Limit = UNLIMITED) -> Conditions:
    """Return the conditions on the layers of a folded sheet; OutOfTimeError where that takes too long."""
    cells = cells_of(folded)
    through: dict[tuple[int, int], int] = defaultdict(int)
    nests: set[tuple[tuple[int, int], tuple[int, int]]] = set()
    for piece in cells.pieces:
        limit.check()
        sides = [folded.sides[edge] for edge in piece.edges]
        creases = [(faces[0], faces[1]) for faces in sides if len(faces) == 2]
        for crease in creases:
            # a face on both sides of the piece runs on across it: a tortilla for every crease here
            through[crease] |= piece.left & piece.right
        for side in (piece.left, piece.right):
            # both faces of a crease lie on the same side of it, so that one of them tells to which it opens
            here = sorted(crease for crease in creases if side >> crease[0] & 1)
            nests.update(combinations(here, 2))
    return Conditions(
        len(folded.faces),
        cells.sets,
        tuple((one, two, faces) for (one, two), faces in through.items()),
        tuple((*one, *two) for one, two in sorted(nests) if not set(one) & set(two)),
    )


def bits(faces: int) -> list[int]:
    """Return the faces of a set, the smallest first."""
    found = []
    while faces:
        # in two's complement x & -x is the lowest bit that is set
        lowest = faces & -faces
        found.append(lowest.bit_length() - 1)
        faces ^= lowest
    return found
