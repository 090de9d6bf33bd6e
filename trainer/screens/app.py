"""The program on the screen: which screen follows which."""

from __future__ import annotations

import os
from dataclasses import replace
from typing import ClassVar, Literal, TypeAlias

from textual.app import App
from textual.events import AppBlur
from textual.theme import Theme

from drills.questions import Code
from progress_store import Store, StoreError
from trainer.board import DARK, LIGHT, GlyphName
from trainer.clock import Clock
from trainer.practice import rounds, yardstick
from trainer.practice.drill_source import DrillSource
from trainer.practice.first_minutes import Walk
from trainer.practice.lesson import Lesson
from trainer.practice.resume import left_of
from trainer.practice.session import PracticeSession
from trainer.practice.warm_up import Target, warm_up
from trainer.screens.board_view import BoardView
from trainer.screens.drill import DrillScreen
from trainer.screens.end import EndScreen
from trainer.screens.lesson import LessonEndScreen
from trainer.screens.opening import OpeningScreen
from trainer.screens.welcome import WelcomeScreen

Start: TypeAlias = Literal["opening"] | Target | Code
"""The opening, a warm-up that rises to a target, or one drill."""

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

    def __init__(self, store: Store, clock: Clock, start: Start = "opening") -> None:
        super().__init__()
        self.store, self.clock, self._start = store, clock, start
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
        elif not self.store.settings.started:
            self.push_screen(WelcomeScreen())

    def on_app_blur(self, event: AppBlur) -> None:
        """Tell the drill in hand that the person left the window; screens are not sent this event."""
        for screen in self.screen_stack:
            if isinstance(screen, DrillScreen):
                screen.timing.left()

    def ended(self, sitting: DrillSource) -> None:
        """Follow up a sitting: after the first walk comes placing, after a round what came of it."""
        try:
            sitting.keep_rest()
        except StoreError as error:
            self.notify(str(error), severity="warning", markup=False)
        if isinstance(sitting, Walk) and not self.store.settings.started:
            self.switch_screen(WelcomeScreen(walked=sitting.is_over))
        elif isinstance(sitting, PracticeSession):
            self._round_ended(sitting)
        elif isinstance(sitting, Lesson) and sitting.is_over:
            self.switch_screen(LessonEndScreen())
        else:
            self.pop_screen()

    def _round_ended(self, round_: PracticeSession) -> None:
        """Say what came of a round, or remember it where it was left and can be taken up."""
        if round_.tells_at_end and not round_.is_over:
            self.notify(yardstick.LEFT, markup=False)
            self.pop_screen()
            return
        left = left_of(round_)
        if round_.purpose == "today":
            self.remember(left=left)
        if left or not round_.session.counted:
            self.pop_screen()
        else:
            self.switch_screen(EndScreen(round_))

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

    def style_board(self, board: BoardView) -> None:
        """Give a board the signs and colours of now."""
        board.restyle(self.glyphs, self.current_theme.dark, colour=not self.no_color)

    def _restyle_boards(self) -> None:
        for screen in self.screen_stack:
            for board in screen.query(BoardView):
                self.style_board(board)
