"""The lesson on the screen: pages that are told, worked or left to the person, and can be turned."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from drills.questions import Verdict
from trainer.practice.lesson import Lesson
from trainer.practice.lesson_pages import AFTER
from trainer.screens.base_screen import BaseScreen
from trainer.screens.drill import DrillScreen
from trainer.screens.lines import bindings_for, link
from trainer.screens.panel import Panel


class LessonScreen(DrillScreen):
    """Goes through the lesson and remembers the page that is reached."""

    place = "lesson"
    BINDINGS = bindings_for("lesson")

    def __init__(self, lesson: Lesson) -> None:
        super().__init__(lesson)
        self.lesson = lesson

    def _begin_next(self) -> None:
        """Begin the next part and remember its page."""
        super()._begin_next()
        if self.slantwise.store.settings.lesson != self.lesson.reached:
            self.slantwise.remember(lesson=self.lesson.reached)

    def _begin_half(self) -> None:
        """Do the first part of the answer; what is told says so."""
        self.hand.begin()

    def _show_worked(self, panel: Panel, verdict: Verdict) -> None:
        """Show what is told above the answer."""
        panel.work_page(self.lesson.tells, self.drill, verdict)

    def _write_standing(self) -> None:
        """Say what the page is about, which it is, and how pages are turned."""
        turning = (link("PgUp", "page_back"), " ", link("PgDn", "page_on"), " turn")
        self.say(
            f"Lesson | {self.lesson.page.title}", Content.assemble(self.lesson.progress, "   ", *turning)
        )

    def _as_text(self) -> str:
        """Return the drill as text, named for its page: no code makes it."""
        _, *lines = super()._as_text().splitlines()
        return "\n".join([f"Lesson, page {self.lesson.progress}: {self.lesson.page.title}.", *lines])

    def action_page_on(self) -> None:
        """Turn to the next page."""
        if self.lesson.turn_on():
            self._begin_next()

    def action_page_back(self) -> None:
        """Turn to the beginning of the page, or to the page before."""
        if self.lesson.turn_back():
            self._begin_next()


class LessonEndScreen(BaseScreen):
    """What comes after the lesson."""

    place = "end"
    BINDINGS = bindings_for("end")

    def body(self) -> ComposeResult:
        """Yield what is said at the end."""
        first, *more = AFTER
        lines = [Content.styled(first, "bold"), *map(Content, [*more, "", "Enter  back to the opening"])]
        with VerticalScroll(can_focus=False):
            yield Static(Content("\n").join(lines), classes="page")

    def on_mount(self) -> None:
        """Say where this is."""
        self.say("Lesson | the end")

    def action_go_on(self) -> None:
        """Go back to the opening."""
        self.app.pop_screen()
