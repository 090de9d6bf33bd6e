"""A screen of text that is longer than the window: the help and the record."""

from __future__ import annotations

from collections.abc import Iterable

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from trainer.actions import PLACES, Place, actions_at
from trainer.screens.base_screen import BaseScreen
from trainer.screens.lines import bindings_for
from trainer.text.record import record_in_text


class ReadingScreen(BaseScreen):
    """Shows lines of text; arrows, page keys and the wheel scroll them."""

    def lines(self) -> Iterable[Content]:
        """Return the text, line by line."""
        return ()

    def body(self) -> ComposeResult:
        """Yield the text."""
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join(self.lines()), classes="page")

    def action_scroll(self, key: str) -> None:
        """Scroll by a line or by a page."""
        text = self.query_one(VerticalScroll)
        ways = {
            "up": text.scroll_up,
            "down": text.scroll_down,
            "pageup": text.scroll_page_up,
            "pagedown": text.scroll_page_down,
        }
        ways[key](animate=False)


class RecordScreen(ReadingScreen):
    """Shows the record; arrows and the wheel scroll it."""

    place = "record"
    BINDINGS = bindings_for("record")

    def lines(self) -> Iterable[Content]:
        """Return the record as text."""
        store = self.slantwise.store
        return map(Content, record_in_text(store.record(), store.today))

    def on_mount(self) -> None:
        """Say what this is."""
        self.say("Record", f"{len(self.slantwise.store.attempts)} drills")


MOUSE = (
    "The mouse does all of it too: click creases, points and crossings on the board, [-] and [+] beside a "
    "number, and the words of the line below. A second click on the same spot takes the next crease there. "
    "On a large sheet the wheel and a drag move the window, Ctrl and the wheel zoom."
)

PLACES_IN_WORDS = (
    "Places are counted in squares from the top left corner of the sheet: 3,1 is 3 across and 1 down."
)
LINES = (
    "Pleat lines run along the grid, many side by side. A hinge crosses them, from a corner of the outline. "
    "Ridges are where pleat lines turn."
)


class HelpScreen(ReadingScreen):
    """Lists the keys; Escape, q or ? goes back."""

    place = "help"
    BINDINGS = bindings_for("help")

    def __init__(self, asked_from: Place) -> None:
        super().__init__()
        self.asked_from = asked_from

    def lines(self) -> Iterable[Content]:
        """Return the keys, those of the screen before first."""
        others = [place for place in PLACES if place not in (self.asked_from, "help")]
        yield from map(Content, (MOUSE, "", PLACES_IN_WORDS, "", LINES))
        for place in (self.asked_from, *others):
            yield from _keys_of(place)

    def on_mount(self) -> None:
        """Say what this is."""
        self.say("Help", "Escape goes back")

    def action_help(self) -> None:
        """Go back."""
        self.action_leave()


def _keys_of(place: Place) -> list[Content]:
    rows = [Content(f"  {action.shown:<10}{action.words}") for action in actions_at(place)]
    return [Content(""), Content.styled(PLACES[place], "bold"), *rows]
