"""How one cell of a board is drawn: what its ink stands for, its mark, and whether the cursor is there."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple


class Ink(StrEnum):
    """What the dots or the sign of a cell stand for."""

    GRID = "grid"
    SHADE = "shade"
    PAPER = "paper"
    CREASE = "crease"
    MOUNTAIN = "mountain"
    VALLEY = "valley"
    MOUNTAIN_LETTER = "mountain letter"
    VALLEY_LETTER = "valley letter"
    SIGN = "sign"
    STEPS = "steps"
    POINT = "point"
    LIT = "lit"
    FAULT = "fault"
    CURSOR = "cursor"


class Mark(StrEnum):
    """What a person chose, or what the verdict says of it."""

    NONE = "none"
    MARKED = "marked"
    RIGHT = "right"
    MISSED = "missed"
    WRONG = "wrong"


SIGNS = {Mark.MARKED: "*", Mark.RIGHT: "+", Mark.MISSED: "?", Mark.WRONG: "×"}  # noqa: RUF001  (the sign, not the letter)


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
