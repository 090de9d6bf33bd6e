"""The list of a lesson's pages, any of which can be gone to."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from trainer.practice.lesson import LessonPlan
from trainer.screens.base_screen import BaseScreen, bindings_for, link


class ContentsScreen(BaseScreen):
    """Arrows and Enter, or a click, go to a page; what follows is told by ``go_to``."""

    context = "contents"
    BINDINGS = bindings_for("contents")

    def __init__(self, plan: LessonPlan, page: int, go_to: Callable[[int], None]) -> None:
        super().__init__()
        self.plan, self._here, self._chosen, self._go_to = plan, page, page, go_to

    def body(self) -> ComposeResult:
        """Yield the list."""
        with VerticalScroll(can_focus=False):
            yield Static("", classes="page")

    def on_mount(self) -> None:
        """Show the list, the page in hand chosen."""
        self.say(f"{self.plan.title} | all pages")
        self._write()

    def action_choose_page(self, key: str) -> None:
        """Choose the page above or below, round and round."""
        step = 1 if key == "down" else -1
        self._chosen = (self._chosen - 1 + step) % len(self.plan.pages) + 1
        self._write()

    def action_open_page(self) -> None:
        """Go to the chosen page."""
        self.action_click_page(self._chosen)

    def action_click_page(self, page: int) -> None:
        """Go to a page."""
        self.app.pop_screen()
        self._go_to(page)

    def _write(self) -> None:
        lines = map(self._line, range(1, len(self.plan.pages) + 1))
        self.query_one(".page", Static).update(Content("\n").join(lines))

    def _line(self, page: int) -> Content:
        pointer = ">" if page == self._chosen else " "
        here = "  (you are here)" * (page == self._here)
        words = f"{pointer} {page:2}  {self.plan.pages[page - 1].title}{here}"
        return link(words, f"click_page({page})", bold=page == self._chosen)
