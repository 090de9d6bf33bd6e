"""Beside the board: what is said of the drill, and where the window is on a sheet not shown whole."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import chain
from textwrap import wrap

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Click, Resize
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from drills.geometry import Point
from drills.pattern import CreasePattern
from trainer.actions import Action, window_line
from trainer.board import (
    GLYPHS,
    RULER_COLUMNS,
    Look,
    OverviewRow,
    Plan,
    columns_to_look_over,
    draw_overview,
    plan_of,
)
from trainer.practice.panel_text import Line, NumberField, PanelText
from trainer.screens.base_screen import GAP, key_words, link
from trainer.screens.board_view import BoardView

PLACE, NO_BREAK = re.compile(r"\([^()]*;[^()]*\)"), "\u00a0"
STYLES = {"plain": "", "bold": "bold", "notice": "bold italic"}


class Panel(VerticalScroll, can_focus=False):
    """Text beside the board; nothing in it takes the keys away from the drill."""

    def __init__(self) -> None:
        super().__init__(Static("", id="panel-text"), id="panel")
        self.text: PanelText = ()

    def show(self, text: PanelText) -> None:
        """Show what is said, from its beginning."""
        self.text = text
        self._write()
        self.scroll_home(animate=False)

    def on_resize(self, event: Resize) -> None:
        """Fit the lines to the new width."""
        self._write()

    def _write(self) -> None:
        columns = self.scrollable_content_region.width
        lines = (_styled(line, columns) for line in self.text)
        self.query_one("#panel-text", Static).update(Content("\n").join(lines))


def wrapped(words: str, columns: int) -> str:
    """Return words in lines of so many columns; a place such as (10; 4 1/2) stays in one line."""
    unbroken = PLACE.sub(lambda place: place[0].replace(" ", NO_BREAK), words)
    # textwrap breaks at no other space; lines that are short enough keep theirs
    lines = (
        wrap(line, columns, break_on_hyphens=False) if len(line) > columns else [line]
        for line in unbroken.split("\n")
    )
    return "\n".join(chain.from_iterable(lines))


def _styled(line: Line | NumberField, columns: int) -> Content:
    if isinstance(line, Line):
        words = wrapped(line.words, columns) if columns else line.words
        return Content.styled(words, STYLES[line.weight]) if words else Content("")
    number = f"{line.number}_" if line.waits else f"{line.number or '_':>2}"
    return Content.assemble(
        "> " if line.is_in_hand else "  ",
        link("[-]", f"change({line.field}, -1)"),
        " ",
        (number, "bold reverse" if line.is_in_hand else "bold"),
        " ",
        link("[+]", f"change({line.field}, 1)"),
        " ",
        line.name,
    )


FRAME = PADDING = 1
SMALL_DOTS = 6
LEAST_ROWS = 18
"""Below so many rows beside the board the drawing is left out, so that the question can be read."""


OF_WHOLE_SHEETS = ("zoom", "whole")
"""The actions on the window that do something for a sheet in view."""
SIDE_COLUMNS, NARROW_COLUMNS = 33, 22
"""The columns beside the board, its rule among them, and those where a sheet would else not be seen whole."""


class Side(Vertical):
    """Panel and overview; narrow where a sheet that is to be looked over is then in view as a whole."""

    def __init__(self) -> None:
        super().__init__(id="side")

    def compose(self) -> ComposeResult:
        """Yield both."""
        yield Panel()
        yield Overview()

    def make_room_for(self, pattern: CreasePattern, look: Look) -> None:
        """Become narrow or as wide as usual."""
        self.styles.width = side_columns(pattern, look, self.screen.size.width)


def side_columns(pattern: CreasePattern, look: Look, columns: int) -> int:
    """Return the columns beside the board in a window of so many columns."""
    left = columns - RULER_COLUMNS - columns_to_look_over(pattern)
    return NARROW_COLUMNS if look.scanned and NARROW_COLUMNS <= left < SIDE_COLUMNS else SIDE_COLUMNS


def _drawn(rows: list[OverviewRow]) -> list[Content]:
    """Return the overview's rows, what the window shows in reverse."""
    return [Content.assemble(*((text, "reverse" if shown else "") for text, shown in row)) for row in rows]


def _key_lines(keys: list[Action], columns: int) -> list[Content]:
    """Return the keys in lines of so many columns."""
    lines: list[list[Action]] = [[]]
    for key in keys:
        if cell_len(GAP.join(other.line for other in [*lines[-1], key])) > columns:
            lines.append([])
        lines[-1].append(key)
    return [Content(GAP).join(map(key_words, line)) for line in lines]


class Overview(Static):
    """The sheet in small with the window on it, and the keys that move the window."""

    @dataclass
    class Pointed(Message):
        """The mouse pointed at a point of the sheet."""

        point: Point

    def __init__(self) -> None:
        super().__init__("", id="overview")
        self.display = False
        self._is_brief = False
        self._shown: BoardView.Shown | None = None
        self._plan: Plan | None = None

    def be_brief(self, brief: bool) -> None:
        """Leave out the drawing, or draw again."""
        if brief != self._is_brief:
            self._is_brief = brief
            if self._shown:
                self.show(self._shown)

    def show(self, shown: BoardView.Shown) -> None:
        """Show where the window of a board is; of a whole sheet that is small only that it can be larger.

        Nothing is drawn while it is to be brief, as the panel then has more to say.
        """
        self._shown, scale = shown, shown.scale
        self.display = not scale.is_whole or scale.dots <= SMALL_DOTS
        is_drawn = self._has_room and not self._is_brief and not scale.is_whole
        columns = self.parent.size.width - 2 * PADDING if isinstance(self.parent, Widget) else 0
        self._plan = plan_of(scale.box, columns - 2 * FRAME) if is_drawn else None
        lines = []
        if self._plan:
            lines = _drawn(draw_overview(shown.pattern, shown.look, scale, GLYPHS[shown.glyphs], self._plan))
        keys = [key for key in window_line() if key.name in OF_WHOLE_SHEETS or not scale.is_whole]
        self.update(Content("\n").join([*lines, *_key_lines(keys, columns)]))

    @property
    def _has_room(self) -> bool:
        return isinstance(self.parent, Widget) and self.parent.size.height >= LEAST_ROWS

    def on_click(self, event: Click) -> None:
        """Tell which point of the sheet was clicked, if any."""
        at = event.get_content_offset(self)
        if at is not None and self._plan:
            column, row = at.x - FRAME, at.y - FRAME
            if 0 <= column < self._plan.columns and 0 <= row < self._plan.rows:
                self.post_message(self.Pointed(self._plan.point(column, row)))
