"""The one place where grid points (y up) become dots and cells (y down), and back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, hypot
from typing import NamedTuple, TypeAlias, TypeVar

from drills.geometry import Exact, Point, as_int
from drills.pattern import CreasePattern
from trainer.board.raster import DOTS_ACROSS, DOTS_DOWN, Cell, Dot, cell_of, cells_for

SCAN_DOTS, LEAST_DOTS, PANNED_DOTS = 3, 5, 8
"""Dots per square: enough to look a sheet over, enough to read one shown whole, and those of a part."""
NOT_SHIFTED = Dot(0, 0)
Box: TypeAlias = tuple[Exact, Exact, Exact, Exact]


class TooSmall(NamedTuple):
    """The sheet does not fit: the columns and rows that the smallest legible scale would need."""

    columns: int
    rows: int


@dataclass(frozen=True)
class Scale:
    """How a sheet lies on the board: dots per square, and the window of cells that shows it.

    ``box`` is the sheet's left, bottom, right and top in squares; ``shift`` are the dots of the
    sheet that lie left of the window and above it.
    """

    box: Box
    dots: int
    columns: int
    rows: int
    shift: Dot = NOT_SHIFTED

    @property
    def is_whole(self) -> bool:
        """Whether the window shows the whole sheet."""
        return (self.columns, self.rows) == _cells_taken(self.box, self.dots)

    @property
    def goes_on(self) -> tuple[bool, bool, bool, bool]:
        """Whether the sheet goes on to the left of the window, above it, to its right and below it."""
        columns, rows = _cells_taken(self.box, self.dots)
        left, above = self.shift.x // DOTS_ACROSS, self.shift.y // DOTS_DOWN
        return left > 0, above > 0, left + self.columns < columns, above + self.rows < rows

    def dot(self, point: Point) -> Dot:
        """Return the dot nearest to a grid point; it may lie outside the window."""
        left, _, _, top = self.box
        return Dot(
            _nearest((point.x - left) * self.dots) - self.shift.x,
            _nearest((top - point.y) * self.dots) - self.shift.y,
        )

    def cell(self, point: Point) -> Cell:
        """Return the cell of a grid point; it may lie outside the window."""
        return cell_of(self.dot(point))

    def shows(self, point: Point) -> bool:
        """Whether the cell of the point lies in the window."""
        column, row = self.cell(point)
        return 0 <= column < self.columns and 0 <= row < self.rows

    def point(self, dot: Dot) -> Point:
        """Return the place whose dot this is, on the sheet or off it."""
        left, _, _, top = self.box
        across, down = Fraction(dot.x + self.shift.x, self.dots), Fraction(dot.y + self.shift.y, self.dots)
        return Point(as_int(left + across), as_int(top - down))

    @property
    def shown(self) -> Box:
        """The left, bottom, right and top of the window in squares, from its first to its last dots."""
        return self._squares(0)

    def may_show(self, start: Dot, end: Dot) -> bool:
        """Whether the box around a line comes within a dot of the window; else none of it is shown."""
        sizes = self.columns * DOTS_ACROSS, self.rows * DOTS_DOWN
        return all(
            min(a, b) <= size and max(a, b) >= -1 for a, b, size in zip(start, end, sizes, strict=True)
        )

    def crossing_near(self, x: float, y: float) -> Point:
        """Return the sheet's grid crossing nearest to a position in cells (fractional, y down)."""
        left, bottom, right, top = self.box
        across = left + Fraction(x * DOTS_ACROSS + self.shift.x) / self.dots
        up = top - Fraction(y * DOTS_DOWN + self.shift.y) / self.dots
        return Point(
            min(max(_nearest(across), ceil(left)), floor(right)),
            min(max(_nearest(up), ceil(bottom)), floor(top)),
        )

    def crossings(self) -> list[Point]:
        """Return the grid crossings in the window and just beside it, row by row from the bottom."""
        left, bottom, right, top = self._squares(2)
        across = range(ceil(left), floor(right) + 1)
        return [Point(x, y) for y in range(ceil(bottom), floor(top) + 1) for x in across]

    def _squares(self, beside: int) -> Box:
        """Return the part of the sheet in the window and so many dots beside it."""
        first = self.point(Dot(-beside, -beside))
        last = self.point(Dot(self.columns * DOTS_ACROSS - 1 + beside, self.rows * DOTS_DOWN - 1 + beside))
        left, bottom, right, top = self.box
        return max(left, first.x), max(bottom, last.y), min(right, last.x), min(top, first.y)


def scale_for(pattern: CreasePattern, columns: int, rows: int, least: int = LEAST_DOTS) -> Scale | TooSmall:
    """Return the largest scale at which the whole sheet fits so many columns and rows, if it is legible."""
    box = pattern.box
    dots = _most_dots(box, columns, rows)
    if dots < least:
        return TooSmall(*_cells_taken(box, least))
    return Scale(box, dots, *_cells_taken(box, dots))


def scale_within(box: Box, columns: int, rows: int) -> Scale:
    """Return the largest scale at which a box of squares fits so many columns and rows, however small."""
    dots = max(1, _most_dots(box, columns, rows))
    return Scale(box, dots, *_cells_taken(box, dots))


def _most_dots(box: Box, columns: int, rows: int) -> int:
    left, bottom, right, top = box
    across, down = columns * DOTS_ACROSS - 1, rows * DOTS_DOWN - 1
    return min(floor(Fraction(across) / (right - left)), floor(Fraction(down) / (top - bottom)))


def scale_around(
    pattern: CreasePattern,
    columns: int,
    rows: int,
    centre: Point,
    dots: int = PANNED_DOTS,
    at: Cell | None = None,
) -> Scale:
    """Return a scale of so many dots per square whose window has the point near its middle, or at a cell.

    It is moved from there as far as it takes to stay on the sheet.
    """
    taken = _cells_taken(pattern.box, dots)
    window = min(columns, taken[0]), min(rows, taken[1])
    place = Scale(pattern.box, dots, *window).cell(centre)
    shift = [
        min(max(cell - within, 0), whole - size)
        for cell, within, whole, size in zip(place, at or middle_of(*window), taken, window, strict=True)
    ]
    return Scale(pattern.box, dots, *window, Dot(shift[0] * DOTS_ACROSS, shift[1] * DOTS_DOWN))


def middle_of(columns: int, rows: int) -> Cell:
    """Return the cell in the middle of a window."""
    return Cell(columns // 2, rows // 2)


def _cells_taken(box: Box, dots: int) -> tuple[int, int]:
    left, bottom, right, top = box
    return cells_for(_nearest((right - left) * dots) + 1, _nearest((top - bottom) * dots) + 1)


def _nearest(value: Exact) -> int:
    if isinstance(value, int):
        return value
    return floor(value + Fraction(1, 2))


RADIUS = 4.0
"""How many dots from a crease or a point still count as pointing at it: two columns, one row."""

Item = TypeVar("Item")


def creases_near(pattern: CreasePattern, scale: Scale, x: float, y: float) -> tuple[int, ...]:
    """Return the creases near a position in cells (fractional, y down), nearest first.

    The middle of a cell is at .5; the paper's edge is no crease.
    """
    distances = {
        edge: _from_segment(
            x * DOTS_ACROSS, y * DOTS_DOWN, *(scale.dot(point) for point in pattern.ends(edge))
        )
        for edge in pattern.creases
    }
    return _nearest_first(distances)


def points_near(pattern: CreasePattern, scale: Scale, x: float, y: float) -> tuple[int, ...]:
    """Return the vertices near a position in cells (fractional, y down), nearest first."""
    dots = (scale.dot(point) for point in pattern.vertices)
    distances = {
        vertex: hypot(x * DOTS_ACROSS - dot.x - 0.5, y * DOTS_DOWN - dot.y - 0.5)
        for vertex, dot in enumerate(dots)
    }
    return _nearest_first(distances)


def after(candidates: Sequence[Item], last: Item | None) -> Item | None:
    """Return the candidate after the last one taken, round and round: the first if that is not among them."""
    if not candidates:
        return None
    if last is None or last not in candidates:
        return candidates[0]
    return candidates[(candidates.index(last) + 1) % len(candidates)]


def _nearest_first(distances: dict[int, float]) -> tuple[int, ...]:
    near = (item for item, distance in distances.items() if distance <= RADIUS)
    return tuple(sorted(near, key=lambda item: (distances[item], item)))


def _from_segment(x: float, y: float, start: Dot, end: Dot) -> float:
    """Return the distance in dots from a position to the segment between the middles of two dots."""
    across, down = end.x - start.x, end.y - start.y
    from_start = x - start.x - 0.5, y - start.y - 0.5
    length = across * across + down * down
    along = (from_start[0] * across + from_start[1] * down) / length if length else 0.0
    along = min(max(along, 0.0), 1.0)
    return hypot(from_start[0] - along * across, from_start[1] - along * down)
