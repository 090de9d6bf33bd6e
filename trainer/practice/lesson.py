"""The lesson: how to read a slanted stretch, page by page; it goes on where it was left."""

from __future__ import annotations

from drills.questions import Drill, Verdict
from trainer.practice.attempts import Measured
from trainer.practice.choosing import Stage
from trainer.practice.lesson_pages import PAGES, Page, Part


def page_in_words(reached: int) -> str:
    """Return where the lesson goes on, as the end of a line; empty where it begins with its first page."""
    return f", page {reached} of {len(PAGES)}" if reached in range(1, len(PAGES) + 1) else ""


class Lesson:
    """A sitting of the pages, each in parts; answers are judged and told, but not kept."""

    title = "Lesson"
    seconds_left = None
    tells_at_end = False

    def __init__(self, page: int = 1) -> None:
        """Begin at a page, counted from 1; at the first where there is no such page."""
        self._page = page - 1 if 1 <= page <= len(PAGES) else 0
        self._part = -1

    @property
    def is_over(self) -> bool:
        """Whether the last page was gone on from."""
        return self._page >= len(PAGES)

    @property
    def reached(self) -> int:
        """The page in hand, counted from 1; 0 once it is over."""
        return 0 if self.is_over else self._page + 1

    @property
    def page(self) -> Page:
        """The page in hand, at the end still the last one."""
        return PAGES[min(self._page, len(PAGES) - 1)]

    @property
    def part(self) -> Part:
        """The part of the page in hand."""
        return self.page.parts[max(self._part, 0)]

    @property
    def progress(self) -> str:
        """Which page it is."""
        return f"{min(self._page + 1, len(PAGES))} of {len(PAGES)}"

    @property
    def tells(self) -> str:
        """What is told before the drill in hand."""
        return self.part.tells

    @property
    def stage(self) -> Stage:
        """How much of the drill in hand is done for the person."""
        return self.part.stage

    @property
    def why(self) -> str:
        """Why the drill in hand is met."""
        return f"You met this because page {self.progress} of the lesson asks it; it does not count."

    def turn_on(self) -> bool:
        """Turn to the next page, whose first part comes next; whether there is one."""
        return self._turn_to(self._page + 1)

    def turn_back(self) -> bool:
        """Turn to the beginning of the page, or from there to the page before; whether there is one."""
        return self._turn_to(self._page if self._part > 0 else self._page - 1)

    def _turn_to(self, page: int) -> bool:
        if not 0 <= page < len(PAGES):
            return False
        self._page, self._part = page, -1
        return True

    def next_drill(self) -> Drill | None:
        """Return the drill of the next part, of this page or the next, None after the last."""
        self._part += 1
        if self._part == len(self.page.parts):
            self._page, self._part = self._page + 1, 0
        return None if self.is_over else self.part.making()

    def looked_at(self, drill: Drill) -> None:
        """Keep nothing."""

    def prepare(self) -> None:
        """Make nothing: a page is made at once."""

    def keep(self, drill: Drill, verdict: Verdict, measured: Measured, helped: bool) -> None:
        """Keep nothing: this is for learning."""

    def keep_rest(self) -> None:
        """Keep nothing."""
