"""The record: what one can believe about progress, the same text as on the command line."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content

from trainer.cli.record_command import name_of
from trainer.cli.record_in_text import record_in_text
from trainer.screens.keys import bindings_for
from trainer.screens.reading import ReadingScreen


class RecordScreen(ReadingScreen):
    """Shows the record; arrows and the wheel scroll it."""

    place = "record"
    BINDINGS = bindings_for("record")

    def lines(self) -> Iterable[Content]:
        """Return the record as text."""
        store = self.slantwise.store
        return map(Content, record_in_text(store.attempts, store.rules, store.today, name_of))

    def on_mount(self) -> None:
        """Say what this is."""
        self.say("Record", f"{len(self.slantwise.store.attempts)} drills")
