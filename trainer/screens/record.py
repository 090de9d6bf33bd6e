"""The record: what one can believe about progress, the same text as on the command line."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from trainer.cli.record_command import name_of
from trainer.cli.record_in_text import record_in_text
from trainer.screens.keys import bindings_for
from trainer.screens.shell import Shell


class RecordScreen(Shell):
    """Shows the record; arrows and the wheel scroll it."""

    AUTO_FOCUS = "VerticalScroll"
    place = "record"
    BINDINGS = bindings_for("record")

    def body(self) -> ComposeResult:
        """Yield the record as text."""
        store = self.slantwise.store
        lines = record_in_text(store.attempts, store.rules, store.today, name_of)
        with VerticalScroll():
            yield Static(Content("\n".join(lines)), classes="page")

    def on_mount(self) -> None:
        """Say what this is."""
        self.say("Record", f"{len(self.slantwise.store.attempts)} drills")
