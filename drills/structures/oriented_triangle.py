"""What the finder looks for: five triangles, each in four facings, told apart by directions alone.

Sides and corners are counted round the outline from S: sides S-A, A-T, T-B, B-S, corners S, A, T, B,
so that side i begins at corner i and ends at the next.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from math import gcd
from typing import NamedTuple

from drills.geometry import FACINGS, Direction, IntPair, Leaving, Point, Symmetry, opposite
from drills.pattern import CreasePattern
from drills.structures.triangle import TRIANGLES, Triangle

Four = tuple[Direction, Direction, Direction, Direction]

_RIDGES = (Direction(-1, -1), Direction(1, -1), Direction(1, 1), Direction(-1, 1))
_PLEATS = (Direction(1, 0), Direction(0, -1), Direction(-1, 0), Direction(0, 1))
FAR_CORNERS = (0, 2)


class OrientedTriangle(NamedTuple):
    """A triangle in one facing and its directions on the sheet, y up.

    ``sides``: along each side; ``ridges``: out from each corner at 45 degrees; ``pleats`` and
    ``inside``: as a pleat line and an inside line leave each side's turning points.
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
        """Return the directions of which one must leave a corner: its ridge, or at a far corner a hinge.

        Where two stretches stand side by side their ridges end in one point and only a hinge goes on.
        """
        ridge = self.ridges[corner]
        if corner not in FAR_CORNERS:
            return (ridge,)
        return ridge, Direction(ridge.dx, 0), Direction(0, ridge.dy)


def _oriented(triangle: Triangle, facing: int) -> OrientedTriangle:
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


ORIENTED_TRIANGLES = tuple(
    _oriented(triangle, facing) for triangle in TRIANGLES for facing in range(len(FACINGS))
)

SIDE_ALONG: Mapping[Direction, tuple[int, int]] = {
    direction: (number, side)
    for number, oriented in enumerate(ORIENTED_TRIANGLES)
    for side, direction in enumerate(oriented.sides)
}
"""The oriented triangle, by number, and the side that run in a direction: no two share one."""

TRIANGLE_INSIDE: Mapping[Direction, int] = {
    direction: number
    for number, oriented in enumerate(ORIENTED_TRIANGLES)
    for direction in oriented.inside[:2]
}
"""The oriented triangle, by number, whose inside lines run in a direction."""


class CreaseIndex(NamedTuple):
    """Where creases lead: the vertices as whole numbers in one small unit, and what leaves each.

    ``over_edge`` gives for each oriented triangle, by its place in ORIENTED_TRIANGLES, at which
    vertices and in which direction a crease that runs like its inside lines comes in over the
    paper's edge.
    """

    places: tuple[IntPair, ...]
    leaving: tuple[Leaving, ...]
    at_edge: frozenset[int]
    over_edge: Mapping[int, Sequence[tuple[int, Direction]]]

    def beyond(self, vertex: int, direction: Direction) -> int | None:
        """Return the vertex to which a crease leads in a direction, if there is one."""
        found = self.leaving[vertex].get(direction)
        return found[1] if found else None


def crease_index(pattern: CreasePattern) -> CreaseIndex:
    """Return where the creases of a pattern lead; the paper's edge is none of them."""
    places = pattern.on_integers.points
    leaving: list[dict[Direction, tuple[int, int]]] = [{} for _ in places]
    at_edge = set()
    for number, (start, end, _, label) in enumerate(pattern.edges):
        if label == "B":
            at_edge |= {start, end}
            continue
        # reckoned from whole numbers, which is quicker here than to ask the pattern
        dx, dy = places[end][0] - places[start][0], places[end][1] - places[start][1]
        shared = gcd(dx, dy)
        direction = Direction(dx // shared, dy // shared)
        leaving[start][direction] = number, end
        leaving[end][opposite(direction)] = number, start
    over_edge = defaultdict(list)
    for vertex in at_edge:
        for direction in leaving[vertex].keys() & TRIANGLE_INSIDE.keys():
            over_edge[TRIANGLE_INSIDE[direction]].append((vertex, direction))
    return CreaseIndex(places, tuple(leaving), frozenset(at_edge), over_edge)
