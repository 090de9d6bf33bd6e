"""The window on a sheet: the whole of it where it fits, else a part that can be moved and zoomed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from drills.geometry import Point
from drills.pattern import CreasePattern
from trainer.board.raster import DOTS_ACROSS, DOTS_DOWN, Cell, Dot
from trainer.board.scale import PANNED_DOTS, Scale, middle_of, scale_around, scale_for

STEPS = (5, 6, 8, 10, 12, 16, 20, 24)
"""The dots per square that zooming goes through."""
MARGIN = 2
"""How many squares the cursor keeps from the window's rim, a quarter of the window at most."""


class Room(NamedTuple):
    """The columns and rows that a board may take."""

    columns: int
    rows: int


@dataclass(frozen=True)
class Window:
    """A sheet in a room, the point in the middle of what is shown, and the dots per square asked for.

    Without ``dots`` the sheet is shown whole where it fits, else at ``PANNED_DOTS``; it is never
    shown smaller than it need be to be whole.
    """

    pattern: CreasePattern
    room: Room
    middle: Point
    dots: int | None = None

    @cached_property
    def scale(self) -> Scale:
        """The scale of what is shown."""
        whole = scale_for(self.pattern, *self.room)
        if isinstance(whole, Scale) and (self.dots or 0) <= whole.dots:
            return whole
        return scale_around(self.pattern, *self.room, self.middle, self.dots or PANNED_DOTS)

    def panned(self, across: int, down: int) -> Window:
        """Return the window moved by so many columns to the right and rows down, as far as the sheet goes."""
        middle = middle_of(self.scale.columns, self.scale.rows)
        return self._with_middle(Cell(middle.column + across, middle.row + down))

    def zoomed(self, closer: bool, at: Cell | None = None) -> Window:
        """Return the window one step closer or farther, what is at the cell (or the middle) kept there."""
        dots = self._next_dots(closer)
        if dots == self.scale.dots:
            return self
        kept = self.scale.point(_dot(at or middle_of(self.scale.columns, self.scale.rows)))
        part = scale_around(self.pattern, *self.room, kept, dots, at)
        zoomed = replace(self, middle=_middle(part), dots=dots)
        usual = replace(zoomed, dots=None)
        return usual if usual.scale == zoomed.scale else zoomed

    def centred(self, point: Point) -> Window:
        """Return the window with the point in its middle, as far as the sheet goes."""
        return self._with_middle(self.scale.cell(point))

    def holding(self, point: Point) -> Window:
        """Return the window moved as little as it takes to have the point within its margin."""
        scale = self.scale
        sizes, dots = (scale.columns, scale.rows), (DOTS_ACROSS, DOTS_DOWN)
        moves = [
            _least_move(at, size, min(MARGIN * scale.dots // per_cell, size // 4))
            for at, size, per_cell in zip(scale.cell(point), sizes, dots, strict=True)
        ]
        return self.panned(*moves)

    def resized(self, room: Room, watched: Point | None = None) -> Window:
        """Return the window in another room, a watched point kept in view if it was."""
        resized = replace(self, room=room)
        return resized.holding(watched) if watched and self.scale.shows(watched) else resized

    @property
    def cells_a_square(self) -> tuple[int, int]:
        """The columns and rows of a square, rounded up."""
        return -(-self.scale.dots // DOTS_ACROSS), -(-self.scale.dots // DOTS_DOWN)

    @property
    def key_step(self) -> tuple[int, int]:
        """The columns and rows that a key moves the window by: about a quarter of it, in whole squares."""
        columns, rows = self.cells_a_square
        squares = max(1, self.scale.columns // 4 // columns), max(1, self.scale.rows // 4 // rows)
        return squares[0] * columns, squares[1] * rows

    def _with_middle(self, cell: Cell) -> Window:
        if self.scale.is_whole:
            return self
        there = scale_around(self.pattern, *self.room, self.scale.point(_dot(cell)), self.scale.dots)
        return replace(self, middle=_middle(there))

    def _next_dots(self, closer: bool) -> int:
        """Return the next step of zooming, the same where there is none; it ends at the whole sheet."""
        whole = scale_for(self.pattern, *self.room)
        least = whole.dots if isinstance(whole, Scale) else STEPS[0]
        now = self.scale.dots
        if closer:
            return min((dots for dots in STEPS if dots > now), default=now)
        return max((dots for dots in (least, *STEPS) if least <= dots < now), default=now)


def window_on(pattern: CreasePattern, room: Room) -> Window:
    """Return the window on a sheet as it opens: the whole of it, or its middle."""
    left, bottom, right, top = pattern.box
    return Window(pattern, room, halfway(Point(left, bottom), Point(right, top)))


def halfway(one: Point, other: Point) -> Point:
    """Return the middle between two points."""
    return Point(Fraction(one.x + other.x) / 2, Fraction(one.y + other.y) / 2)


def _least_move(at: int, size: int, margin: int) -> int:
    return min(at - margin, 0) + max(at - (size - 1 - margin), 0)


def _dot(cell: Cell) -> Dot:
    return Dot(cell.column * DOTS_ACROSS, cell.row * DOTS_DOWN)


def _middle(scale: Scale) -> Point:
    return scale.point(_dot(middle_of(scale.columns, scale.rows)))
