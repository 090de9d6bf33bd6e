"""The end of a round: one sentence on what changed, and the numbers."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from progress_store import replay, yardsticks
from trainer.practice.session import PracticeSession
from trainer.practice.summary import levels_found, numbers, what_changed
from trainer.screens.base_screen import BaseScreen
from trainer.screens.lines import bindings_for
from trainer.text.record import yardstick_in_text


class EndScreen(BaseScreen):
    """What came of a round."""

    place = "end"
    BINDINGS = bindings_for("end")

    def __init__(self, sitting: PracticeSession) -> None:
        super().__init__()
        self.sitting = sitting

    def body(self) -> ComposeResult:
        """Yield the sentence and the numbers."""
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join(self._lines()), classes="page")

    def _lines(self) -> list[Content]:
        sitting, store = self.sitting, self.slantwise.store
        how_many = ["", *numbers(sitting.session)]
        if sitting.purpose == "yardstick":
            last = yardsticks(replay(store.attempts, store.rules)[1])[-1]
            first, *more = yardstick_in_text(last)
        elif sitting.purpose == "placing":
            first, *more = [*levels_found(store.state), *how_many]
        else:
            first, *more = [what_changed(sitting.before, store.state, sitting.session), *how_many]
        more += ["", "Enter  back to the opening"]
        return [Content.styled(first, "bold"), *map(Content, more)]

    def on_mount(self) -> None:
        """Say which round it was."""
        self.say(f"{self.sitting.title} | the end", f"{len(self.sitting.session.counted)} drills")

    def action_go_on(self) -> None:
        """Go back to the opening."""
        self.app.pop_screen()
