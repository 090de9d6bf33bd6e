"""Where the creases of a pattern lead, by direction, so that lines are followed from point to point."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from math import gcd, lcm
from typing import NamedTuple, TypeAlias

from drills.exact.plane import Direction
from drills.pattern.crease_pattern import CreasePattern
from drills.structures.finder_kinds import KIND_INSIDE

Leaving: TypeAlias = dict[Direction, tuple[int, int]]
"""What leaves a vertex: for a direction the crease and the vertex at its other end."""


class Ways(NamedTuple):
    """Where creases lead: whole-number places of the vertices, in one small unit, and what leaves each.

    ``over_edge`` gives for each kind, by its place in KINDS, at which vertices and in which way
    a crease that runs like its inside lines comes in over the paper's edge.
    """

    places: tuple[tuple[int, int], ...]
    leaving: tuple[Leaving, ...]
    at_edge: frozenset[int]
    over_edge: Mapping[int, Sequence[tuple[int, Direction]]]

    def beyond(self, vertex: int, way: Direction) -> int | None:
        """Return the vertex to which a crease leads in a direction, if there is one."""
        found = self.leaving[vertex].get(way)
        return found[1] if found else None


def ways_of(pattern: CreasePattern) -> Ways:
    """Return where the creases of a pattern lead."""
    unit = lcm(*{value.denominator for point in pattern.vertices for value in point})
    places = tuple((int(x * unit), int(y * unit)) for x, y in pattern.vertices)
    leaving: list[Leaving] = [{} for _ in places]
    at_edge = set()
    for index, (start, end, _, label) in enumerate(pattern.edges):
        if label == "B":
            at_edge |= {start, end}
            continue
        dx, dy = places[end][0] - places[start][0], places[end][1] - places[start][1]
        shared = gcd(dx, dy)
        dx, dy = dx // shared, dy // shared
        leaving[start][Direction(dx, dy)] = index, end
        leaving[end][Direction(-dx, -dy)] = index, start
    over_edge = defaultdict(list)
    for vertex in at_edge:
        for way in leaving[vertex].keys() & KIND_INSIDE.keys():
            over_edge[KIND_INSIDE[way]].append((vertex, way))
    return Ways(places, tuple(leaving), frozenset(at_edge), over_edge)
