"""A board that is being restyled, cell by cell: dots, signs, shaded faces; its rows as runs of one style."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import groupby
from math import ceil, floor
from typing import TypeAlias

from drills.geometry import Point
from trainer.board.palette import PLAIN_STYLES, Ink, Mark, Span, Style
from trainer.board.raster import Dot, Glyphs, Masks, has_dot, masks_of
from trainer.board.static_layer import StaticLayer

LETTER_INKS = {"M": Ink.MOUNTAIN_LETTER, "V": Ink.VALLEY_LETTER}
Line: TypeAlias = tuple[Span, ...]


class Canvas:
    """A working copy of a static layer: dots are only ever added, signs cover a cell."""

    def __init__(self, layer: StaticLayer, glyphs: Glyphs) -> None:
        self.layer = layer
        self.glyphs = glyphs
        self.styles = list(layer.styles)
        self.drawn = list(layer.drawn)
        self.behind = list(layer.grid)
        self.signs: dict[int, str] = {}
        for cell, letter in layer.letters.items():
            self.put(cell, letter, LETTER_INKS[letter])

    def cell(self, point: Point) -> int | None:
        """Return the cell of a point, None where the window does not show it."""
        scale = self.layer.scale
        column, row = scale.cell(point)
        return row * scale.columns + column if scale.shows(point) else None

    def beside(self, cell: int) -> list[int]:
        """Return the cells right, left, below and above."""
        columns, size = self.layer.scale.columns, len(self.drawn)
        row = [side for side in (cell + 1, cell - 1) if side // columns == cell // columns]
        return row + [side for side in (cell + columns, cell - columns) if 0 <= side < size]

    def is_free(self, cell: int) -> bool:
        """Whether nothing but the grid is in the cell."""
        return not self.drawn[cell] and cell not in self.signs

    def put(self, cell: int, sign: str, ink: Ink) -> None:
        """Cover the cell with a sign, its marks kept."""
        self.signs[cell] = sign
        self.styles[cell] = self.styles[cell]._replace(ink=ink)

    def write(self, cell: int, text: str, ink: Ink) -> None:
        """Cover cells from this one on, or from further left where the row would end; a short row cuts it."""
        columns = self.layer.scale.columns
        shown = text[:columns]
        start = min(cell, cell - cell % columns + columns - len(shown))
        for place, sign in enumerate(shown):
            self.put(start + place, sign, ink)

    def shade(self, masks: Masks) -> None:
        """Add dots behind the creases."""
        for cell, mask in masks.items():
            self.behind[cell] |= mask
            if self.styles[cell].ink is Ink.GRID:
                self.styles[cell] = PLAIN_STYLES[Ink.SHADE]

    def draw(self, masks: Masks, ink: Ink) -> None:
        """Add dots and give their cells this ink."""
        for cell, mask in masks.items():
            self.drawn[cell] |= mask
            self.ink([cell], ink)

    def ink(self, cells: Iterable[int], ink: Ink) -> None:
        """Give the cells an ink; signs keep theirs."""
        for cell in cells:
            if cell not in self.signs:
                self.styles[cell] = self.styles[cell]._replace(ink=ink)

    def mark(self, cells: Iterable[int], mark: Mark) -> None:
        """Give the cells a mark."""
        for cell in cells:
            self.styles[cell] = self.styles[cell]._replace(mark=mark)

    def point_out(self, cells: Iterable[int]) -> None:
        """Put the cursor on the cells."""
        for cell in cells:
            self.styles[cell] = self.styles[cell]._replace(cursor=True)

    def lines(self) -> tuple[Line, ...]:
        """Return the rows, each as runs of one style that together fill every column."""
        columns = self.layer.scale.columns
        texts = self._texts()
        return tuple(
            _runs(texts[start : start + columns], self.styles[start : start + columns])
            for start in range(0, len(texts), columns)
        )

    def _texts(self) -> list[str]:
        dots, alone = self.glyphs.dots, _alone(self.glyphs)
        if alone:
            texts = [
                dots[drawn] if drawn or not behind else alone[style.ink]
                for drawn, behind, style in zip(self.drawn, self.behind, self.styles, strict=True)
            ]
        else:
            texts = [dots[drawn | behind] for drawn, behind in zip(self.drawn, self.behind, strict=True)]
        for cell, sign in self.signs.items():
            texts[cell] = sign
        return texts


def _alone(glyphs: Glyphs) -> Mapping[Ink, str]:
    """Return the characters of cells that hold only grid or shade, empty where their dots are drawn."""
    return {ink: glyphs.shade if ink is Ink.SHADE else glyphs.grid for ink in Ink} if glyphs.grid else {}


def _runs(texts: list[str], styles: list[Style]) -> Line:
    runs, at = [], 0
    for style, group in groupby(styles):
        end = at + len(list(group))
        runs.append(Span("".join(texts[at:end]), style))
        at = end
    return tuple(runs)


EVERY_ACROSS, EVERY_DOWN = 4, 2
"""Columns and rows of dots from one dot of shade to the next: sparse, so that creases stay plain."""
_TOUCHING = ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1))


def shade_of(layer: StaticLayer, outline: Sequence[Point]) -> Masks:
    """Return the cells shaded inside an outline, given as its corners in order."""
    return _shade(layer.scale.columns, layer.scale.rows, layer.drawn, tuple(map(layer.scale.dot, outline)))


# kept between looks: a cursor that moves over a shaded sheet changes neither dots nor corners
@lru_cache(maxsize=64)
def _shade(columns: int, rows: int, drawn: tuple[int, ...], corners: tuple[Dot, ...]) -> Masks:
    dots = (
        dot
        for dot in _lattice(corners)
        if not any(has_dot(drawn, columns, dot.x + dx, dot.y + dy) for dx, dy in _TOUCHING)
    )
    return masks_of(dots, columns, rows)


def _lattice(corners: Sequence[Dot]) -> Iterator[Dot]:
    """Yield the dots of a staggered lattice between the outline's crossings with each dot row."""
    top, bottom = min(y for _, y in corners), max(y for _, y in corners)
    for y in range(-(-top // EVERY_DOWN) * EVERY_DOWN, bottom + 1, EVERY_DOWN):
        offset = EVERY_ACROSS // 2 * (y // EVERY_DOWN % 2)
        crossings = sorted(_crossings(corners, y))
        for enter, leave in zip(crossings[::2], crossings[1::2], strict=True):
            first = ceil((enter - offset) / EVERY_ACROSS) * EVERY_ACROSS + offset
            yield from (Dot(x, y) for x in range(first, floor(leave) + 1, EVERY_ACROSS))


def _crossings(corners: Sequence[Dot], y: int) -> Iterator[float]:
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (a.y <= y) != (b.y <= y):
            yield a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y)
