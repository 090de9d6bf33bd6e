"""A pattern on the screen, in whole or through a window, drawn anew where it has changed."""

from __future__ import annotations

from dataclasses import dataclass

from textual.events import Resize
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip

from drills.pattern import CreasePattern
from trainer.board import (
    GLYPHS,
    RULER_COLUMNS,
    RULER_ROWS,
    Board,
    GlyphName,
    Line,
    Look,
    Scale,
    Window,
    asked,
    brought_into_view,
    draw_board,
    followed,
    opened,
    with_rulers,
)
from trainer.screens.windowed import Windowed


class BoardView(Windowed):
    """A pattern, whole at the largest scale that fits or in part; x counts columns right and y rows down."""

    @dataclass
    class Shown(Message):
        """The board was drawn: which pattern, in what look, what part of it and in what signs."""

        pattern: CreasePattern
        look: Look
        scale: Scale
        glyphs: GlyphName

    def __init__(self) -> None:
        super().__init__()
        self._pattern: CreasePattern | None = None
        self._look = Look()
        self._board: Board | None = None
        self._lines: tuple[Line, ...] = ()

    def show(self, pattern: CreasePattern, look: Look, follow: bool = True) -> None:
        """Show a pattern in a look; rows that stay the same are not painted again.

        The window of a new pattern opens on what is asked; that of the same one goes after the
        cursor and the verdict, if it is to ``follow``.
        """
        before, self._look = self._look, look
        if pattern is not self._pattern:
            self._pattern, self.window = pattern, None
            self.let_go()
        elif self.window and follow:
            self.window = followed(self.window, before, look)
        self._draw()

    def clear(self) -> None:
        """Show nothing."""
        self._pattern, self.window, self._board, self._lines = None, None, None, ()
        self.let_go()
        self.refresh()

    def redraw(self) -> None:
        """Draw every row anew."""
        self._board = None
        self._draw()

    def look_through(self, window: Window) -> None:
        """Show the sheet through a window."""
        self.window = window
        self._draw()

    def zoom(self, closer: bool) -> None:
        """Zoom round the cursor, or round the middle where no cursor is in view."""
        if self.window:
            cursor, scale = self._look.cursor_at, self.window.scale
            at = scale.cell(cursor) if cursor and scale.shows(cursor) else None
            self.move(self.window.zoomed(closer, at))

    def show_whole_or_close(self) -> None:
        """Show as much of the sheet as can be looked over, or from there what is asked close by."""
        if self.window:
            places = [end for thing in asked(self.window.pattern, self._look) for end in thing]
            self.move(self.window.whole_or_close(*places[:1]))

    def bring_into_view(self) -> None:
        """Show the cursor, what is asked, or the next thing of the verdict."""
        if self.window:
            self.move(brought_into_view(self.window, self._look))

    def on_resize(self, event: Resize) -> None:
        """Draw at the scale that now fits."""
        self._board = None
        if self.window and event.size:
            self.window = self.window.resized(self.room, self._look.cursor_at)
        self._draw()

    def render_line(self, y: int) -> Strip:
        """Return one row, the board in the middle of the widget."""
        width, board = self.size.width, self._board
        at = self.corner(board.scale) if board else None
        row = y - at.y + RULER_ROWS if at else -1
        if at is None or not 0 <= row < len(self._lines):
            return Strip.blank(width, self.rich_style)
        return self.strip(self._lines[row], at.x - RULER_COLUMNS)

    def _draw(self) -> None:
        """Draw, and paint the rows that changed, all of them where the board has another size."""
        if self._pattern is None or not self.size:
            return
        if self.window is None:
            self.window = opened(self._pattern, self.room, self._look, GLYPHS[self.glyphs].is_fine)
        before, lines, scale = self._board, self._lines, self.window.scale
        self._board = draw_board(self._pattern, self._look, scale, self.glyphs)
        self._lines = with_rulers(self._board, self._look.ruled)
        if before and (before.scale.columns, before.scale.rows) == (scale.columns, scale.rows):
            self._refresh_changed(lines)
        else:
            self.refresh()
        self.post_message(self.Shown(self._pattern, self._look, scale, self.glyphs))

    def _refresh_changed(self, before: tuple[Line, ...]) -> None:
        top = (self.size.height - len(before)) // 2
        for row, (old, new) in enumerate(zip(before, self._lines, strict=True)):
            if old != new:
                self.refresh(Region(0, top + row, self.size.width, 1))
