"""What every screen has: the program it runs in, a line above, a line of keys below, and a least size."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, Literal, Protocol, TypeAlias, cast

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Resize
from textual.screen import Screen
from textual.style import Style
from textual.widgets import Static

from progress_store import Store
from trainer.actions import ACTIONS, Action, Context, key_line
from trainer.given import Clock
from trainer.practice.drill_source import DrillSource
from trainer.practice.making import Making
from trainer.screens.painted import Painted

Way: TypeAlias = Literal[
    "today",
    "first minutes",
    "placing",
    "warm-up",
    "pick",
    "lesson",
    "record",
    "yardstick",
    "missed",
    "own",
    "minute",
]
"""Where one can go from a screen."""

GAP = "  "
LEAST_COLUMNS, LEAST_ROWS = 72, 20


class Program(Protocol):
    """The running program; it alone knows which screen follows which."""

    store: Store
    clock: Clock
    making: Making

    def open(self, way: Way) -> None:
        """Go on to a screen; it follows a screen that has done its work."""

    def practise(self, source: DrillSource) -> None:
        """Go through drills, instead of the screen on top."""

    def ended(self, source: DrillSource) -> None:
        """Follow up drills that are over or were left."""

    def help(self, asked_from: Context) -> None:
        """Show every key, those of a screen first."""

    def remember(self, **changes: object) -> None:
        """Change settings."""

    def change_theme(self) -> None:
        """Change between dark and light."""

    def change_dots(self) -> None:
        """Change between braille dots and blocks."""

    def style_board(self, board: Painted) -> None:
        """Give a board the signs and colours of now."""


def link(words: str, action: str, bold: bool = False) -> Content:
    """Return words that run an action of the screen when they are clicked."""
    return Content.styled(words, Style.from_meta({"@click": f"screen.{action}"}) + Style(bold=bold or None))


def bindings_for(*contexts: Context) -> list[BindingType]:
    """Return the bindings of every action that works in one of the contexts."""
    return [
        Binding(key, f"{action.name}('{key}')" if action.takes_key else action.name, action.words, show=False)
        for action in ACTIONS
        if set(contexts) & set(action.contexts)
        for key in action.keys
    ]


class TopLine(Horizontal):
    """A title at the left and how things stand at the right."""

    def compose(self) -> ComposeResult:
        """Yield the two ends."""
        yield Static("", id="title", markup=False)
        yield Static("", id="standing", markup=False)

    def say(self, title: str, standing: str | Content = "") -> None:
        """Write both ends."""
        self.query_one("#title", Static).update(title)
        self.query_one("#standing", Static).update(standing)


class KeyLine(Static):
    """The keys that matter here, as many as fit, each of which can be clicked; help always stays."""

    def __init__(self, context: Context) -> None:
        super().__init__("")
        self._shown = key_line(context)

    def show_keys(self, actions: Iterable[Action]) -> None:
        """Show the keys of these actions, as far as the line has words for them."""
        shown = [action for action in actions if action.line and not action.moves_window]
        if shown != self._shown:
            self._shown = shown
            self._write()

    def on_resize(self, event: Resize) -> None:
        """Fit the line to the new width."""
        self._write()

    def _write(self) -> None:
        shown = fitting(self._shown, self.size.width)
        self.update(Content(GAP).join(key_words(action) for action in shown))


def fitting(actions: list[Action], width: int) -> list[Action]:
    """Return the actions whose words fit the width; the last one, help, is never left out."""
    kept = list(actions)
    while len(kept) > 1 and cell_len(GAP.join(action.line for action in kept)) > width:
        del kept[-2]
    return kept


def key_words(action: Action) -> Content:
    """Return what the line says for an action; one that needs a key of several is no link."""
    return Content(action.line) if action.takes_key else link(action.line, action.name)


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

    def action_sleep(self) -> None:
        """Go to sleep in the background of the shell; the data folder stays locked."""
        self.app.action_suspend_process()

    def action_dots(self) -> None:
        """Change between braille dots and blocks."""
        self.slantwise.change_dots()
