"""Repairs: the smallest sets of labels to switch so that every point folds again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drills.pattern.crease_pattern import OTHER_LABEL, CreasePattern, Label
from drills.vertex.labels_at import Rule, balances, failing, folds


def smallest_repairs(
    pattern: CreasePattern,
    labels: Sequence[Label],
    rule: Rule,
    at_most: int,
    broken: frozenset[int] | None = None,
) -> frozenset[frozenset[int]]:
    """Return every smallest set of edges to switch so that no interior vertex breaks the rule.

    Looks for up to ``at_most`` switches; empty where more would be needed. ``broken`` are the
    vertices to be repaired, all that break the rule if it is not given.
    """
    if broken is None:
        broken = frozenset(failing(pattern, labels, rule))
    for size in range(at_most + 1):
        found = frozenset(_repairs(pattern, list(labels), rule, size, frozenset(), broken))
        if found:
            return found
    return frozenset()


def is_only_repair(pattern: CreasePattern, switched: frozenset[int], rule: Rule) -> bool:
    """Whether switching exactly these edges is the one smallest repair of the pattern as labelled."""
    repairs = smallest_repairs(pattern, pattern.labels(), rule, len(switched))
    return repairs == frozenset({switched})


def is_settled_by_counting(pattern: CreasePattern, switched: frozenset[int]) -> bool:
    """Whether counting mountains against valleys at each point already leaves only this repair."""
    return is_only_repair(pattern, switched, balances)


def is_settled_in_full(pattern: CreasePattern, switched: frozenset[int]) -> bool:
    """Whether the full test of each point leaves only this repair."""
    return is_only_repair(pattern, switched, folds)


def _repairs(
    pattern: CreasePattern,
    labels: list[Label],
    rule: Rule,
    left: int,
    barred: frozenset[int],
    broken: frozenset[int],
) -> Iterator[frozenset[int]]:
    """Yield the sets of ``left`` more switches; one crease of a broken vertex must be among them.

    A crease that an earlier branch tried, or that is switched already, is barred, so no set comes twice.
    """
    if not broken:
        yield frozenset()
    elif left and len(broken) <= 2 * left:
        for edge in pattern.around[min(broken)]:
            if edge not in barred:
                barred |= {edge}
                labels[edge] = OTHER_LABEL[labels[edge]]
                ends = pattern.interior_ends[edge]
                after = broken.difference(ends).union(v for v in ends if not rule(pattern, labels, v))
                for more in _repairs(pattern, labels, rule, left - 1, barred, after):
                    yield more | {edge}
                labels[edge] = OTHER_LABEL[labels[edge]]
