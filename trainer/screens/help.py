"""The help: every key of the screen it was asked from, then those of the other screens."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content

from trainer.actions import PLACES, Place, actions_at
from trainer.screens.keys import bindings_for
from trainer.screens.reading import ReadingScreen

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
