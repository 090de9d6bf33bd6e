"""Labels of a base: pleats and inside lines by rank, and the rest as the layers allow.

Ranks settle every pleat line but those of rank 0, the sides of the cells: where these stand next to
each other round flap tips they cannot all be of one kind. Piece by piece they take it where the
layers do not cross. What is left follows from the layers, or is tried one way and then the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import TypeAlias

from drills.flatfold import LayeredLabels, TearingError
from drills.pattern import OTHER_LABEL, CreasePattern, Label
from drills.structures.bases.cell_block import RANK_ZERO
from drills.structures.triangle import label_of_rank

Group: TypeAlias = tuple[int, ...]
"""A crease, or one and its mirror image, which take the same label."""


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
