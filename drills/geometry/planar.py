"""Exact geometry of segments and faces in the plane: once each, for every package that needs it.

Points are pairs of exact numbers, x to the right and y up, in any one unit: a ``Point`` is such a
pair, and so is a pair of ints in some small unit (see ``scaled_to_integers``), which is several
times quicker to reckon with than fractions.

    where segments meet           meeting, meetings, crossing_parts
    round a face                  face_walk, double_area
    straight along a line         straight_on
    inside a convex figure        HalfPlane, half_planes, lies_within
    whole numbers for fractions   scaled_to_integers
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from math import lcm
from typing import NamedTuple, TypeAlias

from drills.geometry.plane import Direction, Exact, Point, divided

Pair: TypeAlias = tuple[Exact, Exact]
"""A place in any unit: a Point is one."""

IntPair: TypeAlias = tuple[int, int]

Segment: TypeAlias = tuple[Pair, Pair]
"""The two ends of a straight line, which differ."""

HalfEdge: TypeAlias = tuple[int, int]
"""An edge walked one way: the vertex it leaves and the one it comes to."""


class Scaled(NamedTuple):
    """Points as whole numbers, ``unit`` of them to one unit of the points they came from."""

    unit: int
    points: tuple[IntPair, ...]


def scaled_to_integers(points: Sequence[Pair], most: int | None = None) -> Scaled:
    """Return the points in the largest unit that makes all their numbers whole.

    OverflowError where that takes more than ``most`` of it to one: many large denominators multiply.
    """
    unit = 1
    for denominator in {value.denominator for point in points for value in point}:
        unit = lcm(unit, denominator)
        if most is not None and unit > most:
            raise OverflowError("the points have too many different denominators")
    return Scaled(unit, tuple((int(x * unit), int(y * unit)) for x, y in points))


def crossing_parts(one: Segment, two: Segment) -> tuple[Exact, Exact, Exact]:
    """Return area >= 0, along and across: lines meet at along / area of one and across / area of two.

    Where the area is 0 the lines are parallel, and one and the same where ``across`` is 0 too.
    """
    ((px, py), (qx, qy)), ((rx, ry), (sx, sy)) = one, two
    ux, uy, vx, vy, wx, wy = qx - px, qy - py, sx - rx, sy - ry, rx - px, ry - py
    # p + t u = r + t' v: crossing both sides with v leaves t alone, crossing with u leaves t'
    area, along, across = ux * vy - uy * vx, wx * vy - wy * vx, wx * uy - wy * ux
    return (area, along, across) if area >= 0 else (-area, -along, -across)


def meeting(one: Segment, two: Segment) -> tuple[Point, ...]:
    """Return where two segments cross or touch: no point, one, or the two ends of what they share."""
    area, along, across = crossing_parts(one, two)
    if area == 0:
        return _shared(one, two) if across == 0 else ()
    if not (0 <= along <= area and 0 <= across <= area):
        return ()
    # at an end of either no division is needed, and most segments of a pattern meet so
    if along in (0, area):
        return (Point(*one[1 if along else 0]),)
    if across in (0, area):
        return (Point(*two[1 if across else 0]),)
    (x, y), (end_x, end_y) = one
    return (
        Point(
            divided(x * area + (end_x - x) * along, area),
            divided(y * area + (end_y - y) * along, area),
        ),
    )


def _shared(one: Segment, two: Segment) -> tuple[Point, ...]:
    """Return the ends of what two segments of one line share; points of a line are in order when sorted."""
    start, end = max(min(one), min(two)), min(max(one), max(two))
    if start > end:
        return ()
    return (Point(*start),) if start == end else (Point(*start), Point(*end))


def meetings(segments: Sequence[Segment]) -> Iterator[tuple[int, int, tuple[Point, ...]]]:
    """Yield each two segments, by index, that cross, touch or overlap, with what ``meeting`` says of them.

    A sweep from left to right: only segments whose bounding boxes meet are compared.
    """
    boxes = sorted(
        (min(x, end_x), max(x, end_x), min(y, end_y), max(y, end_y), index)
        for index, ((x, y), (end_x, end_y)) in enumerate(segments)
    )
    for place, (_, right, low, high, first) in enumerate(boxes):
        for other in range(place + 1, len(boxes)):
            left, _, other_low, other_high, second = boxes[other]
            if left > right:
                break
            if other_low > high or other_high < low:
                continue
            points = meeting(segments[first], segments[second])
            if points:
                yield first, second, points


def face_walk(start: HalfEdge, onward: Callable[[int, int], int], seen: set[HalfEdge]) -> Iterator[HalfEdge]:
    """Yield the half edges round a face from one of them on, until one comes that was seen before.

    ``onward`` gives, for a half edge, the vertex to which the next one leads: by the sharpest left
    turn for the face at the left, by the sharpest right turn for the one at the right. What is
    yielded is added to those seen.
    """
    way = start
    while way not in seen:
        seen.add(way)
        yield way
        way = way[1], onward(*way)


def double_area(corners: Sequence[Pair]) -> Exact:
    """Return twice the area of a polygon, negative where its corners run clockwise."""
    area: Exact = 0
    last_x, last_y = corners[-1]
    for x, y in corners:
        area += last_x * y - last_y * x
        last_x, last_y = x, y
    return area


Leaving: TypeAlias = Mapping[Direction, tuple[int, int]]
"""What leaves a vertex: for a direction the edge and the vertex at its other end."""


def straight_on(leaving: Sequence[Leaving], vertex: int, direction: Direction) -> Iterator[tuple[int, int]]:
    """Yield each edge that follows straight on from a vertex in a direction, with the vertex it leads to.

    ``leaving`` says for each vertex what leaves it. Whoever follows a line only so far stops asking.
    """
    while ahead := leaving[vertex].get(direction):
        yield ahead
        vertex = ahead[1]


class HalfPlane(NamedTuple):
    """The side of a line where a x + b y > c."""

    a: Exact
    b: Exact
    c: Exact

    @classmethod
    def at_left(cls, start: Pair, end: Pair) -> HalfPlane:
        """Return what lies at the left of the line from start to end."""
        a, b = start[1] - end[1], end[0] - start[0]
        return cls(a, b, a * start[0] + b * start[1])

    def height(self, point: Pair) -> Exact:
        """Return a measure of how far inside a point lies: 0 on the line, below 0 beyond it."""
        return self.a * point[0] + self.b * point[1] - self.c

    def facing(self, point: Pair) -> HalfPlane:
        """Return this side of the line or the other, whichever the point lies on."""
        return self if self.height(point) >= 0 else HalfPlane(-self.a, -self.b, -self.c)


def half_planes(corners: Sequence[Pair]) -> list[HalfPlane]:
    """Return the half planes whose common part is a convex polygon, whichever way round it is given."""
    ring = corners if double_area(corners) > 0 else corners[::-1]
    return [HalfPlane.at_left(ring[place - 1], end) for place, end in enumerate(ring)]


def lies_within(point: Pair, bounds: Iterable[HalfPlane]) -> bool:
    """Whether a point lies in the closed convex figure that the half planes bound."""
    return all(bound.height(point) >= 0 for bound in bounds)
