"""Where the arrows lead: a matching of points per axis, so that right and then left returns.

Each point has at most one neighbour to the right, and is then that one's neighbour to the left;
likewise up and down. Near neighbours within 45 degrees are matched first; then free arrows join
what is still apart. A chain of matches has two free ends in either axis and a join never closes a
chain, so two parts that are apart always have a free pair: in the end every point is reachable.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import permutations
from math import lcm
from typing import Literal, NamedTuple, TypeAlias

from drills.exact.plane import Direction, Exact, Point, cross, dot, move_between

Arrow: TypeAlias = Literal["right", "left", "up", "down"]
Axis: TypeAlias = Literal["across", "upward"]

AXES: Mapping[Axis, tuple[Arrow, Arrow]] = {"across": ("right", "left"), "upward": ("up", "down")}
BACK: Mapping[Arrow, Arrow] = {"right": "left", "left": "right", "up": "down", "down": "up"}
DIRECTIONS: Mapping[Arrow, Direction] = {
    "right": Direction(1, 0),
    "left": Direction(-1, 0),
    "up": Direction(0, 1),
    "down": Direction(0, -1),
}
# Sideways counts more than forward, so that an arrow rather goes a little further than off its line.
_SIDEWAYS = 3
AHEAD, BEHIND = 0, 2


class _Way(NamedTuple):
    """A possible match, the best ones first: forward squares, with those sideways counted more."""

    rank: int
    cost: int
    axis: Axis
    start: int
    end: int


@dataclass
class _Matching:
    """Matches so far, and for each point the part of the sheet it is joined to."""

    ways: dict[tuple[int, Arrow], int] = field(default_factory=dict)
    part: dict[int, int] = field(default_factory=dict)

    def is_free(self, way: _Way) -> bool:
        forward, back = AXES[way.axis]
        return (way.start, forward) not in self.ways and (way.end, back) not in self.ways

    def match(self, way: _Way) -> None:
        forward, back = AXES[way.axis]
        self.ways[way.start, forward], self.ways[way.end, back] = way.end, way.start
        self.part[self.part_of(way.start)] = self.part_of(way.end)

    def part_of(self, point: int) -> int:
        while (above := self.part.get(point, point)) != point:
            point = above
        return point


def arrow_ways(points: Mapping[int, Point]) -> dict[tuple[int, Arrow], int]:
    """Return where each arrow leads from each point; points are given by number and place."""
    places = _whole(points)
    matching = _Matching()
    for way in sorted(_ways(places, AHEAD)):
        if matching.is_free(way):
            matching.match(way)
    if len({matching.part_of(point) for point in points}) > 1:
        for way in sorted(_ways(places, BEHIND)):
            if matching.part_of(way.start) != matching.part_of(way.end) and matching.is_free(way):
                matching.match(way)
    return matching.ways


def nearest_that_way(points: Mapping[int, Point], start: Point, arrow: Arrow) -> int | None:
    """Return the number of the nearest point within 45 degrees of an arrow, None where there is none."""
    ahead: list[tuple[Exact, int]] = []
    for number, point in points.items():
        move = move_between(start, point)
        forward, aside = dot(move, DIRECTIONS[arrow]), cross(move, DIRECTIONS[arrow])
        sideways = max(aside, -aside)
        if forward > 0 and sideways <= forward:
            ahead.append((forward + _SIDEWAYS * sideways, number))
    return min(ahead)[1] if ahead else None


def _ways(places: Sequence[tuple[int, int, int]], most: int) -> Iterator[_Way]:
    """Yield the ways of rank up to so much; the many others are not made, as most sheets need none."""
    for (start, x, y), (end, to_x, to_y) in permutations(places, 2):
        across, up = to_x - x, to_y - y
        if most > AHEAD or abs(up) <= across:
            yield _way("across", across, abs(up), start, end)
        if most > AHEAD or abs(across) <= up:
            yield _way("upward", up, abs(across), start, end)


def _way(axis: Axis, forward: int, sideways: int, start: int, end: int) -> _Way:
    """Return a way of rank 0 within 45 degrees of the arrow, 1 up to a right angle, 2 where it leads back."""
    rank = 0 if sideways <= forward else 1 if forward > 0 else 2
    return _Way(rank, abs(forward) + _SIDEWAYS * sideways, axis, start, end)


def _whole(points: Mapping[int, Point]) -> list[tuple[int, int, int]]:
    """Return number, x and y of the points, in parts of a square small enough to make all whole."""
    unit = lcm(*_denominators(points.values()))
    return [(number, int(point.x * unit), int(point.y * unit)) for number, point in points.items()]


def _denominators(points: Iterable[Point]) -> Iterator[int]:
    for point in points:
        yield from (point.x.denominator, point.y.denominator)
