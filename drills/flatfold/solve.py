"""Does a labelled sheet fold flat, layers and all? An order of the layers, or the labels that contradict.

What the labels say of neighbouring faces is put into an order, and all that follows from it is put
in too, until nothing more does. Only then is an open pair guessed; a guess that makes layers cross is
taken back. The question is NP-complete (M. Bern, B. Hayes, SODA 1996) also for
creases on a grid and its diagonals (H. Akitaya et al., Box pleating is hard, JCDCGG 2015), so that
tries are counted; with labels on every crease there is hardly anything left to guess.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from drills.flatfold.conditions import Conditions, Nest, bits, conditions_of
from drills.flatfold.folded import Folded, fold
from drills.flatfold.limit import UNLIMITED, Limit
from drills.pattern import CreasePattern, Label


class CrossingError(Exception):
    """The layers would cross."""


BELOW, ABOVE = 0, 1
"""The sides of a face: from each, the other is what it is seen from behind."""


class Order:
    """Per face the sets of faces known below and above it; orders may run in circles over the sheet.

    ``put_in`` is all that was put in, one after the other, so that the last of it can be taken out.
    """

    def __init__(self, conditions: Conditions, limit: Limit = UNLIMITED) -> None:
        self.conditions, self.limit = conditions, limit
        self.below = [0] * conditions.faces
        self.above = [0] * conditions.faces
        self.put_in: list[tuple[int, int, int]] = []
        # what is so of layers is so of the sheet seen from behind: each rule stands here once, for a side
        self._known = self.below, self.above
        self._followed = [0] * conditions.faces, [0] * conditions.faces
        self._waiting = 0
        # per face what was put below or above it since its nests were last followed
        self._changed = [0] * conditions.faces

    def take_out(self, kept: int) -> None:
        """Leave the first so many that were put in, as if the later ones had never been."""
        while len(self.put_in) > kept:
            side, face, others = self.put_in.pop()
            self._known[side][face] ^= others
            for other in bits(others):
                self._known[1 - side][other] ^= 1 << face
        for known, followed in zip(self._known, self._followed, strict=True):
            followed[:] = (old & now for old, now in zip(followed, known, strict=True))

    def open_pair(self) -> tuple[int, int] | None:
        """Return two overlapping faces whose order is not known, those with most unknown first."""
        # a face about which least is known stands in most conditions: a guess there settles most
        most, chosen = 0, -1
        for face, others in enumerate(self.conditions.overlaps):
            unknown = others & ~(self.below[face] | self.above[face])
            if unknown.bit_count() > most:
                most, chosen = unknown.bit_count(), face
        if chosen < 0:
            return None
        unknown = self.conditions.overlaps[chosen] & ~(self.below[chosen] | self.above[chosen])
        return chosen, (unknown & -unknown).bit_length() - 1

    def put(self, pairs: Iterable[tuple[int, int]]) -> None:
        """Put the first face of each pair over the second and follow up; CrossingError if it cannot be."""
        self._waiting = 0
        self._changed = [0] * self.conditions.faces
        for upper, lower in pairs:
            self._add(BELOW, upper, 1 << lower)
        # by rounds, so that a face has gained much when it is looked at
        while self._waiting:
            looked_at = bits(self._waiting)
            for face in looked_at:
                self.limit.check()
                self._waiting &= ~(1 << face)
                self._follow_cells(BELOW, face)
                self._follow_cells(ABOVE, face)
                self._follow_tacos(face)
            self._follow_nests(looked_at)

    def _add(self, side: int, face: int, others: int) -> None:
        """Put other faces below a face, or above it, and note whose followers wait to be looked at."""
        new = others & ~self._known[side][face]
        if not new:
            return
        if new & (self._known[1 - side][face] | 1 << face):
            raise CrossingError
        self._known[side][face] |= new
        opposite, here = self._known[1 - side], 1 << face
        self._changed[face] |= new
        for other in bits(new):
            opposite[other] |= here
            self._changed[other] |= here
        self.put_in.append((side, face, new))
        self._waiting |= new | here

    def _follow_cells(self, side: int, face: int) -> None:
        """Put under a face what lies under those that came to lie under it, where all three meet."""
        known, followed = self._known[side], self._followed[side]
        new, followed[face] = known[face] & ~followed[face], known[face]
        missing = self.conditions.overlaps[face] & ~known[face]
        gained = 0
        for other in bits(new) if missing else ():
            beyond = known[other] & missing
            # faces over one cell are stacked; faces that meet nowhere may well run in a circle
            if beyond and (beyond := beyond & self.conditions.together(face, other)):
                gained |= beyond
                missing &= ~beyond
        self._add(side, face, gained)

    def _follow_tacos(self, face: int) -> None:
        """Put what runs through a crease over both of its faces or under both."""
        for other, through in self.conditions.tacos_at[face]:
            self._add(BELOW, other, self.below[face] & through)
            self._add(ABOVE, other, self.above[face] & through)

    def _follow_nests(self, faces: Iterable[int]) -> None:
        """Follow the nests of these faces in which something changed since they were last looked at."""
        nests, changed = 0, [0] * self.conditions.faces
        for face in faces:
            nests |= self.conditions.nests_at[face]
            changed[face], self._changed[face] = self._changed[face], 0
        for number in bits(nests):
            nest = self.conditions.nests[number]
            one, two = nest.crease
            if (changed[one] | changed[two]) & nest.faces:
                self._follow_nest(nest)

    def _follow_nest(self, nest: Nest) -> None:
        """Keep two creases on one side of a piece nested or apart.

        A face lies between those of a crease just if its mate does.
        """
        one, two = nest.crease
        if self.above[one] >> two & 1:
            one, two = two, one
        elif not self.below[one] >> two & 1:
            self._follow_open_nest(nest)
            return
        lower, upper = self.below[one] & nest.others, self.above[two] & nest.others
        outside = (self.above[one] | self.below[two]) & nest.others
        if lower & upper:
            between = nest.mates(lower & upper)
            self._add(BELOW, one, between)
            self._add(ABOVE, two, between)
        if outside:
            # of a mate that is not between either, one face of the crease may tell on which side it is
            apart = nest.mates(outside)
            self._add(BELOW, two, apart & lower)
            self._add(ABOVE, one, apart & upper)

    def _follow_open_nest(self, nest: Nest) -> None:
        """Put two creases apart where the upper faces of each lie over the lower ones of the other.

        Without labels: a over d and b over c, of creases ab and cd, leave only both over both.
        """
        one, two = nest.crease
        if not self.below[one] & nest.others:
            return
        lower = self.below[one] & nest.mates(self.below[two] & nest.others)
        if lower:
            self._add(BELOW, two, lower)
            self._add(BELOW, one, nest.mates(lower))


TRIES = 2000


@dataclass(frozen=True)
class LayerSolution:
    """``folds`` is None where the tries were used up; ``below`` are per face the faces that lie under it.

    ``labels`` are those of this order, one an edge, free ones chosen.
    """

    folds: bool | None
    below: tuple[int, ...] = ()
    labels: tuple[Label, ...] = ()


class _OutOfTriesError(Exception):
    """The tries are used up."""


def solve_layers(pattern: CreasePattern, tries: int = TRIES, limit: Limit = UNLIMITED) -> LayerSolution:
    """Return whether the labelled pattern has a layer order; TearingError where it does not even close.

    Creases labelled U may fold either way. ``tries`` bounds the search beyond what follows by itself;
    OutOfTimeError where the limit comes first.
    """
    folded, conditions = _folded(pattern, limit)
    found = find_order(conditions, label_pairs(folded, pattern.labels()), tries, limit)
    return replace(found, labels=_labels_of(pattern, folded, found.below)) if found.folds else found


def _folded(pattern: CreasePattern, limit: Limit) -> tuple[Folded, Conditions]:
    # neither depends on a label, and the same creases are asked about with one set of labels after another
    return _folded_bare(pattern.with_labels("U" for _ in pattern.edges), limit)


@lru_cache(maxsize=4)
def _folded_bare(bare: CreasePattern, limit: Limit) -> tuple[Folded, Conditions]:
    folded = fold(bare)
    return folded, conditions_of(folded, limit)


def find_order(
    conditions: Conditions, pairs: list[tuple[int, int]], tries: int = TRIES, limit: Limit = UNLIMITED
) -> LayerSolution:
    """Return a layer order in which the first face of each pair lies over the second, or that none is."""
    order = Order(conditions, limit)
    try:
        order.put(pairs)
    except CrossingError:
        return LayerSolution(False)
    return completed(order, tries)


def completed(order: Order, tries: int) -> LayerSolution:
    """Return an order with every open pair of it settled, or that there is none."""
    try:
        _complete(order, tries)
    except CrossingError:
        return LayerSolution(False)
    except _OutOfTriesError:
        return LayerSolution(None)
    return LayerSolution(True, tuple(order.below))


def label_pairs(folded: Folded, labels: Sequence[Label]) -> list[tuple[int, int]]:
    """Return for each labelled crease its two faces, the upper one first.

    A mountain puts the neighbour under a face that lies face up, a valley over it.
    """
    pairs = []
    for label, faces in zip(labels, folded.sides, strict=True):
        if len(faces) == 2 and label in ("M", "V"):
            first, second = faces
            is_over = (label == "M") != folded.over[first]
            pairs.append((first, second) if is_over else (second, first))
    return pairs


def _labels_of(pattern: CreasePattern, folded: Folded, below: tuple[int, ...]) -> tuple[Label, ...]:
    """Return the labels that an order gives the creases."""
    labels = list(pattern.labels())
    for edge, faces in enumerate(folded.sides):
        if labels[edge] == "U" and len(faces) == 2:
            first, second = faces
            is_over = bool(below[first] >> second & 1)
            labels[edge] = "M" if is_over != folded.over[first] else "V"
    return tuple(labels)


def _complete(order: Order, tries: int) -> None:
    """Guess open pairs until none is left; CrossingError where every guess makes layers cross."""
    # per guess that stands: how much was put in before it, and the other way round, if untried
    guesses: list[tuple[int, tuple[int, int] | None]] = []
    while pair := order.open_pair():
        guesses.append((len(order.put_in), pair[::-1]))
        while True:
            tries -= 1
            if tries < 0:
                raise _OutOfTriesError
            try:
                order.put([pair])
                break
            except CrossingError:
                pair = _other_way(order, guesses)


def _other_way(order: Order, guesses: list[tuple[int, tuple[int, int] | None]]) -> tuple[int, int]:
    """Take back guesses to the latest that can be made the other way round; CrossingError without any."""
    while guesses:
        known, other = guesses.pop()
        order.take_out(known)
        if other:
            guesses.append((known, None))
            return other
    raise CrossingError


CONTRADICTION_TRIES = 200


def contradiction(
    pattern: CreasePattern, tries: int = CONTRADICTION_TRIES, limit: Limit = UNLIMITED
) -> tuple[int, ...]:
    """Return labelled creases that have no layer order together, though without any one of them there may be.

    Empty where the labels have an order, or where that is not decided. By halving the rest over and
    over (U. Junker, QuickXplain, AAAI 2004, from memory), so that few layer searches are needed.
    """
    folded, conditions = _folded(pattern, limit)
    creases = [
        edge
        for edge in pattern.creases
        if pattern.edges[edge].label in ("M", "V") and len(folded.sides[edge]) == 2
    ]
    pair_of = dict(zip(creases, label_pairs(folded, pattern.labels()), strict=True))

    def clash(chosen: Sequence[int]) -> bool:
        return find_order(conditions, [pair_of[edge] for edge in chosen], tries, limit).folds is False

    if not clash(creases):
        return ()
    if clash([]):
        return tuple(creases)
    return tuple(sorted(_needed([], [], creases, clash)))


def _needed(
    held: list[int], added: list[int], rest: list[int], clash: Callable[[Sequence[int]], bool]
) -> list[int]:
    """Return the part of the rest that clashes with what is held and cannot be done without."""
    if added and clash(held):
        return []
    if len(rest) == 1:
        return rest
    half = len(rest) // 2
    first, second = rest[:half], rest[half:]
    from_second = _needed(held + first, first, second, clash)
    from_first = _needed(held + from_second, from_second, first, clash)
    return from_first + from_second
