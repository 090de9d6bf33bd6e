"""Terminal cells and the dots in them: the types that keep grid points, dots and cells apart."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, NamedTuple, TypeAlias

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


GlyphName: TypeAlias = Literal["braille", "blocks"]

_QUADRANTS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
_QUADRANT_BITS = (0x01 | 0x02, 0x08 | 0x10, 0x04 | 0x40, 0x20 | 0x80)


@dataclass(frozen=True)
class Glyphs:
    """The character for each set of dots, and the signs that stand for a whole cell.

    ``arrows`` start east and go round counterclockwise; ``grid``, ``shade`` and ``hatch`` are the
    characters of cells with nothing else in them, empty where the dots themselves are drawn. Mountains
    are told from valleys by a second row of dots where these are fine enough (``is_fine``), else valleys
    by gaps.
    """

    dots: tuple[str, ...]
    arrows: str
    point: str
    cursor: str
    grid: str
    shade: str
    hatch: str
    is_fine: bool


BRAILLE = Glyphs(
    dots=(" ", *(chr(0x2800 + mask) for mask in range(1, 256))),
    arrows="►◥▲◤◄◣▼◢",
    point="●",
    cursor="◆",
    grid="",
    shade="",
    hatch="",
    is_fine=True,
)

# Of the signs the Linux console has no more than these.
BLOCKS = Glyphs(
    dots=tuple(
        _QUADRANTS[sum(1 << i for i, bits in enumerate(_QUADRANT_BITS) if mask & bits)] for mask in range(256)
    ),
    arrows="►▲◄▼",
    point="o",
    cursor="■",
    grid="·",
    shade="░",
    hatch="/",
    is_fine=False,
)

GLYPHS: dict[GlyphName, Glyphs] = {"braille": BRAILLE, "blocks": BLOCKS}


Masks: TypeAlias = dict[int, int]
"""Per cell (row by row from the top left) the dots that are set, a bit for each of its 2 x 4."""

# Bit order of the Unicode braille block: column by column, the bottom row last.
BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
ON, OFF = 3, 2


def line_dots(start: Dot, end: Dot) -> list[Dot]:
    """Return the dots from start to end, one for each step along the longer axis, both ends included."""
    across, down = end.x - start.x, end.y - start.y
    steps = max(abs(across), abs(down))
    if steps == 0:
        return [start]
    twice = 2 * steps
    return [
        Dot(start.x + (2 * across * i + steps) // twice, start.y + (2 * down * i + steps) // twice)
        for i in range(steps + 1)
    ]


def dashed(dots: Sequence[Dot]) -> list[Dot]:
    """Return the dots of a line that are on: 3 on, 2 off, stretched so that both ends are on."""
    last = len(dots) - 1
    if last < ON:
        return list(dots)
    period = ON + OFF
    dashes = max(2, (len(dots) + OFF) // period)
    slots = dashes * period - OFF - 1
    # Dots between an on and an off slot round to the nearer one, but a lone gap must be wide enough to see.
    slack = last // 5 if dashes == 2 else last // 2
    after = [i * slots % (period * last) for i in range(len(dots))]
    first_off, next_on = (ON - 1) * last + slack, period * last - slack
    return [dot for dot, at in zip(dots, after, strict=True) if not first_off < at < next_on]


def doubled(dots: Sequence[Dot]) -> list[Dot]:
    """Return the dots of a line, each with one beside it: a line along the grid stays in its cells."""
    start, end = dots[0], dots[-1]
    across, down = abs(end.x - start.x), abs(end.y - start.y)
    last_in_cell = start.y % DOTS_DOWN == DOTS_DOWN - 1 if down == 0 else start.x % DOTS_ACROSS == 1
    beside = -1 if 0 in (across, down) and last_in_cell else 1
    move = Dot(0, beside) if across >= down else Dot(beside, 0)
    return [Dot(x + more * move.x, y + more * move.y) for x, y in dots for more in (0, 1)]


def ticked(dots: Sequence[Dot], marks: AbstractSet[Dot]) -> list[Dot]:
    """Return the dots of a line with a gap at either side of each mark, so that squares can be counted."""
    pairs = [*pairwise(dots), *pairwise(reversed(dots))]
    beside = {dot for dot, mark in pairs if mark in marks}
    return [dot for dot in dots if dot in marks or dot not in beside]


def dotted(dots: Sequence[Dot]) -> list[Dot]:
    """Return every third dot of a line."""
    return list(dots[::3])


def masks_of(dots: Iterable[Dot], columns: int, rows: int) -> Masks:
    """Return the cells that the dots set, in the order of the dots; dots off the board are left out."""
    masks: Masks = {}
    for x, y in dots:
        column, row = x // DOTS_ACROSS, y // DOTS_DOWN
        if 0 <= column < columns and 0 <= row < rows:
            cell = row * columns + column
            masks[cell] = masks.get(cell, 0) | BITS[y % DOTS_DOWN][x % DOTS_ACROSS]
    return masks


def thickened(masks: Masks, is_steep: bool, columns: int, rows: int) -> Masks:
    """Return a line two dots wide: to the right where it is steep, else downwards."""
    dots = [dot for cell, mask in masks.items() for dot in dots_in(cell, mask, columns)]
    beside = [Dot(dot.x + is_steep, dot.y + (not is_steep)) for dot in dots]
    return masks_of([*dots, *beside], columns, rows)


def dots_in(cell: int, mask: int, columns: int) -> list[Dot]:
    """Return the dots of a cell."""
    row, column = divmod(cell, columns)
    return [
        Dot(column * DOTS_ACROSS + x, row * DOTS_DOWN + y)
        for y in range(DOTS_DOWN)
        for x in range(DOTS_ACROSS)
        if mask & BITS[y][x]
    ]
