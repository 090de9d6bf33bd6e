"""Does a labelled sheet fold flat, layers and all? An order of the layers, or the labels that contradict.

What the labels say of neighbouring faces is put into an order, and all that follows from it is put
in too, until nothing more does. Only then is an open pair guessed, on a copy; a guess that makes
layers cross is taken back. The question is NP-complete (M. Bern, B. Hayes, SODA 1996) also for
creases on a grid and its diagonals (H. Akitaya et al., Box pleating is hard, JCDCGG 2015), so that
tries are counted; with labels on every crease there is hardly anything left to guess.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from drills.flatfold.conditions import FOLLOWING, Conditions, bits, conditions_of
from drills.flatfold.folded import Folded, fold
from drills.flatfold.limit import UNLIMITED, Limit
from drills.pattern import CreasePattern, Label


class CrossingError(Exception):
    """The layers would cross."""


class Order:
    """Per face the sets of faces known below and above it; orders may run in circles over the sheet.

    ``pairs`` are all that was put in, one after the other, so that the last ones can be taken out.
    """

    def __init__(self, conditions: Conditions, limit: Limit = UNLIMITED) -> None:
        self.conditions, self.limit = conditions, limit
        self.below = [0] * conditions.faces
        self.above = [0] * conditions.faces
        self.known = [0] * len(conditions.nests)
        self.pairs: list[tuple[int, int]] = []

    def take_out(self, kept: int) -> None:
        """Leave the first so many pairs, as if the later ones had never been put in."""
        while len(self.pairs) > kept:
            upper, lower = self.pairs.pop()
            self.below[upper] ^= 1 << lower
            self.above[lower] ^= 1 << upper
            for number, step in self.conditions.nests_at.get((upper, lower), ()):
                self.known[number] -= step

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

    def put(self, pairs: list[tuple[int, int]]) -> None:
        """Put the first face of each pair over the second and follow up; CrossingError if it cannot be."""
        waiting = list(pairs)
        while waiting:
            upper, lower = waiting.pop()
            # below and above are kept in step, so that one bit tells whether this is known already
            if self.below[upper] >> lower & 1:
                continue
            if upper == lower or self.above[upper] >> lower & 1:
                raise CrossingError
            self.below[upper] |= 1 << lower
            self.above[lower] |= 1 << upper
            self.pairs.append((upper, lower))
            if not len(self.pairs) % BETWEEN_CHECKS:
                self.limit.check()
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
        # faces over one cell are stacked; faces that meet nowhere may well run in a circle
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
        is_crossing = False
        # each pair is put in once, so that adding its step sets one digit of the number that was 0;
        # all of them are added before a crossing is told, so that all of them can be taken out again
        for number, step in self.conditions.nests_at.get((upper, lower), ()):
            known[number] += step
            following = FOLLOWING.get(known[number])
            if following is None:
                is_crossing = True
            elif following:
                nest = nests[number]
                waiting += [(nest[one], nest[two]) for one, two in following]
        if is_crossing:
            raise CrossingError


TRIES = 2000
BETWEEN_CHECKS = 256
"""Pairs put in between two looks at the clock."""


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
    folded = fold(pattern)
    conditions = conditions_of(folded, limit)
    found = find_order(conditions, label_pairs(folded, pattern.labels()), tries, limit)
    return replace(found, labels=_labels_of(folded, found.below)) if found.folds else found


def find_order(
    conditions: Conditions, pairs: list[tuple[int, int]], tries: int = TRIES, limit: Limit = UNLIMITED
) -> LayerSolution:
    """Return a layer order in which the first face of each pair lies over the second, or that none is."""
    order = Order(conditions, limit)
    try:
        order.put(pairs)
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


def _labels_of(folded: Folded, below: tuple[int, ...]) -> tuple[Label, ...]:
    """Return the labels that an order gives the creases."""
    labels = list(folded.pattern.labels())
    for edge, faces in enumerate(folded.sides):
        if labels[edge] == "U" and len(faces) == 2:
            first, second = faces
            is_over = bool(below[first] >> second & 1)
            labels[edge] = "M" if is_over != folded.over[first] else "V"
    return tuple(labels)


def _complete(order: Order, tries: int) -> None:
    """Guess open pairs until none is left; CrossingError where every guess makes layers cross."""
    # per guess that stands: how many pairs were known before it, and the other way round, if untried
    guesses: list[tuple[int, tuple[int, int] | None]] = []
    while pair := order.open_pair():
        guesses.append((len(order.pairs), pair[::-1]))
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
    folded = fold(pattern)
    conditions = conditions_of(folded, limit)
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
