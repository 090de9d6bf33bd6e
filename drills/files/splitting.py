"""Splitting creases where they cross, touch or overlap, exactly, and in time that grows with their number."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from drills.exact.plane import Exact
from drills.files.cells import TOO_DENSE, Cell, cells
from drills.files.lists_in import MOST_EDGES
from drills.files.refusals import FoldError
from drills.files.spots import Ends, Spot, Whole


class Split(NamedTuple):
    """All points, the new ones after the given ones, and per line the points along it from start to end."""

    spots: list[Spot]
    along: list[list[int]]


class NearMissError(ValueError):
    """A point lies very near a line but not on it, so the grid is not the right one."""


def split(points: Sequence[Whole], ends: Sequence[Ends], near: Exact, exact: bool) -> Split:
    """Return the points along each line: its ends, points within ``near`` of it, and its crossings.

    Where exact, crossings are exact, and a point near a line but not on it raises NearMissError.
    FoldError where there would be too many pieces.
    """
    work = _Splitting(points, ends, near, exact)
    crowded = cells(points, ends, near)
    for cell in crowded:
        work.touch(cell)
    for cell in crowded:
        work.cross(cell)
    return work.result()


class _Splitting:
    """The lines and the points found on each so far."""

    def __init__(self, points: Sequence[Whole], ends: Sequence[Ends], near: Exact, exact: bool) -> None:
        self.ends, self.near, self.exact = ends, near, exact
        self.given = points
        self.spots: list[Spot] = list(points)
        self.on = [set(pair) for pair in ends]
        self.ways = [(points[two][0] - points[one][0], points[two][1] - points[one][1]) for one, two in ends]
        self.at: dict[Spot, int] = {}
        self.pieces = len(ends)

    def touch(self, cell: Cell) -> None:
        """Put the cell's points on those of its lines that they lie on."""
        ends, given, ways = self.ends, self.given, self.ways
        above, below = (self.near * self.near).as_integer_ratio()
        for point in cell.points:
            x, y = given[point]
            for line in cell.lines:
                if point in ends[line]:
                    continue
                (dx, dy), (left, bottom) = ways[line], given[ends[line][0]]
                away_x, away_y = x - left, y - bottom
                area = dx * away_y - dy * away_x
                length = dx * dx + dy * dy
                if area and area * area * below > above * length:
                    continue
                if 0 < dx * away_x + dy * away_y < length:
                    if area and self.exact:
                        raise NearMissError
                    self._put(point, line)

    def cross(self, cell: Cell) -> None:
        """Put a point on each two of the cell's lines that cross away from any point they share."""
        ends, given, ways, lines = self.ends, self.given, self.ways, cell.lines
        if set(ends[lines[0]]).intersection(*(ends[line] for line in lines)):
            return
        for place, first in enumerate(lines):
            a, b = ends[first]
            (x, y), (dx, dy) = given[a], ways[first]
            for second in lines[place + 1 :]:
                c, d = ends[second]
                if a in (c, d) or b in (c, d):
                    continue
                ex, ey = ways[second]
                area = dx * ey - dy * ex
                if not area:
                    continue
                away_x, away_y = given[c][0] - x, given[c][1] - y
                along, across = away_x * ey - away_y * ex, away_x * dy - away_y * dx
                if area < 0:
                    area, along, across = -area, -along, -across
                if 0 < along < area and 0 < across < area and self.on[first].isdisjoint(self.on[second]):
                    point = self._point((x * area + dx * along, y * area + dy * along), area)
                    self._put(point, first)
                    self._put(point, second)

    def result(self) -> Split:
        """Return what was found, new points in the order in which the lines come to them."""
        along = [self._in_order(line) for line in range(len(self.ends))]
        order = dict.fromkeys(point for line in along for point in line if point >= len(self.given))
        number = {point: place for place, point in enumerate(order, start=len(self.given))}
        spots = [*self.given, *(self.spots[point] for point in order)]
        return Split(spots, [[number.get(point, point) for point in line] for line in along])

    def _put(self, point: int, line: int) -> None:
        if point not in self.on[line]:
            self.on[line].add(point)
            self.pieces += 1
            if self.pieces > MOST_EDGES:
                raise FoldError(TOO_DENSE)

    def _point(self, tops: Whole, bottom: int) -> int:
        """Return the number of a crossing, given as two fractions over one denominator."""
        if self.exact:
            spot = _over(tops[0], bottom), _over(tops[1], bottom)
            return self._number(spot, spot)
        x, y = tops[0] // bottom, tops[1] // bottom
        size = 2 * ceil(self.near) + 1
        for beside in ((i, j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            key = x // size + beside[0], y // size + beside[1]
            if key in self.at:
                return self.at[key]
        return self._number((x // size, y // size), (x, y))

    def _number(self, key: Spot, spot: Spot) -> int:
        if key not in self.at:
            self.at[key] = len(self.spots)
            self.spots.append(spot)
        return self.at[key]

    def _in_order(self, line: int) -> list[int]:
        start, end = self.ends[line]
        if len(self.on[line]) == 2:
            return [start, end]
        (dx, dy), spots = self.ways[line], self.spots
        between = self.on[line] - {start, end}
        return [start, *sorted(between, key=lambda p: spots[p][0] * dx + spots[p][1] * dy), end]


def _over(top: int, bottom: int) -> Exact:
    whole, rest = divmod(top, bottom)
    return Fraction(top, bottom) if rest else whole
