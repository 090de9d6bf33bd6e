"""Does a labelled sheet fold flat, layers and all? A verdict with an order, or with what contradicts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from drills.flatfold.conditions import Conditions, conditions_of
from drills.flatfold.folded import Folded, fold
from drills.flatfold.labels import completions
from drills.flatfold.order import CrossingError, Order
from drills.pattern import CreasePattern, Label

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


def solve_layers(pattern: CreasePattern, tries: int = TRIES) -> LayerSolution:
    """Return whether the labelled pattern has a layer order; TearingError where it does not even close.

    Creases labelled U may fold either way. ``tries`` bounds the search beyond what follows by itself.
    """
    folded = fold(pattern)
    found = find_order(conditions_of(folded), label_pairs(folded, pattern.labels()), tries)
    return replace(found, labels=_labels_of(folded, found.below)) if found.folds else found


def find_order(conditions: Conditions, pairs: list[tuple[int, int]], tries: int = TRIES) -> LayerSolution:
    """Return a layer order in which the first face of each pair lies over the second, or that none is."""
    order = Order(conditions)
    try:
        order.put(pairs)
        left = [tries]
        found = _searched(order, left)
    except CrossingError:
        return LayerSolution(False)
    except _OutOfTriesError:
        return LayerSolution(None)
    return LayerSolution(False) if found is None else LayerSolution(True, tuple(found.below))


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


def _searched(order: Order, left: list[int]) -> Order | None:
    pair = order.open_pair()
    if pair is None:
        return order
    for guess in (pair, pair[::-1]):
        left[0] -= 1
        if left[0] < 0:
            raise _OutOfTriesError
        branch = order.copy()
        try:
            branch.put([guess])
        except CrossingError:
            continue
        found = _searched(branch, left)
        if found is not None:
            return found
    return None


def count_orders(pattern: CreasePattern) -> int:
    """Return the number of layer orders; labelled creases keep their labels, U folds either way."""
    folded = fold(pattern)
    return sum(1 for _ in orders_of(conditions_of(folded), label_pairs(folded, pattern.labels())))


def orders_of(conditions: Conditions, pairs: list[tuple[int, int]]) -> Iterator[Order]:
    """Yield every layer order in which the first face of each pair lies over the second."""
    order = Order(conditions)
    try:
        order.put(pairs)
    except CrossingError:
        return
    yield from _grown(order)


def count_foldable(pattern: CreasePattern) -> tuple[int, int]:
    """Return the number of labellings that fold at each point, and of those that have a layer order."""
    folded = fold(pattern)
    conditions = conditions_of(folded)
    at_points = whole = 0
    for labels in completions(pattern, pattern.labels()):
        at_points += 1
        whole += find_order(conditions, label_pairs(folded, labels)).folds is True
    return at_points, whole


def _grown(order: Order) -> Iterator[Order]:
    pair = order.open_pair()
    if pair is None:
        yield order
        return
    for guess in (pair, pair[::-1]):
        branch = order.copy()
        try:
            branch.put([guess])
        except CrossingError:
            continue
        yield from _grown(branch)


CONTRADICTION_TRIES = 200


def contradiction(pattern: CreasePattern, tries: int = CONTRADICTION_TRIES) -> tuple[int, ...]:
    """Return labelled creases that have no layer order together, though without any one of them there may be.

    Empty where the labels have an order, or where that is not decided. By halving the rest over and
    over (U. Junker, QuickXplain, AAAI 2004, from memory), so that few layer searches are needed.
    """
    folded = fold(pattern)
    conditions = conditions_of(folded)
    creases = [
        edge
        for edge in pattern.creases
        if pattern.edges[edge].label in ("M", "V") and len(folded.sides[edge]) == 2
    ]
    pair_of = dict(zip(creases, label_pairs(folded, pattern.labels()), strict=True))

    def clash(chosen: Sequence[int]) -> bool:
        return find_order(conditions, [pair_of[edge] for edge in chosen], tries).folds is False

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
