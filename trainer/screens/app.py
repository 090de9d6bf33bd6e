"""The program on the screen: which screen follows which."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from contextlib import suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import ClassVar, Literal, TypeAlias

from textual.app import App
from textual.events import AppBlur
from textual.theme import Theme

from drills.pattern import number_of
from drills.questions import Code
from progress_store import Store, StoreError, open_store
from trainer.actions import Context
from trainer.board import DARK, LIGHT, GlyphName
from trainer.given import Clock
from trainer.practice import resuming, rounds, yardstick
from trainer.practice.attempts import floors, levels
from trainer.practice.class_round import ClassRound, ClassTask
from trainer.practice.drill_process import drills_made_ahead
from trainer.practice.drill_source import DrillSource
from trainer.practice.first_minutes import FIRST_MINUTES
from trainer.practice.lesson import Lesson
from trainer.practice.lesson_pages import LESSON
from trainer.practice.making import Making
from trainer.practice.own_round import OwnRound, OwnTask
from trainer.practice.placing import placing
from trainer.practice.rounds import Target, warm_up
from trainer.practice.session import PracticeSession
from trainer.screens.base_screen import BaseScreen, Way
from trainer.screens.choice_screens import ONE_MINUTE, PickScreen, WarmUpScreen
from trainer.screens.drill import DrillScreen, LessonScreen
from trainer.screens.ending import EndScreen
from trainer.screens.missed import MissedScreen
from trainer.screens.opening import OpeningScreen
from trainer.screens.own import OwnSheetsScreen
from trainer.screens.pages import HelpScreen, LessonEndScreen, WelcomeScreen
from trainer.screens.painted import Painted
from trainer.screens.record import RecordScreen

SOON = 0.05
LOOKS_FOR_TERMINAL_EVERY = 2.0
ENDED_BY_SIGNAL, HANGUP = 128, 1
"""What is added to a signal's number to make the exit status, and the number that a lost terminal has."""

Start: TypeAlias = Literal["opening", "today"] | Target | Code | ClassTask | OwnTask
"""The opening, today's round, a warm-up that rises to a target, or one drill."""

DARK_THEME = Theme(
    "dark", primary="#56B4E9", background=str(DARK.screen), surface="#1C1C1C", foreground="#E6E6E6", dark=True
)
LIGHT_THEME = Theme(
    "light",
    primary="#005C91",
    background=str(LIGHT.screen),
    surface="#EDEDED",
    foreground="#1A1A1A",
    dark=False,
)


class Slantwise(App[None]):
    """The trainer; the store is open for writing as long as it runs."""

    TITLE = "Slantwise"
    CSS_PATH = "slantwise.tcss"
    ENABLE_COMMAND_PALETTE: ClassVar[bool] = False

    def __init__(
        self, store: Store, clock: Clock, start: Start = "opening", making: Making | None = None
    ) -> None:
        super().__init__()
        self.store, self.clock, self._start, self.making = store, clock, start, making or Making()
        for theme in (DARK_THEME, LIGHT_THEME):
            self.register_theme(theme)
        self.theme = "light" if store.settings.theme == "light" else "dark"

    def on_mount(self) -> None:
        """Open where the command line says."""
        self.push_screen(OpeningScreen())
        if isinstance(self._start, Target):
            self.push_screen(DrillScreen(warm_up(self.store, self.clock, self._start)))
        elif isinstance(self._start, Code):
            self.push_screen(DrillScreen(rounds.picked(self.store, self.clock, self._start)))
        elif isinstance(self._start, OwnTask):
            self.push_screen(DrillScreen(OwnRound(self._start)))
        elif isinstance(self._start, ClassTask):
            self.push_screen(DrillScreen(ClassRound(self.store, self.clock, self._start)))
        elif self._start == "today":
            self.open("today")
        elif not self.store.settings.started:
            self.push_screen(WelcomeScreen())

        if not self.is_headless and not self.is_web:
            self._end_with_the_terminal()

    def _end_with_the_terminal(self) -> None:
        """End when the system asks for it, and when there is no terminal any more."""
        for name in ("SIGTERM", "SIGHUP"):
            # Windows has not both of them, and its event loop none
            with suppress(AttributeError, NotImplementedError):
                number = getattr(signal, name)
                asyncio.get_running_loop().add_signal_handler(number, self.end_by, number)
        self.set_interval(LOOKS_FOR_TERMINAL_EVERY, self._look_for_terminal)

    def _look_for_terminal(self) -> None:
        try:
            os.get_terminal_size(sys.__stdout__.fileno() if sys.__stdout__ else -1)
        except OSError:
            self.end_by(HANGUP)

    def end_by(self, signal_number: int) -> None:
        """End as a signal asks, with the status that says so; a round of the day can be gone on with."""
        if not all(screen.is_mounted for screen in self.screen_stack):  # such a one cannot be taken down yet
            self.set_timer(SOON, partial(self.end_by, signal_number))
            return
        for screen in self.screen_stack:
            source = screen.source if isinstance(screen, DrillScreen) else None
            if isinstance(source, PracticeSession) and source.purpose == "today":
                self.remember(left=resuming.left_of(source))
        self.exit(return_code=ENDED_BY_SIGNAL + signal_number)

    def on_app_blur(self, event: AppBlur) -> None:
        """Tell the drill in hand that the person left the window; screens are not sent this event."""
        for screen in self.screen_stack:
            if isinstance(screen, DrillScreen) and screen.is_mounted:
                screen.flow.left_window()

    def open(self, way: Way) -> None:
        """Go on to a screen: over the opening, or instead of one that has done its work."""
        self._go(self._screen(way))

    def practise(self, source: DrillSource) -> None:
        """Go through drills, instead of the screen on top."""
        self._go(DrillScreen(source))

    def _go(self, screen: BaseScreen) -> None:
        if isinstance(self.screen, OpeningScreen):
            self.push_screen(screen)
        else:
            self.switch_screen(screen)

    def _screen(self, way: Way) -> BaseScreen:
        match way:
            case "warm-up":
                return WarmUpScreen()
            case "pick":
                return PickScreen()
            case "own":
                return OwnSheetsScreen()
            case "minute":
                return PickScreen(ONE_MINUTE)
            case "record":
                return RecordScreen()
            case "missed":
                return MissedScreen()
            case "lesson":
                return LessonScreen(Lesson(LESSON, self.store.settings.lesson, self._remember_page))
            case "first minutes":
                return DrillScreen(Lesson(FIRST_MINUTES))
            case "today":
                return DrillScreen(rounds.today(self.store, self.clock))
            case "placing":
                return DrillScreen(placing(self.store, self.clock))
            case "yardstick":
                return DrillScreen(yardstick.yardstick(self.store, self.clock))

    def _remember_page(self, reached: int) -> None:
        if self.store.settings.lesson != reached:
            self.remember(lesson=reached)

    def help(self, asked_from: Context) -> None:
        """Show every key, those of a screen first."""
        self.push_screen(HelpScreen(asked_from))

    def ended(self, source: DrillSource) -> None:
        """Follow up drills: after the first minutes comes the placing, after a session what came of it."""
        try:
            source.keep_rest()
        except StoreError as error:
            self.notify(str(error), severity="warning", markup=False)
        if isinstance(source, PracticeSession):
            self._session_ended(source)
        elif isinstance(source, Lesson) and source.plan is FIRST_MINUTES and not self.store.settings.started:
            self.switch_screen(WelcomeScreen(first_minutes_over=source.is_over))
        elif isinstance(source, Lesson) and source.plan is LESSON and source.is_over:
            self.switch_screen(LessonEndScreen())
        else:
            self.pop_screen()

    def _session_ended(self, session: PracticeSession) -> None:
        """Say what came of a session, or remember it where it was left and can be taken up."""
        if session.purpose == "yardstick" and not session.is_over:
            self.notify(yardstick.LEFT, markup=False)
            self.pop_screen()
            return
        left = resuming.left_of(session)
        if session.purpose == "today":
            self.remember(left=left)
        if left or not session.history.counted:
            self.pop_screen()
        else:
            self.switch_screen(EndScreen(session))

    def change_theme(self) -> None:
        """Change between dark and light, and remember it."""
        self.theme = "light" if self.theme == "dark" else "dark"
        self.remember(theme=self.theme)
        self._restyle_boards()

    def change_dots(self) -> None:
        """Change between braille dots and blocks, and remember it."""
        self.remember(blocks=self.glyphs == "braille")
        self._restyle_boards()

    def remember(self, **changes: object) -> None:
        """Change settings; where they cannot be written, they hold for this run."""
        try:
            self.store.save_settings(replace(self.store.settings, **changes))  # type: ignore[arg-type]
        except StoreError as error:
            self.notify(str(error), severity="warning", markup=False)

    @property
    def glyphs(self) -> GlyphName:
        """The signs that boards are drawn with; a Linux console has no braille."""
        blocks = self.store.settings.blocks
        if blocks is None:
            blocks = os.environ.get("TERM") == "linux"
        return "blocks" if blocks else "braille"

    def style_board(self, board: Painted) -> None:
        """Give a board the signs and colours of now."""
        board.restyle(self.glyphs, self.current_theme.dark, colour=not self.no_color)

    def _restyle_boards(self) -> None:
        for screen in self.screen_stack:
            for board in screen.query(Painted):
                self.style_board(board)


def run_app(folder: Path, clock: Clock, start: Start) -> int:
    """Run the program until it is left and return its exit status; StoreError if the folder is no use.

    So it is where answers could not be written to the end: the sentence says how many are lost.
    """
    with open_store(folder, clock.now, floors(), levels()) as store, drills_made_ahead() as making:
        app = Slantwise(store, clock, start, making)
        app.run()
        try:
            store.keep_rest()
        except StoreError as error:
            lost = number_of(store.waiting, "answer")
            raise StoreError(f"{lost} could not be kept to the end: {error}") from None
    return app.return_code or 0
