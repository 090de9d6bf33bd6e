"""The opening: what today holds, and where else one can go."""

from __future__ import annotations

from asyncio import wrap_future
from collections.abc import Iterable, Iterator
from concurrent.futures import Future
from contextlib import suppress

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from drills.questions import Code, Drill, codes_for, skill_names
from progress_store import Settings
from trainer.board import Look
from trainer.practice import rounds, yardstick
from trainer.practice.choosing import Selection
from trainer.practice.lesson import Lesson
from trainer.practice.lesson_pages import LESSON
from trainer.practice.making import NotReadyError, Wanted
from trainer.practice.resuming import seconds_left_today
from trainer.practice.skill_map import map_lines, minutes_today
from trainer.practice.words import RECENT, Promise, coming, drills_in, ordinal, promise
from trainer.screens.base_screen import BaseScreen, bindings_for, link
from trainer.screens.board_view import BoardView

SEEDS, SEEDS_A_DAY = 10**4, 97
"""Far enough apart that the next code of a skill is another one each day."""


class OpeningScreen(BaseScreen):
    """Today and the ways to everything else."""

    context = "opening"
    BINDINGS = bindings_for("opening")

    def body(self) -> ComposeResult:
        """Yield a pattern of today, the menu, and what must be told."""
        with Horizontal():
            with Vertical(id="look-ahead"):
                yield BoardView()
                yield Static("", id="coming", markup=False)
            with VerticalScroll(id="menu", can_focus=False):
                yield Static("", id="menu-text")
        yield Static("", id="told", markup=False)

    def on_mount(self) -> None:
        """Draw in the signs and colours of now."""
        self.slantwise.style_board(self.query_one(BoardView))

    def on_screen_resume(self) -> None:
        """Bring everything up to what the log now says."""
        store = self.slantwise.store
        minutes = store.settings.minutes_a_day
        left = seconds_left_today(store)
        round_of_today = rounds.today(store, self.slantwise.clock)
        done = round_of_today.history
        number = drills_in(left / 60 if left else minutes, store.latest(RECENT))
        first = round_of_today.taken_up or coming(store.state, store.today, 1, done)[0]
        promised = promise(store.state, store.today, number, done)
        self.say("Slantwise", self._day())
        first_comes = f"First comes: {skill_names()[first.skill]}."
        self.query_one("#coming", Static).update("\n".join([*map_lines(store.state), first_comes]))
        self.call_after_refresh(self._look_ahead, first)
        menu = _menu(number, promised, store.settings, left, yardstick.offer(store).word)
        self.query_one("#menu-text", Static).update(Content("\n").join(menu))
        self.query_one("#told", Static).update("\n".join(store.notices[-2:]))

    def _look_ahead(self, first: Selection) -> None:
        """Let the first drills be prepared, and draw a pattern like the first one once it is there."""
        if not self.is_current:
            return
        seed = self.slantwise.store.today.toordinal() * SEEDS_A_DAY % SEEDS
        alike = next(codes_for(first.skill, first.level, seed))
        first_of_today, *others = self._coming()
        making = self.slantwise.making
        making.prepare((first_of_today, alike, *others))
        self.run_worker(self._show_pattern(alike, making.on_its_way(alike)), exclusive=True)

    def _coming(self) -> Iterator[Wanted]:
        """Yield what may be asked first after this screen, the likeliest first."""
        store, clock = self.slantwise.store, self.slantwise.clock
        yield from rounds.today(store, clock).coming()
        yield from rounds.warm_up(store, clock).coming()
        if yardstick.offer(store).is_open:
            yield from yardstick.yardstick(store, clock).coming()
        yield from Lesson(LESSON, store.settings.lesson).coming()

    async def _show_pattern(self, code: Code, drill: Future[Drill] | None) -> None:
        """Draw the sheet of a code without its question, once it is made, if it still is."""
        if drill:
            with suppress(Exception):
                await wrap_future(drill)
        # one that was dropped on the way is not to be seen any more
        with suppress(NotReadyError):
            self.query_one(BoardView).show(self.slantwise.making.take(code).truth.unlabelled(), Look())

    def _day(self) -> str:
        store = self.slantwise.store
        return f"{store.today:%A}, your {ordinal(store.days)} day: {minutes_today(store)}"

    def action_start(self) -> None:
        """Start today's session."""
        self.slantwise.open("today")

    def action_warm_up(self) -> None:
        """Ask what the two minutes before folding are to rise to."""
        self.slantwise.open("warm-up")

    def action_pick(self) -> None:
        """Go to the choice of a drill."""
        self.slantwise.open("pick")

    def action_own(self) -> None:
        """Go to the person's own sheets."""
        self.slantwise.open("own")

    def action_one_minute(self) -> None:
        """Go to the choice of a drill, with a minute by the clock set."""
        self.slantwise.open("minute")

    def action_record(self) -> None:
        """Go to the record."""
        self.slantwise.open("record")

    def action_missed(self) -> None:
        """Go to what was missed."""
        self.slantwise.open("missed")

    def action_yardstick(self) -> None:
        """Begin the yardstick or go on with it; before its time, say when it comes."""
        offered = yardstick.offer(self.slantwise.store)
        if offered.is_open:
            self.slantwise.open("yardstick")
        else:
            self.app.notify(offered.says, title="Yardstick", markup=False)

    def action_lesson(self) -> None:
        """Go to the lesson, at the page where it was left."""
        self.slantwise.open("lesson")

    def action_walk(self) -> None:
        """Go through the first three minutes once more."""
        self.slantwise.open("first minutes")

    def action_minutes(self, key: str) -> None:
        """Set a minute a day more or fewer."""
        minutes = self.slantwise.store.settings.minutes_a_day + (1 if key == "plus" else -1)
        if minutes in range(1, 61):
            self.slantwise.remember(minutes_a_day=minutes)
        self.on_screen_resume()

    def action_going_on(self) -> None:
        """Go on by itself after a quick right answer, or wait."""
        self.slantwise.remember(go_on_after_right=not self.slantwise.store.settings.go_on_after_right)
        self.on_screen_resume()

    def action_leave(self) -> None:
        """Leave the program."""
        self.app.exit()


def _menu(
    number: int, promised: Promise, settings: Settings, left: int | None, measures: str
) -> Iterable[Content]:
    minutes = settings.minutes_a_day
    unit = "minute" if minutes == 1 else "minutes"
    going_on = "on" if settings.go_on_after_right else "off"
    today = f"{minutes} {unit.upper()}" if left is None else f"GO ON, {left // 60}:{left % 60:02d} LEFT"
    yield link(f"{today:<26}Enter", "start", bold=True)
    yield Content(f"about {number} drills at your pace:")
    yield from (Content(f"  {line}") for line in promised.lines)
    yield Content("")
    yield from (
        link(line, action)
        for action, line in (
            ("warm_up", "w  Two minutes, then I fold"),
            ("pick", "n  Pick a drill"),
            ("own", "o  My pattern"),
            ("one_minute", "1  One minute"),
            ("record", "r  Record"),
            ("missed", "m  What I missed"),
            ("yardstick", f"y  Yardstick: {measures}"),
            ("lesson", f"c  Lesson{LESSON.page_in_words(settings.lesson)}"),
            ("walk", "f  The first three minutes again"),
        )
    )
    yield Content("")
    yield Content.assemble(
        link("[-]", "minutes('minus')"),
        " ",
        link("[+]", "minutes('plus')"),
        f" {minutes} {unit} a day",
    )
    yield link(f"g  Going on by itself: {going_on}", "going_on")
