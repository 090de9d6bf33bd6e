"""A screen of text that is longer than the window: the help and the record."""

from __future__ import annotations

from collections.abc import Iterable

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from trainer.screens.shell import Shell


class ReadingScreen(Shell):
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
