"""Words on a board, set where they cover least: at a crease or beside a point."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from drills.geometry import Point
from trainer.board.canvas import Canvas
from trainer.board.palette import Ink, Mark
from trainer.board.static_layer import middle_first

_ON_WORDS, _ON_JUDGED, _ON_POINT, _ON_KEPT = 1000, 30, 12, 3
_BY_WORDS, _BY_SIGN, _BY_OTHER = 40, 8, 4
"""What it costs to cover a cell or to end at one; a place one further away costs 1 more."""


def write_at_crease(canvas: Canvas, edge: int, words: str, mark: Mark) -> None:
    """Write at a crease: touching a cell that is its alone, near its middle; else over its middle."""
    cells = canvas.layer.edges[edge]
    others = set().union(*(masks for other, masks in enumerate(canvas.layer.edges) if other != edge))
    alone = [cell for cell in middle_first(cells) if cell not in others]
    places = [
        (start, away)
        for away, cell in enumerate(alone or middle_first(cells)[:1])
        for start in _touching(canvas, cell, len(words))
    ]
    _write(canvas, places, words, Ink.SIGN, mark, cells.keys())


def write_at_point(canvas: Canvas, point: Point, words: str) -> None:
    """Write beside a point in view."""
    if (cell := canvas.cell(point)) is not None:
        places = [(start, away) for away, start in enumerate(_around(canvas, cell, len(words)))]
        _write(canvas, places, words, Ink.REASON, Mark.NONE, {cell})


def _around(canvas: Canvas, cell: int, length: int) -> Iterator[tuple[int, int]]:
    """Yield rows and columns where words beside a cell begin: right, left, above and below."""
    row, column = divmod(cell, canvas.layer.scale.columns)
    yield from ((row, column + 1), (row, column - length))
    for beside in (row - 1, row + 1):
        yield from ((beside, column + shift) for shift in (1, -length, 0, 1 - length, 2, -1 - length))


def _touching(canvas: Canvas, cell: int, length: int) -> Iterator[tuple[int, int]]:
    """Yield rows and columns where words that touch a cell begin: right, left, above, below and on it."""
    row, column = divmod(cell, canvas.layer.scale.columns)
    yield from ((row, column + 1), (row, column - length))
    for beside in (row - 1, row + 1, row):
        yield from ((beside, column - shift) for shift in range(length))


def _write(
    canvas: Canvas,
    places: list[tuple[tuple[int, int], int]],
    words: str,
    ink: Ink,
    mark: Mark,
    own: AbstractSet[int],
) -> None:
    """Write where that costs least; ``own`` are the cells of what the words are about."""
    costs = [
        (_cost(canvas, *start, len(words), own) + away, number) for number, (start, away) in enumerate(places)
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


def _cost(canvas: Canvas, row: int, column: int, length: int, own: AbstractSet[int]) -> int:
    """Return how much words would cover there, and end at; what leaves the board costs most."""
    columns, rows = canvas.layer.scale.columns, canvas.layer.scale.rows
    if not (0 <= row < rows and column >= 0 and column + length <= columns):
        return _ON_WORDS * length
    start = row * columns + column
    beside = [cell for cell in (start - 1, start + length) if cell // columns == row]
    crowded = sum(_BY_WORDS if cell in canvas.words else _BY_SIGN for cell in beside if cell in canvas.signs)
    crowded += sum(_BY_OTHER for cell in beside if canvas.drawn[cell] and cell not in own)
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
        return _BY_SIGN
    return _ON_KEPT if canvas.drawn[cell] and style.mark is Mark.NONE else 0
