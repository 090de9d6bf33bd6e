"""Completing labels: every way to give the creases without a label one that folds at each point."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drills.pattern.crease_pattern import CreasePattern, Label
from drills.vertex.labels_at import valid_at


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
