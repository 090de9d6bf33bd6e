"""Cells of the folded sheet: what the folded edges cut the plane into, each with the faces over it.

The folded edges are drawn as a pattern of their own. Walking from cell to cell, the set of faces
changes exactly by those that end on the piece walked across, so no point is ever looked up in a face.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from drills.flatfold.folded import Folded
from drills.geometry import Point, double_area, meetings
from drills.pattern import CreasePattern, Edge, face_cycles

Segment: TypeAlias = tuple[Point, Point]


def arrange(folded: Folded) -> Mapping[Segment, list[int]]:
    """Return the pieces of the folded edges, ends in sorted order, each with the edges that lie on it."""
    edges_on: dict[Segment, list[int]] = defaultdict(list)
    for index, edge in enumerate(folded.pattern.edges):
        start, end = sorted((folded.points[edge.start], folded.points[edge.end]))
        edges_on[Point(*start), Point(*end)].append(index)
    cuts = _cuts(sorted(edges_on))
    pieces: dict[Segment, list[int]] = defaultdict(list)
    for segment, points in cuts.items():
        # points on one line are in order along it when they are sorted
        for piece in pairwise(sorted(points)):
            pieces[piece].extend(edges_on[segment])
    return pieces


def _cuts(segments: Sequence[Segment]) -> dict[Segment, set[Point]]:
    """Return per segment its ends and the points where others meet or overlap it."""
    cuts = {segment: set(segment) for segment in segments}
    for one, two, points in meetings(segments):
        cuts[segments[one]].update(points)
        cuts[segments[two]].update(points)
    return cuts


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
    rims = list(face_cycles(drawn))
    for cell, rim in enumerate(rims):
        beside.update((way, cell) for way in zip(rim, rim[1:] + rim[:1], strict=True))
    joins: list[list[tuple[int, int]]] = [[] for _ in rims]
    for edge, ends in zip(drawn.edges, ending, strict=True):
        left, right = beside[edge.start, edge.end], beside[edge.end, edge.start]
        joins[left].append((right, ends))
        joins[right].append((left, ends))
    # the one rim that runs clockwise is that of the outside, over which no face lies
    outside = next(cell for cell, rim in enumerate(rims) if double_area([drawn.vertices[v] for v in rim]) < 0)
    found = {outside: 0}
    waiting = [outside]
    while waiting:
        cell = waiting.pop()
        for other, ends in joins[cell]:
            if other not in found:
                found[other] = found[cell] ^ ends
                waiting.append(other)
    return beside, [found[cell] for cell in range(len(rims))]
