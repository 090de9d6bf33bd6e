"""The end of a round: one sentence on what changed, and the numbers."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from trainer.practice.closing import levels_found, numbers, what_changed
from trainer.practice.round import Round
from trainer.screens.keys import bindings_for
from trainer.screens.shell import Shell


class EndScreen(Shell):
    """What came of a round."""

    place = "end"
    BINDINGS = bindings_for("end")

    def __init__(self, sitting: Round) -> None:
        super().__init__()
        self.sitting = sitting

    def body(self) -> ComposeResult:
        """Yield the sentence and the numbers."""
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join(self._lines()), classes="page")

    def _lines(self) -> list[Content]:
        sitting, after = self.sitting, self.slantwise.store.state
        if sitting.purpose == "placing":
            first, *more = levels_found(after)
        else:
            first, *more = [what_changed(sitting.before, after, sitting.session)]
        more += ["", *numbers(sitting.session), "", "Enter  back to the opening"]
        return [Content.styled(first, "bold"), *map(Content, more)]

    def on_mount(self) -> None:
        """Say which round it was."""
        self.say(f"{self.sitting.title} | the end", f"{len(self.sitting.session.done)} drills")

    def action_go_on(self) -> None:
        """Go back to the opening."""
        self.app.pop_screen()
