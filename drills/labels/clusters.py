"""Repairs of large patterns: cluster by cluster of failing vertices, each on its own piece of the sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, product

from drills.labels.repairs import smallest_repairs
from drills.pattern.crease_pattern import CreasePattern, Label
from drills.vertex.labels_at import Rule, failing

AT_MOST_A_CLUSTER = 4
MOST_REPAIRS = 64


def whole_repairs(
    pattern: CreasePattern, labels: Sequence[Label], rule: Rule
) -> tuple[list[frozenset[int]], bool]:
    """Return the smallest whole repairs, at most 64, and whether there are more.

    A cluster are failing vertices not more than 4 creases apart; each is repaired by at most 4 labels.
    Empty where some cluster needs more.
    """
    found = [
        smallest_repairs(pattern, labels, rule, AT_MOST_A_CLUSTER, cluster)
        for cluster in clusters(pattern, failing(pattern, labels, rule))
    ]
    whole = (frozenset().union(*parts) for parts in product(*(sorted(part, key=sorted) for part in found)))
    first = list(islice(whole, MOST_REPAIRS + 1))
    return first[:MOST_REPAIRS], len(first) > MOST_REPAIRS


def clusters(pattern: CreasePattern, vertices: Sequence[int]) -> Iterator[frozenset[int]]:
    """Yield the vertices in groups that no path of up to 4 creases joins to another group."""
    left = set(vertices)
    while left:
        cluster = {left.pop()}
        waiting = list(cluster)
        while waiting:
            near = _within(pattern, waiting.pop(), AT_MOST_A_CLUSTER) & left
            left -= near
            cluster |= near
            waiting.extend(near)
        yield frozenset(cluster)


def _within(pattern: CreasePattern, vertex: int, steps: int) -> set[int]:
    found = rim = {vertex}
    for _ in range(steps):
        rim = {pattern.other_end(edge, at) for at in rim for edge in pattern.around[at]} - found
        found = found | rim
    return found
