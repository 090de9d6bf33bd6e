"""Terminal cells and the dots in them: the types that keep grid points, dots and cells apart."""

from __future__ import annotations

from typing import NamedTuple

DOTS_ACROSS, DOTS_DOWN = 2, 4


class Dot(NamedTuple):
    """A dot of the board, x to the right and y down, counted from the top left of what is shown."""

    x: int
    y: int


class Cell(NamedTuple):
    """A character cell of the board, column to the right and row down, counted from the top left."""

    column: int
    row: int


def cell_of(dot: Dot) -> Cell:
    """Return the cell that holds the dot."""
    return Cell(dot.x // DOTS_ACROSS, dot.y // DOTS_DOWN)


def cells_for(dots_across: int, dots_down: int) -> tuple[int, int]:
    """Return the columns and rows that so many dots take."""
    return -(-dots_across // DOTS_ACROSS), -(-dots_down // DOTS_DOWN)
