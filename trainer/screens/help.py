"""The help: every key of the screen it was asked from, then those of the other screens."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from trainer.actions import PLACES, Place, actions_at
from trainer.screens.keys import bindings_for
from trainer.screens.shell import Shell

MOUSE = (
    "The mouse does all of it too: click creases, points and crossings on the board, [-] and [+] beside a "
    "number, and the words of the line below. A second click on the same spot takes the next crease there."
)


class HelpScreen(Shell):
    """Lists the keys; Escape, q or ? goes back."""

    AUTO_FOCUS = "VerticalScroll"
    place = "help"
    BINDINGS = bindings_for("help")

    def __init__(self, asked_from: Place) -> None:
        super().__init__()
        self.asked_from = asked_from

    def body(self) -> ComposeResult:
        """Yield the keys, those of the screen before first."""
        others = [place for place in PLACES if place not in (self.asked_from, "help")]
        parts = [line for place in (self.asked_from, *others) for line in _keys_of(place)]
        with VerticalScroll():
            yield Static(Content("\n").join([Content(MOUSE), *parts]), classes="page")

    def on_mount(self) -> None:
        """Say what this is."""
        self.say("Help", "Escape goes back")

    def action_help(self) -> None:
        """Go back."""
        self.action_leave()


def _keys_of(place: Place) -> list[Content]:
    rows = [Content(f"  {action.shown:<10}{action.words}") for action in actions_at(place)]
    return [Content(""), Content.styled(PLACES[place], "bold"), *rows]
