"""The end of a round: what came of it, and what was missed, each to be looked at once more."""

from __future__ import annotations

from collections.abc import Iterable

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from drills.pattern import number_of
from progress_store import Attempt
from trainer.practice.ending import counted_in_words, ending, missed_in
from trainer.practice.looking_back import LookingBack, in_two_lines
from trainer.practice.session import PracticeSession
from trainer.practice.words import levels_found, minute_in_words
from trainer.screens.base_screen import BaseScreen, bindings_for, link
from trainer.screens.drill import DrillScreen
from trainer.text.glance import form_in_words
from trainer.text.record import yardstick_in_text

BACK = "Back to the opening"
MISSED = "Missed: Enter looks at it once more, a asks another like it"


class EndScreen(BaseScreen):
    """What came of a session; the list of its misses ends with the way back."""

    context = "end"
    BINDINGS = bindings_for("end")

    def __init__(self, session: PracticeSession) -> None:
        super().__init__()
        self.session = session
        self.missed: tuple[Attempt, ...] = ()
        self._said: list[str] = []
        self._chosen = 0

    def body(self) -> ComposeResult:
        """Yield what came of it, and the list."""
        with VerticalScroll(can_focus=False):
            yield Static("", classes="page")

    def on_mount(self) -> None:
        """Say which session it was and what came of it."""
        session = self.session
        self.say(f"{session.title} | the end", number_of(len(session.history.counted), "drill"))
        self._said = list(self._told())
        if session.purpose in ("today", "warm-up", "picked"):
            self.missed = missed_in(session)
        self._choose(0)

    def _told(self) -> Iterable[str]:
        session, store = self.session, self.slantwise.store
        if session.purpose == "yardstick":
            return yardstick_in_text(store.yardsticks()[-1])
        if session.purpose == "minute":
            return minute_in_words(store.minutes_by_clock())
        if session.purpose == "placing":
            return [*levels_found(store.state), "", counted_in_words(session.history)]
        return ending(session, form_in_words).lines

    @property
    def _leads_to_missed(self) -> bool:
        """Whether misses were not told until now, and there are any."""
        missed = any(done.result == "miss" for done in self.session.history.counted)
        return self.session.tells_at_end and missed

    def action_go_on(self) -> None:
        """Look at the chosen miss; from the end of the list go back, or to what was missed and not told."""
        if self._chosen < len(self.missed):
            self._look(is_seen=False)
        elif self._leads_to_missed:
            self.slantwise.open("missed")
        else:
            self.app.pop_screen()

    def action_another(self) -> None:
        """Ask another drill like the chosen one."""
        if self._chosen < len(self.missed):
            self._look(is_seen=True)

    def action_choose_missed(self, key: str) -> None:
        """Choose another one of the list."""
        page = max(1, self.query_one(VerticalScroll).size.height // 2)
        self._choose(self._chosen + {"up": -1, "down": 1, "pageup": -page, "pagedown": page}[key])

    def action_click_missed(self, place: int) -> None:
        """Choose one by a click, and go there."""
        self._choose(place)
        self.action_go_on()

    def _look(self, is_seen: bool) -> None:
        store, clock = self.slantwise.store, self.slantwise.clock
        self.app.push_screen(DrillScreen(LookingBack(store, clock, self.missed[self._chosen], is_seen)))

    def _choose(self, place: int) -> None:
        self._chosen = min(max(place, 0), len(self.missed))
        first, *more = self._said
        lines = [Content.styled(first, "bold"), *map(Content, more), Content("")]
        if self.missed:
            lines.append(Content(MISSED))
        lines += [self._row(place) for place in range(len(self.missed) + 1)]
        self.query_one(".page", Static).update(Content("\n").join(lines))
        # the first rows and the last are seen with what stands around them
        if not self._chosen or self._chosen == len(self.missed):
            scroll = self.query_one(VerticalScroll)
            (scroll.scroll_end if self._chosen else scroll.scroll_home)(animate=False)

    def _row(self, place: int) -> Content:
        mark = ">" if place == self._chosen else " "
        if place == len(self.missed):
            words = "What you missed" if self._leads_to_missed else BACK
        else:
            said, asked = in_two_lines(self.missed[place])
            words = f"{said} ({asked})"
        return link(f"{mark} {words}", f"click_missed({place})", bold=place == self._chosen)
