"""The creases of a contradiction: a smallest choice of labels that already cannot lie in layers."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from drills.layers.conditions import conditions_of
from drills.layers.folding import fold
from drills.layers.verdict import find_order, label_pairs
from drills.pattern.crease_pattern import CreasePattern

TRIES = 200


def contradiction(pattern: CreasePattern, tries: int = TRIES) -> tuple[int, ...]:
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
