"""Labels for open creases in which pleats take turns: what a search among layers alone may not come to.

The two creases of a pleat, parallel with one face between them, are mostly a mountain and a valley. So
each label proposes those of the parallels beside it, from the longest crease on; a crease where the
layers would cross takes the other label. Where neither goes, all is begun again from that crease.
"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Mapping, Sequence
from itertools import permutations

from drills.flatfold.folded import Folded
from drills.flatfold.layered_labels import LayeredLabels
from drills.flatfold.limit import UNLIMITED, Limit
from drills.flatfold.solve import LayerSolution, completed
from drills.geometry import opposite
from drills.pattern import OTHER_LABEL, CreasePattern, Label

BEGINNINGS = 24
TRIES = 500

Parallels = Mapping[int, Sequence[int]]
"""Per crease those parallel to it on another line across one of its faces."""


def solve_in_turns(pattern: CreasePattern, limit: Limit = UNLIMITED) -> LayerSolution:
    """Return a layer order with labels in which pleats take turns where they can; ``folds`` is True or None.

    That none is found tells nothing. TearingError where the creases do not close, OutOfTimeError where
    the limit comes first.
    """
    layered = LayeredLabels(pattern, limit)
    if not layered.give((edge, pattern.edges[edge].label) for edge in _labelled(pattern, layered.creases)):
        return LayerSolution(None)
    given, parallels = len(layered.order.put_in), parallels_of(pattern, layered.folded)
    starts = sorted(layered.creases, key=lambda edge: -_length(pattern, edge))
    for _ in range(BEGINNINGS):
        stuck = _first_without_label(layered, parallels, starts)
        if stuck is None:
            return _with_labels(pattern, layered)
        layered.order.take_out(given)
        starts = [stuck, *(edge for edge in starts if edge != stuck)]
    return LayerSolution(None)


def _labelled(pattern: CreasePattern, creases: Sequence[int]) -> list[int]:
    return [edge for edge in creases if pattern.edges[edge].label in ("M", "V")]


def _length(pattern: CreasePattern, edge: int) -> int:
    """Return the square of a crease's length, in the pattern's small unit."""
    points, (start, end, _, _) = pattern.on_integers.points, pattern.edges[edge]
    (x, y), (to_x, to_y) = points[start], points[end]
    return (to_x - x) ** 2 + (to_y - y) ** 2


def parallels_of(pattern: CreasePattern, folded: Folded) -> Parallels:
    """Return per crease those beside it: parallel to it, on another line, across one of its faces."""
    alike: dict[tuple[object, ...], list[int]] = defaultdict(list)
    for edge in pattern.creases:
        way = pattern.direction(edge, pattern.edges[edge].start)
        for face in folded.sides[edge]:
            alike[face, max(way, opposite(way))].append(edge)
    found: dict[int, list[int]] = defaultdict(list)
    for edges in alike.values():
        for one, other in permutations(edges, 2):
            found[one].append(other)
    return found


def _first_without_label(layered: LayeredLabels, parallels: Parallels, starts: Sequence[int]) -> int | None:
    """Give every crease a label, and return the first for which there is none."""
    seen: set[int] = set()
    for start in starts:
        waiting: deque[tuple[int, Label]] = deque([(start, "M")])
        while waiting:
            edge, proposed = waiting.popleft()
            if edge in seen:
                continue
            seen.add(edge)
            if layered.following(edge) == "U" and not (
                layered.give([(edge, proposed)]) or layered.give([(edge, OTHER_LABEL[proposed])])
            ):
                return edge
            across = OTHER_LABEL[layered.following(edge)]
            waiting.extend((other, across) for other in parallels[edge] if other not in seen)
    return None


def _with_labels(pattern: CreasePattern, layered: LayeredLabels) -> LayerSolution:
    """Return the order once all creases have labels: what these leave open is searched."""
    labels = list(pattern.labels())
    for edge in layered.creases:
        labels[edge] = layered.following(edge)
    found = completed(layered.order, TRIES)
    return LayerSolution(True, found.below, tuple(labels)) if found.folds else LayerSolution(None)
