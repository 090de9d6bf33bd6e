"""What keeps layers from crossing, as found on the folded sheet.

J. Justin, "Towards a mathematical theory of origami" (Origami Science & Art, 1997, from memory): at a
piece of a folded crease no face that runs through may lie between the crease's two faces (taco and
tortilla), two creases on the same side may nest but not interleave (taco and taco), and in one cell
the order runs in no circle. A crease that stays flat is taken out of the pattern beforehand.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

from drills.layers.cells import cells_of
from drills.layers.folding import Folded
from drills.layers.nesting import STEPS, Nest


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


def conditions_of(folded: Folded) -> Conditions:
    """Return the conditions on the layers of a folded sheet."""
    cells = cells_of(folded)
    through: dict[tuple[int, int], int] = defaultdict(int)
    nests: set[tuple[tuple[int, int], tuple[int, int]]] = set()
    for piece in cells.pieces:
        sides = [folded.sides[edge] for edge in piece.edges]
        creases = [(faces[0], faces[1]) for faces in sides if len(faces) == 2]
        for crease in creases:
            through[crease] |= piece.left & piece.right
        for side in (piece.left, piece.right):
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
        lowest = faces & -faces
        found.append(lowest.bit_length() - 1)
        faces ^= lowest
    return found
