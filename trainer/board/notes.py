"""Words on a board, set where they cover least: at a crease or beside a point."""

from __future__ import annotations

from collections.abc import Iterator

from drills.geometry import Point
from trainer.board.canvas import Canvas
from trainer.board.palette import Ink, Mark
from trainer.board.raster import Masks
from trainer.board.static_layer import middle_first

_ON_WORDS, _ON_JUDGED, _ON_POINT, _ON_KEPT, _ON_LETTER = 1000, 30, 12, 3, 8
"""What it costs to cover a cell; a place one further away costs 1 more."""


def write_at_crease(canvas: Canvas, cells: Masks, words: str, mark: Mark) -> None:
    """Write at a crease, beside it or over it, near its middle."""
    places = [
        (start, away)
        for away, cell in enumerate(middle_first(cells))
        for start in _around(canvas, cell, len(words))
    ]
    _write(canvas, places, words, Ink.SIGN, mark)


def write_at_point(canvas: Canvas, point: Point, words: str) -> None:
    """Write beside a point in view."""
    if (cell := canvas.cell(point)) is not None:
        places = [(start, away) for away, start in enumerate(_around(canvas, cell, len(words)))]
        _write(canvas, places, words, Ink.REASON, Mark.NONE)


def _around(canvas: Canvas, cell: int, length: int) -> Iterator[tuple[int, int]]:
    """Yield rows and columns where words beside a cell begin: right, left, above and below."""
    row, column = divmod(cell, canvas.layer.scale.columns)
    yield from ((row, column + 1), (row, column - length))
    for beside in (row - 1, row + 1):
        yield from ((beside, column + shift) for shift in (1, -length, 0, 1 - length, 2, -1 - length))


def _write(
    canvas: Canvas, places: list[tuple[tuple[int, int], int]], words: str, ink: Ink, mark: Mark
) -> None:
    costs = [
        (_cost(canvas, *start, len(words)) + away, number) for number, (start, away) in enumerate(places)
    ]
    if not costs:
        return
    row, column = places[min(costs)[1]][0]
    columns, rows = canvas.layer.scale.columns, canvas.layer.scale.rows
    start = min(max(row, 0), rows - 1) * columns + min(max(column, 0), max(0, columns - len(words)))
    for cell, sign in zip(range(start, start + len(words)), words, strict=False):
        if cell // columns == start // columns:
            canvas.put(cell, sign, ink)
            canvas.mark([cell], mark)
            canvas.words.add(cell)


def _cost(canvas: Canvas, row: int, column: int, length: int) -> int:
    """Return how much words would cover there; what leaves the board costs most."""
    columns, rows = canvas.layer.scale.columns, canvas.layer.scale.rows
    if not (0 <= row < rows and column >= 0 and column + length <= columns):
        return _ON_WORDS * length
    start = row * columns + column
    beside = [cell for cell in (start - 1, start + length) if cell // columns == row]
    crowded = sum(_ON_LETTER for cell in beside if cell in canvas.signs)
    return crowded + sum(_cell_cost(canvas, cell) for cell in range(start, start + length))


def _cell_cost(canvas: Canvas, cell: int) -> int:
    style = canvas.styles[cell]
    if cell in canvas.words:
        return _ON_WORDS
    if style.mark in (Mark.RIGHT, Mark.MISSED, Mark.WRONG) or style.ink is Ink.REASON:
        return _ON_JUDGED
    if cell in canvas.layer.keep:
        return _ON_POINT
    if cell in canvas.signs:
        return _ON_LETTER
    return _ON_KEPT if canvas.drawn[cell] and style.mark is Mark.NONE else 0
