"""What every screen has: a line above, a line of keys below, help, theme, and a least size."""

from __future__ import annotations

from typing import ClassVar, cast

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Resize
from textual.screen import Screen
from textual.widgets import Static

from trainer.actions import Context
from trainer.screens.lines import KeyLine, TopLine
from trainer.screens.program import Program

LEAST_COLUMNS, LEAST_ROWS = 72, 20


class BaseScreen(Screen[None]):
    """A screen between its two lines; ``body`` is what stands between them."""

    AUTO_FOCUS: ClassVar[str | None] = ""
    context: ClassVar[Context]

    @property
    def slantwise(self) -> Program:
        """The running program."""
        return cast("Program", self.app)

    def compose(self) -> ComposeResult:
        """Yield the lines and the body, and what is said where the window is too small."""
        yield TopLine()
        with Vertical(id="body"):
            yield from self.body()
        yield KeyLine(self.context)
        yield Static("", id="too-small", markup=False)

    def body(self) -> ComposeResult:
        """Yield what stands between the lines."""
        yield from ()

    def on_resize(self, event: Resize) -> None:
        """Say what size is needed where the window is below it."""
        columns, rows = event.size
        small = columns < LEAST_COLUMNS or rows < LEAST_ROWS
        self.set_class(small, "small")
        needed = f"{LEAST_COLUMNS} columns and {LEAST_ROWS} rows"
        self.query_one("#too-small", Static).update(f"Needs {needed}; this window has {columns} and {rows}.")

    def say(self, title: str, standing: str | Content = "") -> None:
        """Write the line above."""
        self.query_one(TopLine).say(title, standing)

    def action_leave(self) -> None:
        """Leave this screen."""
        self.app.pop_screen()

    def action_help(self) -> None:
        """Show every key, those of this screen first."""
        self.slantwise.help(self.context)

    def action_theme(self) -> None:
        """Change between dark and light."""
        self.slantwise.change_theme()

    def action_dots(self) -> None:
        """Change between braille dots and blocks."""
        self.slantwise.change_dots()
