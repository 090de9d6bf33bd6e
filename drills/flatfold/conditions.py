"""The conditions on the layers of a folded sheet: no face may pass through another or through a crease.

These are Justin's non-crossing conditions (J. Justin, Towards a mathematical theory of origami,
Origami Science & Art, Otsu 1994/1997, 15-29, from memory), by the names in use today:

    taco-tortilla       a face runs on across a crease: it lies over both of the crease's faces or under both
    taco-taco           two creases at one place open to one side: one nests in the other, or they lie apart
    tortilla-tortilla   two faces run on side by side: what is over stays over
    transitivity        three faces over one cell: what is over the upper one is over the lower one

The third needs no table here: an order of two faces is one fact for the whole sheet, so that it is
the same in every cell. Sets of faces are the bits of an int, so that one "and" asks about all of
them at once; tens of thousands of triples of faces shrink to a few dozen cells, and the nests of two
creases each to a few dozen places where creases nest.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import compress
from typing import NamedTuple, TypeAlias

from drills.flatfold.folded import Folded, cells_of
from drills.flatfold.limit import UNLIMITED, Limit

Crease: TypeAlias = tuple[int, int]
"""The two faces of a crease."""


class Nest(NamedTuple):
    """A crease among others at one place that open to the same side, and nest in it or lie apart from it.

    ``faces`` are those of all of them, ``others`` without the crease's own; ``shifts`` pair them: each
    tells how many numbers the second face of a crease comes after its first, and the first faces of which
    it is so.
    """

    crease: Crease
    faces: int
    others: int
    shifts: tuple[tuple[int, int], ...]

    def mates(self, faces: int) -> int:
        """Return, for faces of these creases, those at the other side of the same crease."""
        # neighbouring creases have neighbouring numbers, so that a few shifts carry all faces to their mates
        found = 0
        for shift, firsts in self.shifts:
            found |= (faces & firsts) << shift | faces >> shift & firsts
        return found


@dataclass(frozen=True)
class Conditions:
    """All conditions of a folded sheet but its labels.

    ``cells`` are sets of faces as bits; ``tacos`` give per crease the set of faces that run through it
    somewhere; ``nesting`` are the sets of creases that open to one side at one place.
    """

    faces: int
    cells: tuple[int, ...]
    tacos: tuple[tuple[Crease, int], ...]
    nesting: tuple[tuple[Crease, ...], ...]

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
        for (one, two), through in self.tacos:
            found[one].append((two, through))
            found[two].append((one, through))
        return tuple(map(tuple, found))

    @cached_property
    def nests(self) -> tuple[Nest, ...]:
        """Every crease that nests, once for each set of creases among which it does."""
        return tuple(nest for creases in self.nesting for nest in _nests(creases))

    @cached_property
    def nests_at(self) -> tuple[int, ...]:
        """Per face the set of nests of its creases, by their number, as bits."""
        found = [0] * self.faces
        for number, nest in enumerate(self.nests):
            for face in nest.crease:
                found[face] |= 1 << number
        return tuple(found)

    def together(self, one: int, two: int) -> int:
        """Return the set of faces that lie over some cell where both of these faces do."""
        found, here = 0, self.cells_at[one] & self.cells_at[two]
        for number in bits(here):
            found |= self.cells[number]
        return found


def _nests(creases: Iterable[Crease]) -> list[Nest]:
    """Return each of the creases that open to one side at one place, among the others."""
    firsts_of: dict[int, int] = defaultdict(int)
    for first, second in map(sorted, creases):
        firsts_of[second - first] |= 1 << first
    shifts = tuple(firsts_of.items())
    faces = sum(firsts | firsts << shift for shift, firsts in shifts)
    return [Nest((one, two), faces, faces & ~(1 << one | 1 << two), shifts) for one, two in creases]


def conditions_of(folded: Folded, limit: Limit = UNLIMITED) -> Conditions:
    """Return the conditions on the layers of a folded sheet; OutOfTimeError where that takes too long."""
    cells = cells_of(folded, limit)
    creases = {edge: (at[0], at[1]) for edge, at in enumerate(folded.sides) if len(set(at)) == 2}
    through: dict[int, int] = defaultdict(int)
    nesting: set[int] = set()
    for piece in cells.pieces:
        limit.check()
        here = [edge for edge in piece.edges if edge in creases]
        # a face on both sides of the piece runs on across it: a tortilla for every crease here
        for edge in here:
            through[edge] |= piece.left & piece.right
        # both faces of a crease lie on the same side of it, so that one of them tells to which it opens
        to_left = [edge for edge in here if piece.left >> creases[edge][0] & 1]
        nesting.add(_as_bits(to_left))
        nesting.add(_as_bits(here) ^ _as_bits(to_left))
    return Conditions(
        len(folded.faces),
        cells.sets,
        tuple((creases[edge], faces) for edge, faces in through.items() if faces),
        tuple(tuple(creases[edge] for edge in bits(edges)) for edges in _largest(nesting)),
    )


def _largest(sets: Iterable[int]) -> list[int]:
    """Return the sets of at least two that lie in no other of them."""
    kept: list[int] = []
    kept_with: dict[int, list[int]] = defaultdict(list)
    for each in sorted(sets, key=int.bit_count, reverse=True):
        members = bits(each)
        if len(members) > 1 and not any(each & ~larger == 0 for larger in kept_with[members[0]]):
            kept.append(each)
            for member in members:
                kept_with[member].append(each)
    return kept


def _as_bits(numbers: Sequence[int]) -> int:
    return sum(1 << number for number in numbers)


_FEW = 6
_NO_AND_YES = bytes.maketrans(b"01", b"\0\1")


def bits(faces: int) -> list[int]:
    """Return the faces of a set, the smallest first."""
    if faces.bit_count() > _FEW:
        # the digits from the lowest on, as zeros and ones, say which numbers are taken: no loop of our own
        digits = f"{faces:b}"[::-1].encode().translate(_NO_AND_YES)
        return list(compress(range(len(digits)), digits))
    found = []
    while faces:
        # in two's complement x & -x is the lowest bit that is set
        lowest = faces & -faces
        found.append(lowest.bit_length() - 1)
        faces ^= lowest
    return found
