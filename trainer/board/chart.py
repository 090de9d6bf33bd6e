"""A small chart of figures side by side, each a bar or a value within its interval, in the board's dots."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from textwrap import wrap
from typing import Final, NamedTuple

from trainer.board.canvas import Line, runs
from trainer.board.palette import PLAIN_STYLES, Ink
from trainer.board.raster import DOTS_ACROSS, DOTS_DOWN, Dot, Glyphs, masks_of

SCALE_COLUMNS: Final = 5
"""The columns left of the dots, where the scale stands."""
SAID_ROWS: Final = 2
AROUND: Final = 2 + SAID_ROWS
"""The rows that are not the dots': title, what stands below the columns, and what is said."""
WIDEST: Final = 12
"""A column takes no more dots across, however few there are."""
APART: Final = 4
"""Every so many dots one of a line of the scale is drawn."""


class Value(NamedTuple):
    """A figure, and where the true one likely lies if that is known."""

    value: float
    interval: tuple[float, float] | None = None


@dataclass(frozen=True)
class Chart:
    """Figures in a row on a scale from 0 to ``top``; None stands for a place without one.

    ``ends`` stand below the first and the last figure; ``says`` is the last one in words, or why there
    are none. ``bars`` stand on the scale's 0, else each value lies across its interval.
    """

    title: str
    figures: tuple[Value | None, ...]
    top: float
    ends: tuple[str, str]
    says: str
    bars: bool = False


def draw_chart(chart: Chart, columns: int, rows: int, glyphs: Glyphs) -> tuple[Line, ...]:
    """Return a chart as so many rows of so many columns, at least a row of dots high."""
    across, down = columns - SCALE_COLUMNS, max(1, rows - AROUND)
    said = wrap(chart.says, columns, max_lines=SAID_ROWS, placeholder=" ...")
    said += [""] * (SAID_ROWS - len(said))
    if not chart.figures:
        blank = [_words("", columns, Ink.PAPER)] * (down + 1)
        return (_words(chart.title, columns, Ink.SIGN), *(_words(row, columns) for row in said), *blank)
    return (
        _words(chart.title, columns, Ink.SIGN),
        *_plot(chart, across, down, glyphs),
        _words(" " * SCALE_COLUMNS + _ends(chart, across), columns, Ink.PAPER),
        *(_words(row, columns) for row in said),
    )


def _words(words: str, columns: int, ink: Ink = Ink.CREASE) -> Line:
    return runs([f"{words[:columns]:<{columns}}"], [PLAIN_STYLES[ink]])


def _ends(chart: Chart, across: int) -> str:
    """Return what stands below the first and the last figure, the latter under it where there is room."""
    first, last = chart.ends
    until = -(-_slot(chart, across) * len(chart.figures) // DOTS_ACROSS)
    return f"{first}{last:>{max(until - len(first), len(last) + 2)}}" if last else first


def _slot(chart: Chart, across: int) -> int:
    """Return how many dots across a figure has."""
    return max(1, min(WIDEST, DOTS_ACROSS * across // len(chart.figures)))


def _plot(chart: Chart, across: int, down: int, glyphs: Glyphs) -> Iterator[Line]:
    """Yield the rows of dots, the scale before them."""
    middle = down // 2
    scale = {0: f"{chart.top:g}", middle: f"{chart.top / 2:g}", down - 1: "0"}
    layers = [(Ink.GRID, _grid(across, down)), (Ink.FIGURE, _spans(chart, across, down))]
    layers.append((Ink.POINT, [] if chart.bars else _values(chart, across, down)))
    masks, inks = [0] * (across * down), [Ink.GRID] * (across * down)
    for ink, dots in layers:
        for cell, mask in masks_of(dots, across, down).items():
            # a line of the scale is left out under what is drawn: in blocks it would look like a part of it
            masks[cell] = mask if inks[cell] is Ink.GRID else masks[cell] | mask
            inks[cell] = ink
    signs = [_sign(mask, ink, glyphs) for mask, ink in zip(masks, inks, strict=True)]
    for row in range(down):
        before = f"{scale.get(row, ''):>{SCALE_COLUMNS - 1}} "
        shown = slice(row * across, (row + 1) * across)
        styles = [PLAIN_STYLES[ink] for ink in inks[shown]]
        yield runs([before, *signs[shown]], [PLAIN_STYLES[Ink.PAPER], *styles])


def _sign(mask: int, ink: Ink, glyphs: Glyphs) -> str:
    return glyphs.grid if mask and ink is Ink.GRID and glyphs.grid else glyphs.dots[mask]


def _grid(across: int, down: int) -> list[Dot]:
    """Return the dots of the scale's lines, at its top, its middle and 0."""
    height = DOTS_DOWN * down
    return [Dot(x, y) for x in range(0, DOTS_ACROSS * across, APART) for y in (0, height // 2, height - 1)]


def _spans(chart: Chart, across: int, down: int) -> list[Dot]:
    """Return the dots of the bars, or of the intervals."""
    slot, dots = _slot(chart, across), list[Dot]()
    for place, figure in enumerate(chart.figures):
        if figure is None or (chart.bars and not figure.value):
            continue
        low, high = (0.0, figure.value) if chart.bars else figure.interval or (figure.value, figure.value)
        left = place * slot if chart.bars else place * slot + slot // 2
        wide = max(1, slot - 1 - slot // 6) if chart.bars else 1
        rows = range(_row(high, chart, down), _row(low, chart, down) + 1)
        dots += [Dot(x, y) for x in range(left, left + wide) for y in rows]
    return dots


def _values(chart: Chart, across: int, down: int) -> list[Dot]:
    """Return the dots of the values across their intervals, two high so that they stand out."""
    slot = _slot(chart, across)
    reach = max(1, slot // 4)
    return [
        Dot(place * slot + slot // 2 + x, _row(figure.value, chart, down) + y)
        for place, figure in enumerate(chart.figures)
        if figure is not None
        for x in range(-reach, reach + 1)
        for y in (0, 1)
    ]


def _row(value: float, chart: Chart, down: int) -> int:
    """Return the row of dots of a value, counted from the top."""
    last = DOTS_DOWN * down - 1
    return last - round(min(value, chart.top) / chart.top * last)
