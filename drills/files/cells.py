"""Sorting lines by the cells of the plane that they pass, so that only neighbours need comparing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, isqrt
from typing import Final, NamedTuple

from drills.exact.plane import Exact
from drills.files.refusals import FoldError
from drills.files.spots import Ends, Whole

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
            raise FoldError(TOO_DENSE)
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
        raise FoldError(TOO_DENSE)
