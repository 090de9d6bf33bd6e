"""Cells of the folded sheet: where the same faces lie on top of each other, as sets of bits.

The folded edges cut the plane into cells. A set of faces is a whole number whose bit f says that
face f is in it. Stepping over a piece takes away or adds just the faces that end there, so the sets
of all cells follow from the empty one outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from drills.layers.arrangement import arrange
from drills.layers.folding import Folded
from drills.pattern.crease_pattern import CreasePattern, Edge
from drills.pattern.faces import cycles, double_area


class Piece(NamedTuple):
    """A piece of the folded edges: the pattern's edges on it, and the sets of faces at its two sides."""

    edges: tuple[int, ...]
    left: int
    right: int


@dataclass(frozen=True)
class Cells:
    """The different sets of faces that lie on top of each other somewhere, and the pieces between cells."""

    sets: tuple[int, ...]
    pieces: tuple[Piece, ...]


def cells_of(folded: Folded) -> Cells:
    """Return the cells of a folded sheet."""
    lying = arrange(folded)
    points = sorted({point for piece in lying for point in piece})
    number = {point: index for index, point in enumerate(points)}
    edges = tuple(Edge(number[a], number[b], "other", "U") for a, b in lying)
    drawn = CreasePattern(tuple(points), edges)
    ending = [_ending(folded, on) for on in lying.values()]
    beside, sets = _sets(drawn, ending)
    pieces = tuple(
        Piece(tuple(on), sets[beside[edge.start, edge.end]], sets[beside[edge.end, edge.start]])
        for edge, on in zip(edges, lying.values(), strict=True)
    )
    return Cells(tuple(sorted(set(sets) - {0})), pieces)


def _ending(folded: Folded, edges: list[int]) -> int:
    """Return the faces that are on one side of a piece only."""
    ending = 0
    for edge in edges:
        for face in folded.sides[edge]:
            ending ^= 1 << face
    return ending


def _sets(drawn: CreasePattern, ending: list[int]) -> tuple[dict[tuple[int, int], int], list[int]]:
    """Return per half edge the number of the cell at its left, and the set of faces of each cell."""
    beside: dict[tuple[int, int], int] = {}
    rims = list(cycles(drawn))
    for cell, rim in enumerate(rims):
        beside.update((way, cell) for way in zip(rim, rim[1:] + rim[:1], strict=True))
    joins: list[list[tuple[int, int]]] = [[] for _ in rims]
    for edge, ends in zip(drawn.edges, ending, strict=True):
        left, right = beside[edge.start, edge.end], beside[edge.end, edge.start]
        joins[left].append((right, ends))
        joins[right].append((left, ends))
    outside = next(cell for cell, rim in enumerate(rims) if double_area(drawn, rim) < 0)
    found = {outside: 0}
    waiting = [outside]
    while waiting:
        cell = waiting.pop()
        for other, ends in joins[cell]:
            if other not in found:
                found[other] = found[cell] ^ ends
                waiting.append(other)
    return beside, [found[cell] for cell in range(len(rims))]
