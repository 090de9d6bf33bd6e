"""The one place where grid points (y up) become dots and cells (y down), and back."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple, TypeAlias

from drills.exact.plane import Exact, Point
from drills.pattern.crease_pattern import CreasePattern
from trainer.board.cells import DOTS_ACROSS, DOTS_DOWN, Cell, Dot, cell_of, cells_for

LEAST_DOTS = 5
PANNED_DOTS = 8
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
        """Return the sheet's grid crossings, row by row from the bottom."""
        left, bottom, right, top = self.box
        across = range(ceil(left), floor(right) + 1)
        return [Point(x, y) for y in range(ceil(bottom), floor(top) + 1) for x in across]


def scale_for(pattern: CreasePattern, columns: int, rows: int) -> Scale | TooSmall:
    """Return the largest scale at which the whole sheet fits so many columns and rows."""
    left, bottom, right, top = box = pattern.box
    across, down = columns * DOTS_ACROSS - 1, rows * DOTS_DOWN - 1
    dots = min(floor(Fraction(across) / (right - left)), floor(Fraction(down) / (top - bottom)))
    if dots < LEAST_DOTS:
        return TooSmall(*_cells_taken(box, LEAST_DOTS))
    return Scale(box, dots, *_cells_taken(box, dots))


def scale_around(
    pattern: CreasePattern, columns: int, rows: int, centre: Point, dots: int = PANNED_DOTS
) -> Scale:
    """Return a scale of so many dots per square whose window has the point near its middle."""
    taken = _cells_taken(pattern.box, dots)
    window = min(columns, taken[0]), min(rows, taken[1])
    middle = Scale(pattern.box, dots, *window).cell(centre)
    shift = [
        min(max(at - size // 2, 0), whole - size)
        for at, size, whole in zip(middle, window, taken, strict=True)
    ]
    return Scale(pattern.box, dots, *window, Dot(shift[0] * DOTS_ACROSS, shift[1] * DOTS_DOWN))


def _cells_taken(box: Box, dots: int) -> tuple[int, int]:
    left, bottom, right, top = box
    return cells_for(_nearest((right - left) * dots) + 1, _nearest((top - bottom) * dots) + 1)


def _nearest(value: Exact) -> int:
    return floor(value + Fraction(1, 2))
