"""Counting layer orders, and labellings that have one, on small sheets."""

from __future__ import annotations

from collections.abc import Iterator

from drills.labels.completing import completions
from drills.layers.conditions import Conditions, conditions_of
from drills.layers.folding import fold
from drills.layers.order import CrossingError, Order
from drills.layers.verdict import find_order, label_pairs
from drills.pattern.crease_pattern import CreasePattern


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
