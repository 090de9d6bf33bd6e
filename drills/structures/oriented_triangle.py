"""The twenty kinds of slanted stretch to look for: five triangles, each in four facings, by directions.

Sides and corners are counted round the outline from S: sides S-A, A-T, T-B, B-S, corners S, A, T, B,
so that side i begins at corner i and ends at the next.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from math import gcd, lcm
from typing import NamedTuple, TypeAlias

from drills.geometry import FACINGS, Direction, Point, Symmetry
from drills.pattern import CreasePattern
from drills.structures.triangle import TRIANGLES, Triangle

Four = tuple[Direction, Direction, Direction, Direction]

_RIDGES = (Direction(-1, -1), Direction(1, -1), Direction(1, 1), Direction(-1, 1))
_PLEATS = (Direction(1, 0), Direction(0, -1), Direction(-1, 0), Direction(0, 1))
FAR_CORNERS = (0, 2)


class OrientedTriangle(NamedTuple):
    """A triangle in one facing and its directions on the sheet, y up.

    ``sides``: the way along each side; ``ridges``: out from each corner at 45 degrees; ``pleats``
    and ``inside``: the way that a pleat line and an inside line leave each side's turning points.
    """

    triangle: Triangle
    facing: int
    sides: Four
    ridges: Four
    pleats: Four
    inside: Four

    @property
    def left(self) -> int:
        """1 where the outline has its inside at the left of its sides, -1 in a mirror image."""
        facing = FACINGS[self.facing]
        return facing.a * facing.d - facing.b * facing.c

    def outward(self, corner: int) -> tuple[Direction, ...]:
        """Return the ways of which one must leave a corner: its ridge, or at a far corner a hinge.

        Where two stretches stand side by side their ridges end in one point and only a hinge goes on.
        """
        ridge = self.ridges[corner]
        if corner not in FAR_CORNERS:
            return (ridge,)
        return ridge, Direction(ridge.dx, 0), Direction(0, ridge.dy)


def opposite(direction: Direction) -> Direction:
    """Return the direction turned half round."""
    return Direction(-direction.dx, -direction.dy)


def _kind(triangle: Triangle, facing: int) -> OrientedTriangle:
    a, b, inside = triangle.shallow, triangle.steep, triangle.inside
    image = FACINGS[facing]
    return OrientedTriangle(
        triangle,
        facing,
        _four(image, (a, b, opposite(a), opposite(b))),
        _four(image, _RIDGES),
        _four(image, _PLEATS),
        _four(image, (inside, opposite(inside), opposite(inside), inside)),
    )


def _four(facing: Symmetry, directions: Four) -> Four:
    first, second, third, fourth = (_image(facing, direction) for direction in directions)
    return first, second, third, fourth


def _image(facing: Symmetry, direction: Direction) -> Direction:
    point = facing.of(Point(direction.dx, direction.dy))
    return Direction(int(point.x), int(point.y))


KINDS = tuple(_kind(triangle, facing) for triangle in TRIANGLES for facing in range(len(FACINGS)))

SIDE_ALONG: Mapping[Direction, tuple[int, int]] = {
    way: (number, side) for number, kind in enumerate(KINDS) for side, way in enumerate(kind.sides)
}
"""The kind, by its place in KINDS, and the side that run in a direction: no two share one."""

KIND_INSIDE: Mapping[Direction, int] = {
    way: number for number, kind in enumerate(KINDS) for way in kind.inside[:2]
}
"""The kind, by its place in KINDS, whose inside lines run in a direction."""


Leaving: TypeAlias = dict[Direction, tuple[int, int]]
"""What leaves a vertex: for a direction the crease and the vertex at its other end."""


class CreaseIndex(NamedTuple):
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


def ways_of(pattern: CreasePattern) -> CreaseIndex:
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
    return CreaseIndex(places, tuple(leaving), frozenset(at_edge), over_edge)
