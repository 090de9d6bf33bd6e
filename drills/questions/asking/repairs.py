"""Every repair of so many labels, enumerated by a second route apart from the search for labels."""

from __future__ import annotations

from collections.abc import Iterator

from drills.flatfold import Rule
from drills.pattern import OTHER_LABEL, CreasePattern


def repairs_up_to(pattern: CreasePattern, most: int, rule: Rule) -> Iterator[frozenset[int]]:
    """Yield every smallest repair of at most so many labels, whatever search chose the labels.

    Creases that are switched hang together in groups by the points they meet at. A group that meets no
    failing point could be left out, so in a smallest repair each meets one, and each failing point is
    met: such sets are few, and each is tried whole.
    """
    labels = pattern.labels()
    failing = [vertex for vertex in pattern.interior if not rule(pattern, labels, vertex)]
    for switched in _meeting_all(pattern, failing, most):
        after = list(labels)
        for edge in switched:
            after[edge] = OTHER_LABEL[after[edge]]
        touched = {vertex for edge in switched for vertex in pattern.interior_ends[edge]}
        if all(rule(pattern, after, vertex) for vertex in touched):
            yield switched


def _meeting_all(pattern: CreasePattern, failing: list[int], most: int) -> Iterator[frozenset[int]]:
    """Yield each set of at most so many creases that meets all failing points and hangs on them."""
    seen: set[frozenset[int]] = set()
    waiting = [frozenset[int]()]
    while waiting:
        chosen = waiting.pop()
        if chosen in seen:
            continue
        seen.add(chosen)
        touched = {vertex for edge in chosen for vertex in pattern.interior_ends[edge]}
        unmet = next((vertex for vertex in failing if vertex not in touched), None)
        if unmet is None:
            yield chosen
        if len(chosen) < most:
            near = [unmet] if unmet is not None else touched
            edges = {edge for vertex in near for edge in pattern.around[vertex]} - chosen
            waiting += [chosen | {edge} for edge in edges]
