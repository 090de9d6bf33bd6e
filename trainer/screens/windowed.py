"""The hands on a window: keys, wheel and drag that move and zoom it."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass

from textual.events import (
    MouseDown,
    MouseEvent,
    MouseMove,
    MouseScrollDown,
    MouseScrollLeft,
    MouseScrollRight,
    MouseScrollUp,
    MouseUp,
)
from textual.geometry import Offset
from textual.message import Message

from drills.geometry import Point
from trainer.board import RULER_COLUMNS, RULER_ROWS, Cell, Room, Scale, Window
from trainer.screens.painted import Painted

DRAGGED_COLUMNS, DRAGGED_ROWS = 2, 1
"""From so far on a press that moves is no click any more; a hand may tremble."""


class Windowed(Painted):
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
        super().__init__("board")
        self.window: Window | None = None
        self._grip: Windowed.Grip | None = None

    @property
    def room(self) -> Room:
        """What the rulers leave for the board, one cell at least."""
        return Room(max(1, self.size.width - RULER_COLUMNS), max(1, self.size.height - RULER_ROWS))

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
        """Return where in the widget the board begins: it lies in the middle, its rulers beside it."""
        room = self.room
        return Offset(
            RULER_COLUMNS + (room.columns - scale.columns) // 2, RULER_ROWS + (room.rows - scale.rows) // 2
        )

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
