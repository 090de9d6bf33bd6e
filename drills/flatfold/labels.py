"""Completing labels: every way to give the creases without a label one that folds at each point."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, product

from drills.flatfold.limit import UNLIMITED, Limit
from drills.flatfold.vertex import Rule, balances, failing, folds, valid_at
from drills.pattern import OTHER_LABEL, CreasePattern, Label


def completions(pattern: CreasePattern, labels: Sequence[Label]) -> Iterator[tuple[Label, ...]]:
    """Yield every complete set of labels that keeps the given ones and folds at each interior vertex.

    U marks a crease to be labelled. Folding at each point does not mean that the whole sheet folds.
    """
    known = list(labels)
    if not _follow(pattern, known, list(pattern.interior)):
        return
    if "U" not in known:
        yield tuple(known)
        return
    edge = _most_settled(pattern, known)
    for label in ("M", "V"):
        known[edge] = label
        yield from completions(pattern, known)


def _follow(pattern: CreasePattern, known: list[Label], waiting: list[int]) -> bool:
    """Fill in what the vertices force, one after the other; False where one of them cannot fold."""
    inner = frozenset(pattern.interior)
    while waiting:
        vertex = waiting.pop()
        edges = pattern.around[vertex]
        choices = _choices(pattern, known, vertex)
        if not choices:
            return False
        for edge, options in zip(edges, zip(*choices, strict=True), strict=True):
            if known[edge] == "U" and len(set(options)) == 1:
                known[edge] = "M" if options[0] else "V"
                other = pattern.other_end(edge, vertex)
                waiting.extend({other} & inner)
    return True


def _choices(pattern: CreasePattern, known: Sequence[Label], vertex: int) -> list[tuple[bool, ...]]:
    """Return the valid labels of a vertex that agree with those known."""
    given = [known[edge] for edge in pattern.around[vertex]]
    return [
        labels
        for labels in valid_at(pattern.directions[vertex])
        if all(label == "U" or (label == "M") == is_m for label, is_m in zip(given, labels, strict=True))
    ]


def _most_settled(pattern: CreasePattern, known: Sequence[Label]) -> int:
    """Return an open crease at the vertex with the fewest choices left."""
    still_open = [edge for edge, label in enumerate(known) if label == "U"]

    def choices(edge: int) -> int:
        ends = pattern.interior_ends[edge]
        return min((len(_choices(pattern, known, vertex)) for vertex in ends), default=1 << 20)

    return min(still_open, key=choices)


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


AT_MOST_A_CLUSTER = 4
MOST_REPAIRS = 64


def whole_repairs(
    pattern: CreasePattern, labels: Sequence[Label], rule: Rule, limit: Limit = UNLIMITED
) -> tuple[list[frozenset[int]], bool]:
    """Return the smallest whole repairs, at most 64, and whether there are more.

    A cluster are failing vertices not more than 4 creases apart; each is repaired by at most 4 labels.
    Empty where some cluster needs more; OutOfTimeError where the limit comes first.
    """
    found = [
        smallest_repairs(pattern, labels, rule, AT_MOST_A_CLUSTER, cluster)
        for cluster in clusters(pattern, failing(pattern, labels, rule), limit)
    ]
    whole = (frozenset().union(*parts) for parts in product(*(sorted(part, key=sorted) for part in found)))
    first = list(islice(whole, MOST_REPAIRS + 1))
    return first[:MOST_REPAIRS], len(first) > MOST_REPAIRS


def clusters(
    pattern: CreasePattern, vertices: Sequence[int], limit: Limit = UNLIMITED
) -> Iterator[frozenset[int]]:
    """Yield the vertices in groups that no path of up to 4 creases joins to another group."""
    left = set(vertices)
    while left:
        cluster = {left.pop()}
        waiting = list(cluster)
        while waiting:
            limit.check()
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
