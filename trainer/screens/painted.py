"""What every drawing on the screen has: its signs, its colours, and lines of it made into strips."""

from __future__ import annotations

from functools import lru_cache

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.strip import Strip
from textual.widget import Widget

from trainer.board import COLOURLESS, DARK, LIGHT, GlyphName, Line, Paint, Palette


class Painted(Widget):
    """A widget of drawn lines; ``redraw`` draws it anew in other signs or colours."""

    def __init__(self, id: str) -> None:  # noqa: A002  (textual's name)
        super().__init__(id=id)
        self.glyphs: GlyphName = "braille"
        self.palette: Palette = DARK

    def restyle(self, glyphs: GlyphName, dark: bool, colour: bool) -> None:
        """Draw in other signs or colours."""
        self.glyphs = glyphs
        self.palette = (DARK if dark else LIGHT) if colour else COLOURLESS
        self.redraw()

    def redraw(self) -> None:
        """Draw anew; what keeps drawn lines makes them first."""
        self.refresh()

    def strip(self, line: Line, indent: int) -> Strip:
        """Return a line as a row of the widget, so many columns from its left."""
        spans = [Segment(" " * indent)]
        spans += [Segment(span.text, _rich(self.palette.paint(span.style))) for span in line]
        # with the screen's own colours under every span: textual's colour filters need both
        return Strip(spans).adjust_cell_length(self.size.width).apply_style(self.rich_style)


@lru_cache(maxsize=512)
def _rich(paint: Paint) -> RichStyle:
    return RichStyle(
        color=paint.foreground,
        bgcolor=paint.background,
        bold=paint.bold,
        dim=paint.dim,
        reverse=paint.reverse,
        underline=paint.underline,
    )
