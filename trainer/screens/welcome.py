"""The first start: three minutes on one small sheet, then six drills that find the level."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from trainer.practice import rounds
from trainer.practice.first_minutes import Walk
from trainer.screens.base_screen import BaseScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.lines import bindings_for, link

_BEFORE = (
    "Most of a box-pleated crease pattern runs along the grid or at 45 degrees.",
    "Then there is a slanted parallelogram. Slantwise trains you to read it:",
    "",
    "  its creases as whole-number steps, so many across and so many down,",
    "  which lines run inside it and sink,",
    "  and which mountain and valley labels are wrong.",
    "",
)
_AFTER = (
    "That was a step, an inside line and a wrong label.",
    "",
    "Six drills now find your level, two of each kind. They take about two minutes.",
    "",
)
_BEGIN = (("begin", "Enter   Three minutes on one small sheet, to see how it goes"),)
_OTHERS = (
    ("place_me", "p       Six drills that find your level"),
    ("skip", "s       Skip both and start at level 1"),
)
_PLACE_ME = (
    ("begin", "Enter   Six drills that find your level"),
    ("skip", "s       Skip them and start at level 1"),
)


class WelcomeScreen(BaseScreen):
    """Offers the first three minutes, and after them the six placing drills."""

    place = "welcome"
    BINDINGS = bindings_for("welcome")

    def __init__(self, walked: bool = False) -> None:
        super().__init__()
        self.walked = walked

    def body(self) -> ComposeResult:
        """Yield the words and the choices."""
        words = map(Content, _AFTER if self.walked else _BEFORE)
        choices = _PLACE_ME if self.walked else (*_BEGIN, *_OTHERS)
        offered = (link(line, name) for name, line in choices)
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join([*words, *offered]), classes="page")

    def on_mount(self) -> None:
        """Say where this is."""
        self.say("Slantwise", "Welcome")

    def action_begin(self) -> None:
        """Begin with the three minutes, or after them with placing."""
        if self.walked:
            self.action_place_me()
        else:
            self.app.switch_screen(DrillScreen(Walk()))

    def action_place_me(self) -> None:
        """Go to the six placing drills."""
        self.slantwise.remember(started=True)
        self.app.switch_screen(DrillScreen(rounds.placing(self.slantwise.store, self.slantwise.clock)))

    def action_skip(self) -> None:
        """Go straight to the opening."""
        self.slantwise.remember(started=True)
        self.app.pop_screen()

    def action_leave(self) -> None:
        """Leave the program from the first start, the screen after the walk."""
        if self.walked:
            self.action_skip()
        else:
            self.app.exit()
