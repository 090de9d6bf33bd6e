"""Finding wrong labels the slow way: every set of creases, every order of the layers at a point.

Shares nothing with the code under test: no crimping, no branching search.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import cache
from itertools import combinations
from math import isclose, pi, tau

from tests.drills.questions.plain_sheet import PlainSheet

Rule = Callable[[PlainSheet, list[str], int], bool]


def all_repairs(sheet: PlainSheet, size: int, rule: Rule) -> list[frozenset[int]]:
    """Return every set of so many creases whose switching makes each inner point pass.

    A switch moves mountains less valleys by two at each inner end, and they must come to plus or minus two:
    so a set is looked at only where it touches the points that are off an odd number of times.
    """
    failing = {vertex for vertex in sheet.inner if not rule(sheet, sheet.labels, vertex)}
    found = []
    for chosen in _balancing(sheet, size):
        ends = {end for edge in chosen for end in sheet.edges[edge]} & set(sheet.inner)
        labels = switched(sheet, chosen)
        if failing <= ends and all(rule(sheet, labels, vertex) for vertex in ends):
            found.append(frozenset(chosen))
    return found


def _balancing(sheet: PlainSheet, size: int) -> Iterator[tuple[int, ...]]:
    """Yield every set of so many creases that touches just the points that are off an odd number of times."""
    bit = {vertex: 1 << place for place, vertex in enumerate(sheet.inner)}
    touched = {edge: sum(bit.get(end, 0) for end in sheet.edges[edge]) for edge in sheet.creases}
    off = sum(bit[v] for v in sheet.inner if difference(sheet, sheet.labels, v) % 4 != 2)
    if not size:
        yield from [()] * (not off)
        return
    touching: dict[int, list[int]] = defaultdict(list)
    for edge, points in touched.items():
        touching[points].append(edge)
    for chosen in combinations(sheet.creases, size - 1):
        parity = off
        for edge in chosen:
            parity ^= touched[edge]
        yield from ((*chosen, last) for last in touching.get(parity, ()) if last > max(chosen, default=-1))


def switched(sheet: PlainSheet, chosen: tuple[int, ...] | frozenset[int]) -> list[str]:
    """Return the labels with mountain and valley exchanged on the chosen edges."""
    other = {"M": "V", "V": "M", "B": "B"}
    return [other[label] if edge in chosen else label for edge, label in enumerate(sheet.labels)]


def passes(sheet: PlainSheet, labels: list[str], rule: Rule) -> bool:
    """Whether every inner point passes."""
    return all(rule(sheet, labels, vertex) for vertex in sheet.inner)


def difference(sheet: PlainSheet, labels: list[str], vertex: int) -> int:
    """Return mountains less valleys at a point."""
    meeting = [labels[edge] for edge in sheet.around[vertex]]
    return meeting.count("M") - meeting.count("V")


def counting(sheet: PlainSheet, labels: list[str], vertex: int) -> bool:
    """Whether mountains and valleys differ by two at a point."""
    return abs(difference(sheet, labels, vertex)) == 2


def layering(sheet: PlainSheet, labels: list[str], vertex: int) -> bool:
    """Whether some order of the layers round the point shows these labels."""
    directions = tuple(sheet.angle(edge, vertex) for edge in sheet.around[vertex])
    return tuple(labels[edge] == "M" for edge in sheet.around[vertex]) in _foldable(directions)


def angles_fold(sheet: PlainSheet, vertex: int) -> bool:
    """Whether every second angle round the point adds up to half a turn."""
    angles = _angles(tuple(sheet.angle(edge, vertex) for edge in sheet.around[vertex]))
    return len(angles) % 2 == 0 and isclose(sum(angles[::2]), pi)


def _angles(directions: tuple[float, ...]) -> list[float]:
    following = [*directions[1:], directions[0] + tau]
    return [after - before for before, after in zip(directions, following, strict=True)]


@cache
def _foldable(directions: tuple[float, ...]) -> frozenset[tuple[bool, ...]]:
    """Return the labels, True for a mountain, that the orders of the layers show."""
    return frozenset(
        tuple((height[i] > height[i - 1]) == (i % 2 == 0) for i in range(len(directions)))
        for height in _stacks(_angles(directions))
    )


def _stacks(angles: list[float]) -> Iterator[tuple[int, ...]]:
    """Yield the height of each sector in every order in which no layer passes through a crease.

    Sector i lies after crease i. Folded, the creases come to lie along a line: forward and back in turn.
    Sectors are put in one after the other, at every height, while what is in place already is sound.
    """
    number, at = len(angles), [0.0]
    for place, angle in enumerate(angles[:-1]):
        at.append(at[-1] + (-1) ** place * angle)
    spans = [sorted((at[i], at[(i + 1) % number])) for i in range(number)]
    cut = [
        (i, k)
        for i in range(number)
        for k in range(number)
        if spans[k][0] + 1e-9 < at[i] < spans[k][1] - 1e-9
    ]
    pairs = [
        (i, j)
        for i, j in combinations(range(number), 2)
        if (j - i) % 2 == 0 and isclose(at[i], at[j], abs_tol=1e-9)
    ]
    stacks: list[tuple[int, ...]] = [()]
    for sector in range(number):
        higher = ((*stack[:on], sector, *stack[on:]) for stack in stacks for on in range(sector + 1))
        stacks = [stack for stack in higher if _is_sound(stack, number, cut, pairs)]
    for stack in stacks:
        yield tuple(stack.index(sector) for sector in range(number))


def _is_sound(
    stack: tuple[int, ...], number: int, cut: list[tuple[int, int]], pairs: list[tuple[int, int]]
) -> bool:
    """Whether of the sectors in place none passes through a crease, and no two creases cross."""
    height = {sector: place for place, sector in enumerate(stack)}
    folds = {
        i: sorted((height[(i - 1) % number], height[i]))
        for i in range(number)
        if {(i - 1) % number, i} <= height.keys()
    }
    if any(folds[i][0] < height[k] < folds[i][1] for i, k in cut if i in folds and k in height):
        return False
    return not any(_cross(folds[i], folds[j]) for i, j in pairs if {i, j} <= folds.keys())


def _cross(one: list[int], two: list[int]) -> bool:
    return one[0] < two[0] < one[1] < two[1] or two[0] < one[0] < two[1] < one[1]
