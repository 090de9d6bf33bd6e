"""What a screen needs of the running program, so that no screen has to know the app or another screen."""

from __future__ import annotations

from typing import Literal, Protocol, TypeAlias

from progress_store import Store
from trainer.actions import Context
from trainer.clock import Clock
from trainer.practice.drill_source import DrillSource
from trainer.screens.board_view import BoardView

Way: TypeAlias = Literal[
    "today", "first minutes", "placing", "warm-up", "pick", "lesson", "record", "yardstick"
]
"""Where one can go from a screen."""


class Program(Protocol):
    """The running program; it alone knows which screen follows which."""

    store: Store
    clock: Clock

    def open(self, way: Way) -> None:
        """Go on to a screen; it follows a screen that has done its work."""

    def practise(self, source: DrillSource) -> None:
        """Go through drills, instead of the screen on top."""

    def ended(self, source: DrillSource) -> None:
        """Follow up drills that are over or were left."""

    def help(self, asked_from: Context) -> None:
        """Show every key, those of a screen first."""

    def remember(self, **changes: object) -> None:
        """Change settings."""

    def change_theme(self) -> None:
        """Change between dark and light."""

    def change_dots(self) -> None:
        """Change between braille dots and blocks."""

    def style_board(self, board: BoardView) -> None:
        """Give a board the signs and colours of now."""
