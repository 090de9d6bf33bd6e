"""Labels of a base: pleats and inside lines by rank, and the rest as the layers allow.

Ranks settle every pleat line but those of rank 0, the sides of the cells: where these stand next to
each other round flap tips they cannot all be of one kind. Piece by piece they take it where the
layers do not cross. What is left follows from the layers, or is tried one way and then the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import product
from typing import TypeAlias

from drills.flatfold import (
    CrossingError,
    Order,
    TearingError,
    conditions_of,
    fold,
    label_pairs,
)
from drills.pattern import OTHER_LABEL, CreasePattern, Label
from drills.structures.bases.cell_block import RANK_ZERO
from drills.structures.triangle import label_of_rank

Group: TypeAlias = tuple[int, ...]
"""A crease, or one and its mirror image, which take the same label."""


class LayeredLabels:
    """Labels given one group after the other, each only where the layers known so far allow it."""

    def __init__(self, pattern: CreasePattern) -> None:
        folded = fold(pattern)
        self.labels = list(pattern.unlabelled().labels())
        inner = [edge for edge in pattern.creases if len(folded.sides[edge]) == 2]
        as_mountains = pattern.with_labels("B" if label == "B" else "M" for label in self.labels)
        # per crease its two faces, the one first that lies over the other where it is a mountain
        self._faces = dict(zip(inner, label_pairs(folded, as_mountains.labels()), strict=True))
        self.order = Order(conditions_of(folded))

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


def labelled_by_rank(pattern: CreasePattern, groups: Sequence[Group]) -> CreasePattern | None:
    """Return the pattern with labels in which its pleats take turns; None where the layers cross.

    The pattern's own labels are those by rank, RANK_ZERO on lines of rank 0, U where ranks say nothing;
    ``groups`` are all creases in the order in which labels are chosen for them.
    """
    try:
        layered = LayeredLabels(pattern)
    except TearingError:
        return None
    own = pattern.labels()
    if not layered.give((edge, own[edge]) for edge in pattern.creases if own[edge] in ("M", "V")):
        return None
    for group in groups:
        if own[group[0]] == RANK_ZERO:
            layered.give((edge, label_of_rank(0)) for edge in group)
    if not all(_settle(layered, group) for group in groups):
        return None
    return pattern.with_labels(layered.labels)


def _settle(layered: LayeredLabels, group: Group) -> bool:
    """Give a group the labels that follow from the layers, alike where they may be; False where none fits."""
    following = [layered.following(edge) for edge in group]
    known: Label = next((label for label in following if label != "U"), "M")
    alike = [(known,) * len(group), (OTHER_LABEL[known],) * len(group)]
    either: tuple[Label, ...] = ("M", "V")
    choices = dict.fromkeys([*alike, *product(either, repeat=len(group))])
    return any(layered.give(zip(group, labels, strict=True)) for labels in choices)
