"""Splitting a drawing's lines where they meet, tens of thousands of them in time that grows with them.

Lines are sorted into the cells of a square lattice that they pass, so that only neighbours are compared.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, isqrt
from typing import Final, NamedTuple

from drills.fold_file.read import MOST_EDGES, Ends, FoldFileError
from drills.geometry import Exact, IntPair, Pair, crossing_parts, divided

_MOST_PASSED: Final = 1_000_000
_MOST_COMPARED: Final = 4_000_000
_TOO_DENSE: Final = "Too many creases lie close together; save a smaller part of the pattern."


class _Cell(NamedTuple):
    """The lines that pass a cell and the points in it or near it, by their indices."""

    lines: list[int]
    points: list[int]


def _cells(points: Sequence[IntPair], ends: Sequence[Ends], tolerance: Exact) -> list[_Cell]:
    """Return the cells that two or more lines pass; lines that meet share one of them.

    A point within ``tolerance`` of a line shares a cell with it. FoldFileError if too much would be compared.
    """
    margin = ceil(tolerance)
    used = {vertex for pair in ends for vertex in pair}
    left, bottom = min(points[v][0] for v in used) - margin, min(points[v][1] for v in used) - margin
    size = max(max(points[v][0] for v in used) - left, max(points[v][1] for v in used) - bottom)
    # about as many cells as lines: fewer would be crowded, more would take long to pass through
    side = size // isqrt(2 * len(ends)) + 1
    wide = size // side + 2
    if _number_passed(points, ends, side) > _MOST_PASSED:
        raise FoldFileError(_TOO_DENSE)
    found: dict[int, _Cell] = {}
    for line, (one, two) in enumerate(ends):
        (x0, y0), (x1, y1) = points[one], points[two]
        for key in _passed(x0 - left, y0 - bottom, x1 - left, y1 - bottom, side, wide):
            if key in found:
                found[key].lines.append(line)
            else:
                found[key] = _Cell([line], [])
    crowded = {key: cell for key, cell in found.items() if len(cell.lines) > 1}
    for vertex in used:
        x, y = points[vertex][0] - left, points[vertex][1] - bottom
        columns = {(x - margin) // side, (x + margin) // side}
        for row in {(y - margin) // side, (y + margin) // side}:
            for column in columns:
                if row * wide + column in crowded:
                    crowded[row * wide + column].points.append(vertex)
    _check_work(crowded.values())
    return list(crowded.values())


def _number_passed(points: Sequence[IntPair], ends: Sequence[Ends], side: int) -> int:
    """Return how many cells the lines pass together, to within two for each line."""
    return sum(
        (abs(points[one][0] - points[two][0]) + abs(points[one][1] - points[two][1])) // side + 1
        for one, two in ends
    )


def _passed(x0: int, y0: int, x1: int, y1: int, side: int, wide: int) -> Sequence[int]:
    """Return the keys, row * wide + column, of all cells that the segment passes, and maybe a few more."""
    column, row, last_column, last_row = x0 // side, y0 // side, x1 // side, y1 // side
    if row == last_row:
        low, high = (column, last_column) if column < last_column else (last_column, column)
        return range(row * wide + low, row * wide + high + 1)
    if row > last_row:
        x0, y0, x1, y1, row, last_row = x1, y1, x0, y0, last_row, row
    if column == last_column:
        return range(row * wide + column, last_row * wide + column + 1, wide)
    keys: list[int] = []
    enters = x0
    for at in range(row, last_row + 1):
        top = min((at + 1) * side, y1)
        leaves = x0 + (x1 - x0) * (top - y0) // (y1 - y0)
        low, high = (enters, leaves) if enters < leaves else (leaves, enters)
        keys.extend(range(at * wide + low // side, at * wide + high // side + 1))
        enters = leaves
    return keys


def _check_work(crowded: Iterable[_Cell]) -> None:
    if sum(len(cell.lines) * (len(cell.lines) + len(cell.points)) for cell in crowded) > _MOST_COMPARED:
        raise FoldFileError(_TOO_DENSE)


class Split(NamedTuple):
    """All points, the new ones after the given ones, and per line the points along it from start to end."""

    raw_points: list[Pair]
    along: list[list[int]]


class NearMissError(ValueError):
    """A point lies very near a line but not on it, so the grid is not the right one."""


def split(points: Sequence[IntPair], ends: Sequence[Ends], tolerance: Exact, exact: bool) -> Split:
    """Return the points along each line: its ends, points within ``tolerance`` of it, and its crossings.

    Where exact, crossings are exact, and a point near a line but not on it raises NearMissError.
    FoldFileError where there would be too many pieces.
    """
    work = _Splitting(points, ends, tolerance, exact)
    crowded = _cells(points, ends, tolerance)
    for cell in crowded:
        work.touch(cell)
    for cell in crowded:
        work.cross(cell)
    return work.result()


class _Splitting:
    """The lines and the points found on each so far."""

    def __init__(
        self, points: Sequence[IntPair], ends: Sequence[Ends], tolerance: Exact, exact: bool
    ) -> None:
        self.ends, self.tolerance, self.exact = ends, tolerance, exact
        self.given = points
        self.raw_points: list[Pair] = list(points)
        self.on = [set(pair) for pair in ends]
        self.moves = [(points[two][0] - points[one][0], points[two][1] - points[one][1]) for one, two in ends]
        self.at: dict[Pair, int] = {}
        self.pieces = len(ends)

    def touch(self, cell: _Cell) -> None:
        """Put the cell's points on those of its lines that they lie on."""
        ends, given, moves = self.ends, self.given, self.moves
        above, below = (self.tolerance * self.tolerance).as_integer_ratio()
        for point in cell.points:
            x, y = given[point]
            for line in cell.lines:
                if point in ends[line]:
                    continue
                (dx, dy), (left, bottom) = moves[line], given[ends[line][0]]
                away_x, away_y = x - left, y - bottom
                area = dx * away_y - dy * away_x
                length = dx * dx + dy * dy
                if area and area * area * below > above * length:
                    continue
                if 0 < dx * away_x + dy * away_y < length:
                    if area and self.exact:
                        raise NearMissError
                    self._put(point, line)

    def cross(self, cell: _Cell) -> None:
        """Put a point on each two of the cell's lines that cross away from any point they share."""
        ends, given, moves, lines = self.ends, self.given, self.moves, cell.lines
        # most crowded cells lie round one point where all their lines end: nothing crosses there
        if set(ends[lines[0]]).intersection(*(ends[line] for line in lines)):
            return
        for place, first in enumerate(lines):
            a, b = ends[first]
            segment = given[a], given[b]
            for second in lines[place + 1 :]:
                c, d = ends[second]
                if a in (c, d) or b in (c, d):
                    continue
                area, along, across = crossing_parts(segment, (given[c], given[d]))
                if 0 < along < area and 0 < across < area and self.on[first].isdisjoint(self.on[second]):
                    (x, y), (dx, dy) = given[a], moves[first]
                    point = self._point((x * area + dx * along, y * area + dy * along), area)
                    self._put(point, first)
                    self._put(point, second)

    def result(self) -> Split:
        """Return what was found, new points in the order in which the lines come to them."""
        along = [self._in_order(line) for line in range(len(self.ends))]
        order = dict.fromkeys(point for line in along for point in line if point >= len(self.given))
        number = {point: place for place, point in enumerate(order, start=len(self.given))}
        raw_points = [*self.given, *(self.raw_points[point] for point in order)]
        return Split(raw_points, [[number.get(point, point) for point in line] for line in along])

    def _put(self, point: int, line: int) -> None:
        if point not in self.on[line]:
            self.on[line].add(point)
            self.pieces += 1
            if self.pieces > MOST_EDGES:
                raise FoldFileError(_TOO_DENSE)

    def _point(self, tops: Pair, bottom: Exact) -> int:
        """Return the number of a crossing, given as two fractions over one denominator."""
        if self.exact:
            crossing = divided(tops[0], bottom), divided(tops[1], bottom)
            return self._number(crossing, crossing)
        # rounded down, and boxed so that crossings within the tolerance of each other are one point
        x, y = tops[0] // bottom, tops[1] // bottom
        size = 2 * ceil(self.tolerance) + 1
        for beside in ((i, j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            key = x // size + beside[0], y // size + beside[1]
            if key in self.at:
                return self.at[key]
        return self._number((x // size, y // size), (x, y))

    def _number(self, key: Pair, raw_point: Pair) -> int:
        if key not in self.at:
            self.at[key] = len(self.raw_points)
            self.raw_points.append(raw_point)
        return self.at[key]

    def _in_order(self, line: int) -> list[int]:
        start, end = self.ends[line]
        if len(self.on[line]) == 2:
            return [start, end]
        (dx, dy), raw_points = self.moves[line], self.raw_points
        between = self.on[line] - {start, end}
        return [start, *sorted(between, key=lambda p: raw_points[p][0] * dx + raw_points[p][1] * dy), end]
