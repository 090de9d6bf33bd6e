"""What goes wrong with labels in practice: for each mistake, the sets of labels it may switch."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import combinations

from drills.pattern import CreasePattern, bent_runs, straight_runs

Mistake = Callable[[CreasePattern], Iterator[frozenset[int]]]


def one_label(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each crease by itself."""
    yield from (frozenset({edge}) for edge in pattern.creases)


def exchanged_pair(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each mountain and valley that meet at a point."""
    for vertex in pattern.interior:
        for pair in combinations(pattern.around[vertex], 2):
            if len({pattern.edges[edge].label for edge in pair}) == 2:
                yield frozenset(pair)


def whole_side(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each side of an outline that is creased in more than one piece."""
    yield from (frozenset(run.edges) for run in straight_runs(pattern, "outline") if len(run.edges) > 1)


def along_line(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield each two or three pieces in a row along a pleat line, round its bends."""
    for run in bent_runs(pattern, "pleat"):
        for length in (2, 3):
            starts = range(len(run.edges) - length + 1)
            yield from (frozenset(run.edges[start : start + length]) for start in starts)


def lazy_hinge(pattern: CreasePattern) -> Iterator[frozenset[int]]:
    """Yield, for each crossing where a hinge may forget to alternate, its pieces from there outward."""
    for run in straight_runs(pattern, "hinge"):
        inner = run.vertices[0] in pattern.interior
        outward = run.edges if inner else run.edges[::-1]
        yield from (frozenset(outward[start:]) for start in range(1, len(outward)))


MISTAKES: Mapping[str, Mistake] = {
    "one": one_label,
    "pair": exchanged_pair,
    "side": whole_side,
    "line": along_line,
    "hinge": lazy_hinge,
}
