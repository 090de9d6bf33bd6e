"""How one cell of a board is drawn: what its ink stands for, its mark, and whether the cursor is there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple


class Ink(StrEnum):
    """What the dots or the sign of a cell stand for."""

    GRID = "grid"
    SHADE = "shade"
    HATCH = "hatch"
    PAPER = "paper"
    CREASE = "crease"
    MOUNTAIN = "mountain"
    VALLEY = "valley"
    MOUNTAIN_LETTER = "mountain letter"
    VALLEY_LETTER = "valley letter"
    SIGN = "sign"
    REASON = "reason"
    POINT = "point"
    LIT = "lit"
    FAULT = "fault"
    CURSOR = "cursor"
    LETTER = "letter"
    FIGURE = "figure"


class Mark(StrEnum):
    """What a person chose, or what the verdict says of it."""

    NONE = "none"
    MARKED = "marked"
    RIGHT = "right"
    MISSED = "missed"
    WRONG = "wrong"
    PASSED = "passed over"


SIGNS = {Mark.MARKED: "*", Mark.RIGHT: "+", Mark.MISSED: "!", Mark.WRONG: "×"}  # noqa: RUF001  (the sign, not the letter)


class Style(NamedTuple):
    """The style of one cell; a palette turns it into colours and attributes."""

    ink: Ink
    mark: Mark = Mark.NONE
    cursor: bool = False


class Span(NamedTuple):
    """A run of characters of one style."""

    text: str
    style: Style


PLAIN_STYLES = {ink: Style(ink) for ink in Ink}


class Paint(NamedTuple):
    """Colours as #RRGGBB (None: the screen's own) and the attributes of a terminal."""

    foreground: str | None = None
    background: str | None = None
    bold: bool = False
    dim: bool = False
    reverse: bool = False
    underline: bool = False


@dataclass(frozen=True)
class Palette:
    """Paints of inks, marks and the cursor; ``screen`` is the background they were chosen for."""

    screen: str | None
    inks: Mapping[Ink, Paint]
    marks: Mapping[Mark, Paint]
    cursor: Paint
    cursor_on_mark: Paint

    def paint(self, style: Style) -> Paint:
        """Return how a style is painted: the ink, over it the mark, over that the cursor."""
        ink = self.inks[style.ink]
        if style.mark is Mark.NONE:
            return _over(ink, self.cursor) if style.cursor else ink
        marked = _over(ink, self.marks[style.mark])
        return _over(marked, self.cursor_on_mark) if style.cursor else marked


def _over(under: Paint, upper: Paint) -> Paint:
    return Paint(
        upper.foreground or under.foreground,
        upper.background or under.background,
        under.bold or upper.bold,
        (under.dim or upper.dim) and not upper.bold,
        under.reverse or upper.reverse,
        under.underline or upper.underline,
    )


DARK = Palette(
    screen="#121212",
    inks={
        Ink.GRID: Paint("#858585"),
        Ink.SHADE: Paint("#D9A679"),
        Ink.HATCH: Paint("#7FA8E0"),
        Ink.PAPER: Paint("#9A9A9A"),
        Ink.CREASE: Paint("#DDDDDD"),
        Ink.MOUNTAIN: Paint("#E69F00"),
        Ink.VALLEY: Paint("#56B4E9"),
        Ink.MOUNTAIN_LETTER: Paint("#FFC65C"),
        Ink.VALLEY_LETTER: Paint("#9AD6FA"),
        Ink.SIGN: Paint("#FFFFFF", bold=True),
        Ink.REASON: Paint("#EBB0D2", bold=True),
        Ink.POINT: Paint("#FFFFFF", bold=True),
        Ink.LIT: Paint("#F0E442", bold=True),
        Ink.FAULT: Paint("#F0E442", bold=True),
        Ink.CURSOR: Paint("#FFFFFF", bold=True, reverse=True),
        Ink.LETTER: Paint("#F0E442", bold=True, reverse=True),
        Ink.FIGURE: Paint("#56B4E9"),
    },
    marks={
        Mark.MARKED: Paint(background="#5A2E4A", bold=True),
        Mark.RIGHT: Paint("#3DDC97", bold=True),
        Mark.MISSED: Paint("#F0E442", bold=True),
        Mark.WRONG: Paint("#FF7A52", bold=True),
        Mark.PASSED: Paint("#6A6A6A"),
    },
    cursor=Paint("#FFFFFF", "#5A5A5A", bold=True),
    cursor_on_mark=Paint("#FFFFFF", reverse=True),
)

LIGHT = Palette(
    screen="#E0E0E0",
    inks={
        Ink.GRID: Paint("#787878"),
        Ink.SHADE: Paint("#8A4B12"),
        Ink.HATCH: Paint("#2A5FA5"),
        Ink.PAPER: Paint("#5F5F5F"),
        Ink.CREASE: Paint("#222222"),
        Ink.MOUNTAIN: Paint("#B34D00"),
        Ink.VALLEY: Paint("#005C91"),
        Ink.MOUNTAIN_LETTER: Paint("#8A3A00"),
        Ink.VALLEY_LETTER: Paint("#00466E"),
        Ink.SIGN: Paint("#000000", bold=True),
        Ink.REASON: Paint("#8A3A66", bold=True),
        Ink.POINT: Paint("#000000", bold=True),
        Ink.LIT: Paint("#6A00A8", bold=True),
        Ink.FAULT: Paint("#8A1C00", bold=True),
        Ink.CURSOR: Paint("#000000", bold=True, reverse=True),
        Ink.LETTER: Paint("#6A00A8", bold=True, reverse=True),
        Ink.FIGURE: Paint("#005C91"),
    },
    marks={
        Mark.MARKED: Paint(background="#F2C6DF", bold=True),
        Mark.RIGHT: Paint("#00613F", bold=True),
        Mark.MISSED: Paint("#6A00A8", bold=True),
        Mark.WRONG: Paint("#A8320A", bold=True),
        Mark.PASSED: Paint("#7E7E7E"),
    },
    cursor=Paint("#000000", "#A8A8A8", bold=True),
    cursor_on_mark=Paint("#000000", reverse=True),
)

COLOURLESS = Palette(
    screen=None,
    inks={
        **{ink: Paint() for ink in Ink},
        Ink.GRID: Paint(dim=True),
        Ink.SIGN: Paint(bold=True),
        Ink.POINT: Paint(bold=True),
        Ink.LIT: Paint(bold=True, underline=True),
        Ink.REASON: Paint(bold=True),
        Ink.FAULT: Paint(bold=True),
        Ink.CURSOR: Paint(bold=True, reverse=True),
        Ink.LETTER: Paint(bold=True, reverse=True),
    },
    marks={
        Mark.MARKED: Paint(underline=True),
        Mark.RIGHT: Paint(bold=True),
        Mark.MISSED: Paint(bold=True),
        Mark.WRONG: Paint(bold=True),
        Mark.PASSED: Paint(dim=True),
    },
    cursor=Paint(reverse=True),
    cursor_on_mark=Paint(reverse=True),
)
