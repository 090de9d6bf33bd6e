"""Words that can be clicked."""

from __future__ import annotations

from collections.abc import Iterable

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.style import Style
from textual.widgets import Static

from trainer.actions import ACTIONS, Action, Context, key_line


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


GAP = "  "


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
