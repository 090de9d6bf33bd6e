"""Does a labelled sheet fold flat, layers and all? A verdict with an order, or with what contradicts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drills.layers.conditions import Conditions, conditions_of
from drills.layers.folding import Folded, fold
from drills.layers.order import CrossingError, Order
from drills.pattern.crease_pattern import CreasePattern, Label

TRIES = 2000


@dataclass(frozen=True)
class Verdict:
    """``folds`` is None where the tries were used up; ``below`` are per face the faces that lie under it.

    ``labels`` are those of this order, one an edge, free ones chosen.
    """

    folds: bool | None
    below: tuple[int, ...] = ()
    labels: tuple[Label, ...] = ()


class _OutOfTriesError(Exception):
    """The tries are used up."""


def layers(pattern: CreasePattern, tries: int = TRIES) -> Verdict:
    """Return whether the labelled pattern has a layer order; TearingError where it does not even close.

    Creases labelled U may fold either way. ``tries`` bounds the search beyond what follows by itself.
    """
    folded = fold(pattern)
    found = find_order(conditions_of(folded), label_pairs(folded, pattern.labels()), tries)
    return replace(found, labels=_labels_of(folded, found.below)) if found.folds else found


def find_order(conditions: Conditions, pairs: list[tuple[int, int]], tries: int = TRIES) -> Verdict:
    """Return a layer order in which the first face of each pair lies over the second, or that none is."""
    order = Order(conditions)
    try:
        order.put(pairs)
        left = [tries]
        found = _searched(order, left)
    except CrossingError:
        return Verdict(False)
    except _OutOfTriesError:
        return Verdict(None)
    return Verdict(False) if found is None else Verdict(True, tuple(found.below))


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
