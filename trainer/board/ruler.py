"""The rulers of a board: every fifth square counted along its top and its left, as places are."""

from __future__ import annotations

from functools import lru_cache
from math import floor

from drills.geometry import Point
from trainer.board.canvas import Line
from trainer.board.drawing import Board
from trainer.board.palette import PLAIN_STYLES, Ink, Span
from trainer.board.scale import Scale

RULER_COLUMNS, RULER_ROWS = 3, 1
"""What the rulers take to the left of a board and above it, whether numbers are shown there or not."""
EVERY = 5


def with_rulers(board: Board, shown: bool = True) -> tuple[Line, ...]:
    """Return a board's lines with the room of its rulers around them, and their numbers if they are shown."""
    top, left = _rulers(board.scale) if shown else _rulers_without_numbers(board.scale)
    return ((top,), *((number, *line) for number, line in zip(left, board.lines, strict=True)))


@lru_cache(maxsize=16)
def _rulers(scale: Scale) -> tuple[Span, tuple[Span, ...]]:
    """Return the ruler above and the cells of the one at the left."""
    left, bottom, right, top = scale.box
    above, beside = [" "] * scale.columns, [" " * RULER_COLUMNS] * scale.rows
    for count in range(0, floor(right - left) + 1, EVERY):
        column, number = scale.cell(Point(left + count, top)).column, str(count)
        if 0 <= column <= scale.columns - len(number):
            above[column : column + len(number)] = number
    for count in range(0, floor(top - bottom) + 1, EVERY):
        row = scale.cell(Point(left, top - count)).row
        if 0 <= row < scale.rows:
            beside[row] = f"{count:>{RULER_COLUMNS - 1}} "
    return _span(" " * RULER_COLUMNS + "".join(above)), tuple(map(_span, beside))


def _rulers_without_numbers(scale: Scale) -> tuple[Span, tuple[Span, ...]]:
    blank = " " * RULER_COLUMNS
    return _span(blank + " " * scale.columns), (_span(blank),) * scale.rows


def _span(text: str) -> Span:
    return Span(text, PLAIN_STYLES[Ink.PAPER])
