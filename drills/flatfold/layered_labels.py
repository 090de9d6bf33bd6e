"""Labels given one after the other, each only where the layers known so far allow it."""

from __future__ import annotations

from collections.abc import Iterable

from drills.flatfold.conditions import conditions_of
from drills.flatfold.folded import fold
from drills.flatfold.limit import UNLIMITED, Limit
from drills.flatfold.solve import CrossingError, Order, label_pairs
from drills.pattern import CreasePattern, Label


class LayeredLabels:
    """Labels of a pattern's creases, none at first, and what they say of its layers.

    TearingError where the creases do not close, OutOfTimeError where the limit comes first.
    """

    def __init__(self, pattern: CreasePattern, limit: Limit = UNLIMITED) -> None:
        self.folded = fold(pattern)
        self.labels = list(pattern.unlabelled().labels())
        self.creases = [edge for edge in pattern.creases if len(self.folded.sides[edge]) == 2]
        as_mountains = pattern.with_labels("B" if label == "B" else "M" for label in self.labels)
        # per crease its two faces, the one first that lies over the other where it is a mountain
        pairs = label_pairs(self.folded, as_mountains.labels())
        self._faces = dict(zip(self.creases, pairs, strict=True))
        self.order = Order(conditions_of(self.folded, limit), limit)

    def give(self, labels: Iterable[tuple[int, Label]]) -> bool:
        """Give creases these labels, all or none; False where the layers would cross."""
        given = list(labels)
        kept = len(self.order.put_in)
        try:
            self.order.put([self._pair(edge, label) for edge, label in given])
        except CrossingError:
            self.order.take_out(kept)
            return False
        for edge, label in given:
            self.labels[edge] = label
        return True

    def _pair(self, edge: int, label: Label) -> tuple[int, int]:
        upper, lower = self._faces[edge]
        return (upper, lower) if label == "M" else (lower, upper)

    def following(self, edge: int) -> Label:
        """Return the label that a crease has in the layers known so far; U where it is open."""
        upper, lower = self._faces[edge]
        if self.order.below[upper] >> lower & 1:
            return "M"
        return "V" if self.order.above[upper] >> lower & 1 else "U"
