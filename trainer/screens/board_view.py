"""A window on a sheet, moved and zoomed by keys, wheel and drag."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass
from functools import lru_cache

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.events import (
    MouseDown,
    MouseEvent,
    MouseMove,
    MouseScrollDown,
    MouseScrollLeft,
    MouseScrollRight,
    MouseScrollUp,
    MouseUp,
    Resize,
)
from textual.geometry import Offset, Region
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from drills.geometry import Point
from drills.pattern import CreasePattern
from trainer.board import (
    COLOURLESS,
    DARK,
    LIGHT,
    Board,
    Cell,
    GlyphName,
    Look,
    Paint,
    Palette,
    Room,
    Scale,
    Window,
    brought_into_view,
    draw_board,
    followed,
    opened,
)

DRAGGED_COLUMNS, DRAGGED_ROWS = 2, 1
"""From so far on a press that moves is no click any more; a hand may tremble."""


class Windowed(Widget):
    """The window and the hands on it; ``look_through`` shows what another window shows."""

    @dataclass
    class Pointed(Message, namespace="board_view"):
        """The mouse pointed somewhere, given in cells of the board's scale."""

        scale: Scale
        x: float
        y: float

    @dataclass
    class Moved(Message, namespace="board_view"):
        """A person moved or zoomed the window."""

    @dataclass
    class Grip:
        """The left button held down: where on the screen, on which window, and whether that has moved."""

        at: Offset
        window: Window
        pointed: Windowed.Pointed
        dragged: bool = False

    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__(id="board")
        self.window: Window | None = None
        self._grip: Windowed.Grip | None = None

    @abstractmethod
    def look_through(self, window: Window) -> None:
        """Show the sheet through a window."""

    def pan(self, right: int, down: int) -> None:
        """Move the window by a step of the keys in either direction."""
        if self.window:
            columns, rows = self.window.key_step
            self.move(self.window.panned(right * columns, down * rows))

    def centre(self, point: Point) -> None:
        """Show a point in the middle."""
        if self.window:
            self.move(self.window.centred(point))

    def move(self, window: Window) -> None:
        """Look through another window and tell that a person wanted it."""
        self.post_message(self.Moved())
        self.look_through(window)

    def let_go(self) -> None:
        """Forget the button held down."""
        if self._grip:
            self.release_mouse()
        self._grip = None

    def on_mouse_down(self, event: MouseDown) -> None:
        """Tell where on a whole sheet the mouse points; take hold of the window on another one."""
        if self.window is None or event.button != 1:
            return
        pointed = self._pointed(self.window.scale, event)
        if self.window.scale.is_whole:
            self.post_message(pointed)
        else:
            self._grip = self.Grip(event.screen_offset, self.window, pointed)
            self.capture_mouse()

    def on_mouse_move(self, event: MouseMove) -> None:
        """Move the sheet along with the mouse that holds it."""
        if grip := self._grip:
            right, down = event.screen_offset - grip.at
            grip.dragged |= abs(right) >= DRAGGED_COLUMNS or abs(down) >= DRAGGED_ROWS
            if grip.dragged:
                self.move(grip.window.panned(-right, -down))

    def on_mouse_up(self, event: MouseUp) -> None:
        """Let go; a press that moved nothing has pointed."""
        if self._grip and not self._grip.dragged:
            self.post_message(self._grip.pointed)
        self.let_go()

    def on_mouse_scroll_up(self, event: MouseScrollUp) -> None:
        """Move the window up; with Shift to the left, with Ctrl zoom in."""
        self._turn_wheel(event, -1)

    def on_mouse_scroll_down(self, event: MouseScrollDown) -> None:
        """Move the window down; with Shift to the right, with Ctrl zoom out."""
        self._turn_wheel(event, 1)

    def on_mouse_scroll_left(self, event: MouseScrollLeft) -> None:
        """Move the window to the left."""
        self._roll(-1, 0)

    def on_mouse_scroll_right(self, event: MouseScrollRight) -> None:
        """Move the window to the right."""
        self._roll(1, 0)

    def corner(self, scale: Scale) -> Offset:
        """Return where in the widget the board begins: it lies in the middle."""
        return Offset((self.size.width - scale.columns) // 2, (self.size.height - scale.rows) // 2)

    def _turn_wheel(self, event: MouseEvent, turn: int) -> None:
        if event.ctrl and self.window:
            pointed = self._pointed(self.window.scale, event)
            self.move(self.window.zoomed(turn < 0, Cell(int(pointed.x), int(pointed.y))))
        elif event.shift:
            self._roll(turn, 0)
        else:
            self._roll(0, turn)

    def _roll(self, right: int, down: int) -> None:
        if self.window:
            columns, rows = self.window.cells_a_square
            self.move(self.window.panned(right * columns, down * rows))

    def _pointed(self, scale: Scale, event: MouseEvent) -> Pointed:
        at = self.corner(scale)
        x, y = event.pointer_x - at.x, event.pointer_y - at.y
        half = 0.5 if x == int(x) and y == int(y) else 0
        return self.Pointed(scale, x + half, y + half)


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
        self.glyphs: GlyphName = "braille"
        self.palette: Palette = DARK

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

    def restyle(self, glyphs: GlyphName, dark: bool, colour: bool) -> None:
        """Draw in other signs or colours."""
        self.glyphs = glyphs
        self.palette = (DARK if dark else LIGHT) if colour else COLOURLESS
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

    def bring_into_view(self) -> None:
        """Show the cursor, what is asked, or the next thing of the verdict."""
        if self.window:
            self.move(brought_into_view(self.window, self._look))

    def on_resize(self, event: Resize) -> None:
        """Draw at the scale that now fits."""
        self._board = None
        if self.window and event.size:
            self.window = self.window.resized(Room(*event.size), self._look.cursor_at)
        self._draw()

    def render_line(self, y: int) -> Strip:
        """Return one row, the board in the middle of the widget."""
        width, board = self.size.width, self._board
        at = self.corner(board.scale) if board else None
        if board is None or at is None or not 0 <= y - at.y < len(board.lines):
            return Strip.blank(width, self.rich_style)
        spans = [Segment(" " * at.x)]
        spans += [Segment(span.text, _rich(self.palette.paint(span.style))) for span in board.lines[y - at.y]]
        # with the screen's own colours under every span: textual's colour filters need both
        return Strip(spans).adjust_cell_length(width).apply_style(self.rich_style)

    def _draw(self) -> None:
        """Draw, and paint the rows that changed, all of them where the board has another size."""
        if self._pattern is None or not self.size:
            return
        if self.window is None:
            self.window = opened(self._pattern, Room(*self.size), self._look)
        before, scale = self._board, self.window.scale
        self._board = draw_board(self._pattern, self._look, scale, self.glyphs)
        if before and (before.scale.columns, before.scale.rows) == (scale.columns, scale.rows):
            self._refresh_changed(before, self._board)
        else:
            self.refresh()
        self.post_message(self.Shown(self._pattern, self._look, scale, self.glyphs))

    def _refresh_changed(self, before: Board, after: Board) -> None:
        top = self.corner(after.scale).y
        for row, (old, new) in enumerate(zip(before.lines, after.lines, strict=True)):
            if old != new:
                self.refresh(Region(0, top + row, self.size.width, 1))


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
