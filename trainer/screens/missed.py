"""What was missed: a list over days; Enter shows one as it was, and then a fresh one of its like."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from progress_store import Attempt
from trainer.practice.looking_back import (
    TITLE,
    LookingBack,
    in_two_lines,
    missed,
    open_in_words,
)
from trainer.screens.base_screen import BaseScreen, bindings_for, link
from trainer.screens.drill import DrillScreen

NOTHING = "Nothing is open: what you miss comes here, until two of its like were right."
ROWS = 2
"""The rows of one of the list."""
PADDING = 1


class MissedScreen(BaseScreen):
    """The misses that are open, the latest first; a drill that is looked at lies over the list."""

    context = "missed"
    BINDINGS = bindings_for("missed")

    def __init__(self) -> None:
        super().__init__()
        self.missed: list[Attempt] = []
        self._chosen = 0

    def body(self) -> ComposeResult:
        """Yield the list."""
        with VerticalScroll(can_focus=False):
            yield Static("", classes="page list")

    def on_screen_resume(self) -> None:
        """Bring the list up to what the log now says."""
        self.missed = missed(self.slantwise.store)
        self.say(TITLE, open_in_words(len(self.missed)))
        self._choose(self._chosen)

    def action_choose_missed(self, key: str) -> None:
        """Choose another one of the list."""
        page = max(1, self.query_one(VerticalScroll).size.height // ROWS - 1)
        self._choose(self._chosen + {"up": -1, "down": 1, "pageup": -page, "pagedown": page}[key])

    def action_look(self) -> None:
        """Look at the chosen one as it was."""
        if self.missed:
            store, clock = self.slantwise.store, self.slantwise.clock
            self.app.push_screen(DrillScreen(LookingBack(store, clock, self.missed[self._chosen])))

    def action_click_missed(self, place: int) -> None:
        """Look at one by a click."""
        self._choose(place)
        self.action_look()

    def _choose(self, place: int) -> None:
        self._chosen = min(max(place, 0), max(0, len(self.missed) - 1))
        lines = [line for place in range(len(self.missed)) for line in self._lines(place)]
        self.query_one(".page", Static).update(Content("\n").join(lines or [Content(NOTHING)]))
        scroll = self.query_one(VerticalScroll)
        row = PADDING + ROWS * self._chosen
        if not scroll.scroll_y < row < scroll.scroll_y + scroll.size.height - ROWS:
            scroll.scroll_to(y=max(0, row - scroll.size.height // 2), animate=False)

    def _lines(self, place: int) -> list[Content]:
        attempt, is_chosen = self.missed[place], place == self._chosen
        day = attempt.practice_day
        said, asked = in_two_lines(attempt)
        lines = f"{'>' if is_chosen else ' '} {day:%a} {day.day:2} {day:%b}  {said}", f"    {asked}"
        return [link(line, f"click_missed({place})", bold=is_chosen) for line in lines]
