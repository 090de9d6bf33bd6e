"""A board that is being restyled, cell by cell: dots, signs, shades; its rows as runs of one style."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from typing import TypeAlias

from drills.geometry import Point
from trainer.board.palette import PLAIN_STYLES, Ink, Mark, Span, Style
from trainer.board.raster import Glyphs, Masks
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
        self.words: set[int] = set()
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

    def shade(self, masks: Masks, texture: Ink) -> None:
        """Fill cells that are free with these dots."""
        for cell, mask in masks.items():
            if self.is_free(cell):
                self.behind[cell] = mask
                self.styles[cell] = PLAIN_STYLES[texture]

    def redraw(self, masks: Masks) -> None:
        """Have nothing but these dots in their cells: grid and other creases go."""
        for cell, mask in masks.items():
            self.drawn[cell], self.behind[cell] = mask, 0

    def take_away(self, cells: Iterable[int]) -> None:
        """Take away the signs of the cells."""
        for cell in cells:
            self.signs.pop(cell, None)

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
            runs(texts[start : start + columns], self.styles[start : start + columns])
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
    if not glyphs.grid:
        return {}
    return dict.fromkeys(Ink, glyphs.grid) | {Ink.SHADE: glyphs.shade, Ink.HATCH: glyphs.hatch}


def runs(texts: Sequence[str], styles: Sequence[Style]) -> Line:
    """Return a row of cells as runs of one style."""
    found, at = [], 0
    for style, group in groupby(styles):
        end = at + len(list(group))
        found.append(Span("".join(texts[at:end]), style))
        at = end
    return tuple(found)
