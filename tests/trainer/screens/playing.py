"""The program run without a terminal: keys, clicks, time that the test moves, and what is shown."""

from __future__ import annotations

import json
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from pathlib import Path
from time import monotonic
from typing import Any, TypeVar

from textual.content import Content
from textual.events import AppBlur, AppFocus, Key, MouseDown, MouseUp
from textual.pilot import Pilot
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Static

from drills.geometry import Point
from drills.questions import Code, Drill, skill_names
from progress_store import Settings, Store, open_store
from tests.trainer.practice.making import attempt
from trainer.board import Scale, scale_for
from trainer.given import Clock
from trainer.practice.attempts import floors, levels
from trainer.practice.making import Making
from trainer.practice.panel_text import Line
from trainer.screens.app import Slantwise, Start
from trainer.screens.base_screen import BaseScreen, KeyLine
from trainer.screens.board_view import BoardView
from trainer.screens.drill import DrillScreen
from trainer.screens.side import Panel

MONDAY = datetime(2026, 3, 2, 19, 30, tzinfo=timezone(timedelta(hours=1)))
DEADLINE = 20.0
READ, PLACE = Code("steps", 1, 3), Code("steps", 1, 3, form="place")
MARK, POINTS, JOIN = (Code("sinks", 1, 7, form=form) for form in ("", "points", "join"))
LABELS, NOTHING_WRONG = Code("labels", 2, 1), Code("labels", 1, 4)
FIND = Code("find", 2, 3)
SETTLED = Settings(started=True)
WAITING = Settings(started=True, go_on_after_right=False)
OfScreen = TypeVar("OfScreen", bound=BaseScreen)


@dataclass
class Time:
    """A clock that stands still until the test lets seconds pass."""

    seconds: float = 0.0

    @property
    def clock(self) -> Clock:
        """The clock to be given to the program."""
        return Clock(lambda: MONDAY + timedelta(seconds=self.seconds), lambda: self.seconds)


@dataclass
class Play:
    """The running program, its store, and hands and eyes for it."""

    app: Slantwise
    store: Store
    folder: Path
    time: Time
    pilot: Pilot[None]

    @property
    def screen(self) -> BaseScreen:
        """The screen on top."""
        assert isinstance(self.app.screen, BaseScreen)
        return self.app.screen

    def at(self, kind: type[OfScreen]) -> OfScreen:
        """Return the screen on top, which must be of this kind."""
        assert isinstance(self.app.screen, kind)
        return self.app.screen

    @property
    def drill(self) -> Drill:
        """The drill in hand."""
        return self.at(DrillScreen).flow.drill

    @property
    def board(self) -> BoardView:
        """The board on top."""
        return self.screen.query_one(BoardView)

    async def settle(self) -> None:
        """Wait until what is on the way has arrived: from program to screen, back, and to the widgets."""
        for _ in range(4):
            await self.pilot.pause(0)

    async def until(self, so: Callable[[], bool]) -> None:
        """Wait until something is so; it must become so in twenty seconds."""
        end = monotonic() + DEADLINE
        while not so():
            assert monotonic() < end, f"still on {self.app.screen}: {self.said}"
            await self.pilot.pause(0.01)

    async def keys(self, *names: str) -> None:
        """Press keys, a tenth of a second apart."""
        for name in names:
            self.time.seconds += 0.1
            self.app.post_message(Key(name, name if len(name) == 1 else None))
            await self.settle()

    async def burst(self, *names: str) -> None:
        """Press keys of one screen, all at the same moment."""
        for name in names:
            self.app.post_message(Key(name, name if len(name) == 1 else None))
        await self.settle()

    async def leave_window(self) -> None:
        """Let another window of the desktop take the keys, and come back."""
        for message in (AppBlur(), AppFocus()):
            self.app.post_message(message)
            await self.settle()

    async def click(self, widget: Widget, column: int, row: int) -> None:
        """Click on a cell of what a widget holds, a tenth of a second after what was before."""
        self.time.seconds += 0.1
        x, y = widget.region.offset + widget.content_offset + (column, row)
        for kind in (MouseDown, MouseUp):
            self.app.post_message(kind(None, x, y, 0, 0, 1, False, False, False, x, y))
        await self.settle()

    async def click_words(self, widget: Widget, words: str) -> None:
        """Click in the middle of words that a widget shows."""
        lines = [widget.render_line(row).text for row in range(widget.size.height)]
        row = next(row for row, line in enumerate(lines) if words in line)
        await self.click(widget, lines[row].index(words) + len(words) // 2, row)

    async def click_key(self, words: str) -> None:
        """Click on words of the line of keys."""
        await self.click_words(self.screen.query_one(KeyLine), words)

    async def click_point(self, point: Point) -> None:
        """Click on the cell of the board that holds a point."""
        scale, (left, top) = self.scale, self.corner
        column, row = scale.cell(point)
        await self.click(self.board, left + column, top + row)

    @property
    def page(self) -> Widget:
        """The text of a screen without a board."""
        return self.screen.query_one(".page")

    @property
    def scale(self) -> Scale:
        """The scale of the board on top."""
        scale = scale_for(self.drill.pattern, *self.board.room)
        assert isinstance(scale, Scale)
        return scale

    @property
    def corner(self) -> tuple[int, int]:
        """The column and row of the board's widget where the sheet begins."""
        return self.board.corner(self.scale)

    @property
    def said(self) -> str:
        """All that the screen on top says in words, on one line."""
        return " ".join(" ".join(map(words_of, self.screen.query(Static))).split())

    @property
    def panel(self) -> list[str]:
        """The lines of the panel beside the board, those that say something, before they are wrapped."""
        lines = (line for line in self.screen.query_one(Panel).text if isinstance(line, Line))
        return [words for line in lines for words in line.words.splitlines() if words.strip()]

    @property
    def told(self) -> str:
        """What the opening tells of the store's files."""
        return words_of(self.screen.query_one("#told", Static))

    @property
    def noted(self) -> str:
        """What is noted in passing, over the screen."""
        return " ".join(note.message for note in self.app._notifications)

    @property
    def too_small(self) -> str:
        """What is said instead of the screen in too small a window; empty where it is large enough."""
        widget = self.screen.query_one("#too-small", Static)
        return words_of(widget) if widget.display else ""

    @property
    def strips(self) -> list[Strip]:
        """The rows of the window as they are drawn."""
        return self.screen._compositor.render_strips()

    def drawing(self) -> str:
        """Return the signs of the board, row by row."""
        return "\n".join(self.board.render_line(row).text for row in range(self.board.size.height))

    def log(self) -> list[dict[str, Any]]:
        """Return the lines of the log on the disk."""
        log = self.folder / "attempts.jsonl"
        return [json.loads(line) for line in log.read_text().splitlines()] if log.exists() else []

    def settings_on_disk(self) -> dict[str, Any]:
        """Return what the settings file holds."""
        found: dict[str, Any] = json.loads((self.folder / "settings.json").read_text())
        return found


def words_of(widget: Static) -> str:
    """Return the words of a widget without their styles."""
    content = widget.content
    return content.plain if isinstance(content, Content) else str(content)


@asynccontextmanager
async def playing(
    folder: Path,
    start: Start = "opening",
    *,
    settings: Settings | None = SETTLED,
    size: tuple[int, int] = (80, 24),
    notes: bool = False,
    known: bool = False,
    making: Making | None = None,
    days_later: int = 0,
) -> AsyncIterator[Play]:
    """Run the program on a data folder with these settings, or those of the folder if None.

    Where something is ``known``, every skill was met five days ago, so that nothing is new.
    """
    time = Time(days_later * 24 * 60 * 60)
    with open_store(folder, time.clock.now, floors(), levels()) as store:
        for number, skill in enumerate(skill_names() if known else ()):
            store.keep(attempt(skill, MONDAY.date() - timedelta(days=5), number))
        if settings is not None:
            store.save_settings(settings)
        app = Slantwise(store, time.clock, start, making)
        async with app.run_test(size=size, notifications=notes) as pilot:
            play = Play(app, store, folder, time, pilot)
            await play.settle()
            yield play
