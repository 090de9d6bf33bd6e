"""A page to be written as SVG or PDF: straight lines, filled areas and words, in millimetres.

x runs to the right and y down from the page's top left corner. Ink is a grey from 0 (black) to 1
(white): what is told here must be told on a printer without colour.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, NamedTuple, TypeAlias

At: TypeAlias = tuple[float, float]
Anchor: TypeAlias = Literal["start", "middle", "end"]


class Stroke(NamedTuple):
    """How a line is drawn: its width, its dashes (on, off, on, off ...), its grey, and where dashes begin.

    ``phase`` millimetres of the dashes lie before the line's start, so that a line cut in two goes on.
    """

    width: float
    dashes: tuple[float, ...] = ()
    grey: float = 0.0
    phase: float = 0.0


class Box(NamedTuple):
    """A rectangle of a page."""

    left: float
    top: float
    right: float
    bottom: float


class Drawn(NamedTuple):
    """A line through points."""

    points: tuple[At, ...]
    stroke: Stroke


class Filled(NamedTuple):
    """An area within corners."""

    corners: tuple[At, ...]
    grey: float


class Spot(NamedTuple):
    """A round spot."""

    at: At
    radius: float


class Words(NamedTuple):
    """One line of words; ``at`` is the left end of its base line, its middle or its right end."""

    at: At
    text: str
    size: float = 3.5
    anchor: Anchor = "start"


Item: TypeAlias = Drawn | Filled | Spot | Words


@dataclass
class Page:
    """A page, made by adding items; those added later lie on those before."""

    width: float
    height: float
    title: str
    items: list[Item] = field(default_factory=list)

    def line(self, start: At, end: At, stroke: Stroke) -> None:
        """Add a straight line."""
        self.items.append(Drawn((start, end), stroke))

    def say(self, at: At, text: str, size: float = 3.5, anchor: Anchor = "start") -> None:
        """Add a line of words."""
        self.items.append(Words(at, text, size, anchor))
