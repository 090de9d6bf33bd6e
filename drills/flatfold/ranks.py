"""Labels for open creases by rank: a pleat line keeps its label round each bend, its neighbours take turns.

Where two creases meet a ridge at one point, each the other's mirror image, they are one bent line. Each
bent line takes one label and proposes the other to its parallels; one that would make layers cross is
left to be searched, as ridges and hinges are.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from typing import TypeAlias

from drills.flatfold.folded import fold
from drills.flatfold.layered_labels import LayeredLabels
from drills.flatfold.limit import UNLIMITED, Limit
from drills.flatfold.solve import LayerSolution, completed
from drills.flatfold.turns import Parallels, parallels_of
from drills.geometry import dot, opposite
from drills.pattern import OTHER_LABEL, CreasePattern, Label

TRIES = 500

BentLine: TypeAlias = tuple[int, ...]
"""The creases of a line that is bent at ridges, by index."""


def solve_by_rank(pattern: CreasePattern, limit: Limit = UNLIMITED) -> LayerSolution:
    """Return a layer order with labels that take turns from line to line; ``folds`` is True or None.

    That none is found tells nothing. TearingError where the creases do not close, OutOfTimeError where
    the limit comes first.
    """
    layered = LayeredLabels(pattern, limit)
    given = ((edge, pattern.edges[edge].label) for edge in layered.creases)
    if not layered.give((edge, label) for edge, label in given if label in ("M", "V")):
        return LayerSolution(None)
    kept, parallels, lines = (
        len(layered.order.put_in),
        parallels_of(pattern, layered.folded),
        bent_lines(pattern),
    )
    # a single crease may be a hinge, which follows no rank: where those do not fit, they are searched
    for chosen in (lines, [line for line in lines if len(line) > 1]):
        _take_turns(layered, chosen, parallels)
        found = completed(layered.order, TRIES)
        if found.folds:
            labels = list(pattern.labels())
            for edge in layered.creases:
                labels[edge] = layered.following(edge)
            return LayerSolution(True, found.below, tuple(labels))
        layered.order.take_out(kept)
    return LayerSolution(None)


def bent_lines(pattern: CreasePattern) -> list[BentLine]:
    """Return the lines that are bent at ridges, and creases beside them that are no ridges; longest first."""
    line_of = {edge: [edge] for edge in pattern.creases}
    ridges: set[int] = set()
    for vertex in pattern.interior:
        for axis, sides in _bends(pattern, vertex):
            ridges.update(axis)
            one, two = (line_of[edge] for edge in sides)
            if one is not two:
                one += two
                line_of.update((edge, one) for edge in two)
    lines = {tuple(sorted(line)) for line in line_of.values()}
    return sorted((line for line in lines if not ridges & set(line)), key=lambda line: (-len(line), line))


def _bends(pattern: CreasePattern, vertex: int) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Return, where four creases meet, the ridge that runs straight on and the two creases bent at it."""
    edges, ways = pattern.around[vertex], pattern.directions[vertex]
    if len(edges) != 4:
        return []
    return [
        ((edges[place], edges[place + 2]), (edges[1 - place], edges[3 - place]))
        for place in (0, 1)
        if ways[place + 2] == opposite(ways[place]) and dot(ways[place], ways[1 - place])
    ]


def _take_turns(layered: LayeredLabels, lines: Sequence[BentLine], parallels: Parallels) -> None:
    """Give each line another label than its parallels have, from the longest on, where layers allow."""
    line_of: Mapping[int, BentLine] = {edge: line for line in lines for edge in line}
    seen: set[BentLine] = set()
    for start in lines:
        waiting: deque[tuple[BentLine, Label]] = deque([(start, "M")])
        while waiting:
            line, proposed = waiting.popleft()
            if line in seen:
                continue
            seen.add(line)
            label = _given(layered, line, proposed)
            if label is not None:
                beside = (line_of[other] for edge in line for other in parallels[edge] if other in line_of)
                waiting.extend((other, OTHER_LABEL[label]) for other in beside if other not in seen)


def _given(layered: LayeredLabels, line: BentLine, proposed: Label) -> Label | None:
    """Give a line the proposed label, or the other one where layers would cross; None where neither goes."""
    for label in (proposed, OTHER_LABEL[proposed]):
        if layered.give([(edge, label) for edge in line]):
            return label
    return None


def takes_turns(pattern: CreasePattern, labels: Sequence[Label]) -> bool:
    """Whether each bent line has one label, and those beside it, its parallels across a face, the other."""
    lines = [line for line in bent_lines(pattern) if len(line) > 1]
    line_of = {edge: line for line in lines for edge in line}
    beside = parallels_of(pattern, fold(pattern))
    return all(
        labels[edge] == labels[line[0]]
        and all(labels[other] != labels[edge] for other in beside[edge] if other in line_of)
        for line in lines
        for edge in line
    )
