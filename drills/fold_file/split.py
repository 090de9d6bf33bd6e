"""Sorting lines by the cells of the plane that they pass, so that only neighbours need comparing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil, isqrt
from typing import Final, NamedTuple

from drills.fold_file.numbers import Ends, Spot, Whole
from drills.fold_file.read import MOST_EDGES
from drills.fold_file.refusals import FoldFileError
from drills.fold_file.snapping import Lines
from drills.geometry import Exact
from drills.pattern import Label

MOST_COMPARED: Final = 3_000_000
TOO_DENSE: Final = "Too many creases lie close together; save a smaller part of the pattern."


class Cell(NamedTuple):
    """The lines that pass a cell and the points in it or near it, by their indices."""

    lines: list[int]
    points: list[int]


def cells(points: Sequence[Whole], ends: Sequence[Ends], near: Exact) -> list[Cell]:
    """Return the cells that two or more lines pass; lines that meet share one of them.

    A point within ``near`` of a line shares a cell with it. FoldError if too much would be compared.
    """
    margin = ceil(near)
    used = {vertex for pair in ends for vertex in pair}
    left, bottom = min(points[v][0] for v in used) - margin, min(points[v][1] for v in used) - margin
    size = max(max(points[v][0] for v in used) - left, max(points[v][1] for v in used) - bottom)
    side = size // isqrt(2 * len(ends)) + 1
    wide = size // side + 2
    found: dict[int, Cell] = {}
    registered = 0
    for line, (one, two) in enumerate(ends):
        (x0, y0), (x1, y1) = points[one], points[two]
        passed = _passed(x0 - left, y0 - bottom, x1 - left, y1 - bottom, side, wide)
        registered += len(passed)
        if registered > MOST_COMPARED:
            raise FoldFileError(TOO_DENSE)
        for key in passed:
            if key in found:
                found[key].lines.append(line)
            else:
                found[key] = Cell([line], [])
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


def _check_work(crowded: Iterable[Cell]) -> None:
    if sum(len(it.lines) * (len(it.lines) + len(it.points)) for it in crowded) > 2 * MOST_COMPARED:
        raise FoldFileError(TOO_DENSE)


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
                raise FoldFileError(TOO_DENSE)

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


_STRENGTH: Final[Mapping[Label, int]] = {"U": 0, "M": 1, "V": 1, "B": 2}


class Pieces(NamedTuple):
    """Lines that meet only at their ends: first pieces by their line's number, then the further ones.

    ``further`` gives for each number of a further piece the file's edge that it is of; ``doubled``
    counts the pieces left out because they lay on top of another.
    """

    ends: list[Ends]
    labels: list[Label]
    numbers: list[int]
    further: dict[int, int]
    doubled: int


def pieces_of(lines: Lines, along: Sequence[Sequence[int]], edges: int) -> Pieces:
    """Return the pieces of lines through these points; further ones are numbered from ``edges`` on.

    Of two on top of each other the paper's edge counts rather than a crease, and a label rather
    than none; FoldError where one is a mountain and one a valley.
    """
    sources: dict[Ends, int] = {}
    labels: dict[Ends, Label] = {}
    numbers: dict[Ends, int] = {}
    further: dict[int, int] = {}
    drawn = [(line, (points[0], points[1]), True) for line, points in enumerate(along)]
    drawn += [(line, pair, False) for line, points in enumerate(along) for pair in pairwise(points[1:])]
    for line, pair, is_first in drawn:
        if pair[0] > pair[1]:
            pair = pair[1], pair[0]
        if pair in sources:
            if labels[pair] != lines.labels[line]:
                labels[pair] = _stronger(lines, sources[pair], labels[pair], line)
            continue
        sources[pair], labels[pair] = line, lines.labels[line]
        numbers[pair] = lines.numbers[line] if is_first else edges + len(further)
        if not is_first:
            further[numbers[pair]] = lines.numbers[line]
    return Pieces(
        list(sources), list(labels.values()), list(numbers.values()), further, len(drawn) - len(sources)
    )


def _stronger(lines: Lines, first: int, label: Label, second: int) -> Label:
    other = lines.labels[second]
    if _STRENGTH[label] == _STRENGTH[other]:
        numbers = sorted((lines.numbers[first], lines.numbers[second]))
        raise FoldFileError(
            f"Edges {numbers[0]} and {numbers[1]} lie on top of each other with different labels;"
            " take one of them out."
        )
    return max(label, other, key=_STRENGTH.__getitem__)
