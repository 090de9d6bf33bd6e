"""The board on the screen: shows a pattern in a look, tells where the mouse points."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.events import MouseDown, Resize
from textual.geometry import Offset, Region
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from drills.pattern.crease_pattern import CreasePattern
from trainer.board.canvas import Line
from trainer.board.drawing import draw_board
from trainer.board.glyphs import GlyphName
from trainer.board.look import Look
from trainer.board.palette import COLOURLESS, DARK, LIGHT, Paint, Palette
from trainer.board.scale import Scale, TooSmall, scale_for


class BoardView(Widget):
    """A pattern at the largest scale that fits; x counts columns to the right and y rows down."""

    @dataclass
    class Pointed(Message):
        """The mouse pointed at a place, given in cells of the board's scale."""

        scale: Scale
        x: float
        y: float

    def __init__(self) -> None:
        super().__init__(id="board")
        self._pattern: CreasePattern | None = None
        self._look = Look()
        self._lines: tuple[Line, ...] = ()
        self._scale: Scale | TooSmall | None = None
        self.glyphs: GlyphName = "braille"
        self.palette: Palette = DARK

    def show(self, pattern: CreasePattern, look: Look) -> None:
        """Show a pattern in a look; rows that stay the same are not painted again."""
        fresh = pattern is not self._pattern
        self._pattern, self._look = pattern, look
        self._draw(everything=fresh)

    def restyle(self, glyphs: GlyphName, dark: bool, colour: bool) -> None:
        """Draw in other signs or colours."""
        self.glyphs = glyphs
        self.palette = (DARK if dark else LIGHT) if colour else COLOURLESS
        self._draw(everything=True)

    def on_resize(self, event: Resize) -> None:
        """Draw at the scale that now fits."""
        self._draw(everything=True)

    def on_mouse_down(self, event: MouseDown) -> None:
        """Tell where on the board the mouse points."""
        if isinstance(self._scale, Scale) and event.button == 1:
            at = self._corner(self._scale)
            x, y = event.pointer_x - at.x, event.pointer_y - at.y
            half = 0.5 if x == int(x) and y == int(y) else 0
            self.post_message(self.Pointed(self._scale, x + half, y + half))

    def render_line(self, y: int) -> Strip:
        """Return one row, the board in the middle of the widget."""
        width = self.size.width
        if not isinstance(self._scale, Scale):
            line = Strip([Segment(self._too_small() if y == 0 else "")]).adjust_cell_length(width)
            return line.apply_style(self.rich_style)
        at = self._corner(self._scale)
        row = y - at.y
        if not 0 <= row < len(self._lines):
            return Strip.blank(width, self.rich_style)
        spans = [Segment(" " * at.x)]
        spans += [Segment(span.text, _rich(self.palette.paint(span.style))) for span in self._lines[row]]
        # with the screen's own colours under every span: textual's colour filters need both
        return Strip(spans).adjust_cell_length(width).apply_style(self.rich_style)

    def _draw(self, everything: bool) -> None:
        if self._pattern is None or not self.size.width:
            return
        before = self._lines
        self._scale = scale_for(self._pattern, self.size.width, self.size.height)
        if isinstance(self._scale, Scale):
            self._lines = draw_board(self._pattern, self._look, self._scale, self.glyphs).lines
            if not everything and len(before) == len(self._lines):
                self._refresh_changed(before, self._corner(self._scale).y)
                return
        self.refresh()

    def _refresh_changed(self, before: tuple[Line, ...], top: int) -> None:
        for row, (old, new) in enumerate(zip(before, self._lines, strict=True)):
            if old != new:
                self.refresh(Region(0, top + row, self.size.width, 1))

    def _corner(self, scale: Scale) -> Offset:
        return Offset((self.size.width - scale.columns) // 2, (self.size.height - scale.rows) // 2)

    def _too_small(self) -> str:
        if isinstance(self._scale, TooSmall):
            return f"This sheet needs {self._scale.columns} columns and {self._scale.rows} rows here."
        return ""


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
