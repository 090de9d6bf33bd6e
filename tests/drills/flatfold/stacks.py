"""Folding one point the slow way: every order of its layers, kept where no layer is torn.

Shares nothing with the code under test: no crimping, no recursion, no counting of mountains.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, permutations


def stacks(angles: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Yield the height of each sector in every order of the sectors in which the folded point lies flat.

    Sector i lies between the creases i and i + 1. Folded, it runs from its first crease to its
    second along a circle, forward and backward in turn. It must not pass between the two sectors
    of a crease that ends inside it, and two creases at one place, on the same side of their
    sectors, must lie beside or inside one another.
    """
    places = _folded(angles)
    count = len(angles)
    sectors = [tuple(sorted((places[i], places[(i + 1) % count]))) for i in range(count)]
    through = [
        (i, j) for i in range(count) for j in range(count) if sectors[j][0] < places[i] < sectors[j][1]
    ]
    # Even creases open forward, odd ones backward, so creases on one side have one parity.
    together = [
        (i, j) for i, j in combinations(range(count), 2) if places[i] == places[j] and (i - j) % 2 == 0
    ]
    for height in permutations(range(count)):
        if any(_between(height[j], height[i - 1], height[i]) for i, j in through):
            continue
        if any(
            _between(height[j - 1], height[i - 1], height[i]) != _between(height[j], height[i - 1], height[i])
            for i, j in together
        ):
            continue
        yield height


def labellings(angles: Sequence[int]) -> frozenset[tuple[bool, ...]]:
    """Return the labels of the creases, True for a mountain, that some order of the layers shows."""
    return frozenset(
        tuple((height[i - 1] < height[i]) == (i % 2 == 0) for i in range(len(angles)))
        for height in stacks(angles)
    )


def _folded(angles: Sequence[int]) -> list[int]:
    """Return where each crease comes to lie on the circle."""
    places = [0]
    for index, angle in enumerate(angles):
        places.append(places[-1] + (angle if index % 2 == 0 else -angle))
    assert places[-1] == 0, "every second angle must add up to the same"
    return places[:-1]


def _between(middle: int, one: int, other: int) -> bool:
    return min(one, other) < middle < max(one, other)
