"""The window on a sheet: the whole of it or a part, moved and zoomed by a person, or going by itself.

By itself it goes to the question first, then after the cursor, at last to the verdict.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import chain
from math import ceil
from typing import NamedTuple, TypeAlias

from drills.geometry import Point
from drills.pattern import CreasePattern
from trainer.board.look import NOTHING, Look, Marked
from trainer.board.raster import DOTS_ACROSS, DOTS_DOWN, Cell, Dot, cells_for, line_dots, masks_of
from trainer.board.scale import LEAST_DOTS, PANNED_DOTS, SCAN_DOTS, Scale, middle_of, scale_around, scale_for

STEPS = (3, 5, 6, 8, 10, 12, 16, 20, 24)
"""The dots per square that zooming goes through."""
MARGIN = 2
"""How many squares the cursor keeps from the window's rim, a quarter of the window at most."""
LABEL_DOTS, CLOSE_DOTS = 8, 10
"""With fewer dots a square than the first, some creases lie all under others, and lines cannot be thick
beside shaded parts; with the second, no crease does."""

Thing: TypeAlias = tuple[Point, Point]
"""A crease by its ends, or a point, both ends of which are the same."""


class Room(NamedTuple):
    """The columns and rows that a board may take."""

    columns: int
    rows: int


@dataclass(frozen=True)
class Window:
    """A sheet in a room, the point in the middle of what is shown, and the dots per square asked for.

    Without ``dots`` the sheet is shown whole where it is legible so, else at ``PANNED_DOTS``; it is
    never shown smaller than it need be to be whole.
    """

    pattern: CreasePattern
    room: Room
    middle: Point
    dots: int | None = None

    @cached_property
    def scale(self) -> Scale:
        """The scale of what is shown."""
        whole = scale_for(self.pattern, *self.room, SCAN_DOTS)
        if isinstance(whole, Scale) and (self.dots or LEAST_DOTS) <= whole.dots:
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

    def whole_or_close(self, at: Point | None = None) -> Window:
        """Return the window on as much of the sheet as can be looked over, from there close to a place."""
        far, now = replace(self, dots=self._least_dots), self.scale.dots
        if now > far.scale.dots:
            return far
        return replace(self, dots=max(CLOSE_DOTS, self._next_dots(closer=True))).centred(at or self.middle)

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

    @property
    def _least_dots(self) -> int:
        """The least dots per square: the sheet is whole, or can at least be looked over."""
        whole = scale_for(self.pattern, *self.room, SCAN_DOTS)
        return whole.dots if isinstance(whole, Scale) else SCAN_DOTS

    def _next_dots(self, closer: bool) -> int:
        """Return the next step of zooming, the same where there is none; it ends at the whole sheet."""
        least, now = self._least_dots, self.scale.dots
        if closer:
            return min((dots for dots in STEPS if dots > now), default=now)
        return max((dots for dots in (least, *STEPS) if least <= dots < now), default=now)


def window_on(pattern: CreasePattern, room: Room) -> Window:
    """Return the window on a sheet as it opens: the whole of it, or its middle."""
    left, bottom, right, top = pattern.box
    return Window(pattern, room, halfway(Point(left, bottom), Point(right, top)))


def columns_to_look_over(pattern: CreasePattern) -> int:
    """Return the columns that a whole sheet takes at the scale at which it can be looked over."""
    left, _, right, _ = pattern.box
    return cells_for(ceil((right - left) * SCAN_DOTS) + 1, 1)[0]


def halfway(one: Point, other: Point) -> Point:
    """Return the middle between two points."""
    return Point(Fraction(one.x + other.x) / 2, Fraction(one.y + other.y) / 2)


def _least_move(at: int, size: int, margin: int) -> int:
    return min(at - margin, 0) + max(at - (size - 1 - margin), 0)


def _dot(cell: Cell) -> Dot:
    return Dot(cell.column * DOTS_ACROSS, cell.row * DOTS_DOWN)


def _middle(scale: Scale) -> Point:
    return scale.point(_dot(middle_of(scale.columns, scale.rows)))


def opened(pattern: CreasePattern, room: Room, look: Look, is_fine: bool = True) -> Window:
    """Return the window on a sheet that is shown anew: on what is asked, its start above all.

    Without ``is_fine`` dots a sheet cannot be looked over at the smallest scale; it opens closer.
    """
    window = window_on(pattern, room)
    if look.labels and window.scale.dots < LABEL_DOTS:
        window = replace(window, dots=CLOSE_DOTS)
    elif look.scanned:
        window = replace(window, dots=SCAN_DOTS if is_fine else LEAST_DOTS)
    for thing in asked(pattern, look)[:1]:
        return _on(window, thing)
    return window


def followed(window: Window, before: Look, look: Look) -> Window:
    """Return the window after a change of the look.

    It goes after a cursor that has moved; to a verdict that has come, until all that it says first is
    in view: what was missed, else what was too many, out of balance, right. Shaded parts are shown
    from closer by where they are small and all that is judged fits.
    """
    told = _told(window.pattern, look)
    if told and told != _told(window.pattern, before):
        if look.shaded and window.scale.dots < LABEL_DOTS:
            return _on_all(replace(window, dots=LABEL_DOTS), [*chain.from_iterable(told)], SCAN_DOTS)
        return _on_all(window, told[0], LABEL_DOTS if look.labels else SCAN_DOTS)
    moved = (look.cursor_at, look.cursor_edge) != (before.cursor_at, before.cursor_edge)
    return _after(window, look.cursor_at) if moved and look.cursor_at else window


def brought_into_view(window: Window, look: Look) -> Window:
    """Return the window on the next thing out of view: cursor, what is asked, then what a verdict says."""
    pattern = window.pattern
    told = [thing for group in _told(pattern, look) for thing in group]
    things = asked(pattern, look)
    ends = [(end, end) for thing in things for end in dict.fromkeys(thing)]
    hidden = _next_out_of_view(window.scale, sorted(told, key=_reading) or ends)
    return window if hidden is None else _on(window, hidden)


def asked(pattern: CreasePattern, look: Look) -> list[Thing]:
    """Return the cursor, the crease with the arrow and the pencil dots, those that the look has."""
    things = [(look.cursor_at, look.cursor_at)] if look.cursor_at else []
    if look.arrow:
        start, end = look.arrow
        things.append((pattern.vertices[start], pattern.vertices[end]))
    return things + _points(look.points)


def in_view(scale: Scale, thing: Thing) -> bool:
    """Whether any cell of a crease or a point is in the window."""
    start, end = map(scale.dot, thing)
    return scale.may_show(start, end) and bool(masks_of(line_dots(start, end), scale.columns, scale.rows))


def _told(pattern: CreasePattern, look: Look) -> list[list[Thing]]:
    """Return what a verdict says, what matters first: missed, too many, out of balance, right."""
    groups = (
        look.missed,
        look.wrong,
        Marked(points=look.fault_points | {point for point, _ in look.counts}),
        look.right,
    )
    return [_marked(pattern, group) for group in groups if group != NOTHING]


def _marked(pattern: CreasePattern, marked: Marked) -> list[Thing]:
    creases = [(ends[0], ends[1]) for ends in map(pattern.ends, marked.edges)]
    return sorted([*creases, *_points(marked.points)], key=_reading)


def _points(points: Iterable[Point]) -> list[Thing]:
    return [(point, point) for point in sorted(points)]


def _reading(thing: Thing) -> tuple[Point, Point]:
    return min(thing), max(thing)


def _on(window: Window, thing: Thing) -> Window:
    """Return the window on a crease, on its start where it is too long to be in view."""
    return window.centred(halfway(*thing)).holding(thing[0])


def _on_all(window: Window, things: Sequence[Thing], least: int) -> Window:
    """Return the window with all of these things in view, if need be from farther away, else on the first."""
    ends = [end for thing in things for end in thing]
    if all(map(window.scale.shows, ends)):
        return window
    corners = [Point(side(end.x for end in ends), side(end.y for end in ends)) for side in (min, max)]
    around = window.centred(halfway(*corners))
    if all(map(around.scale.shows, ends)):
        return around
    farther = window.zoomed(closer=False)
    if farther == window or farther.scale.dots < least:
        return _on(window, things[0])
    return _on_all(farther, things, least)


def _after(window: Window, point: Point) -> Window:
    """Return the window after a cursor that has moved to the point; a leap brings it into the middle."""
    scale = window.scale
    sizes = scale.columns, scale.rows
    near = all(-size // 2 <= at < size + size // 2 for at, size in zip(scale.cell(point), sizes, strict=True))
    return window.holding(point) if near else window.centred(point)


def _next_out_of_view(scale: Scale, things: Sequence[Thing]) -> Thing | None:
    """Return the first thing out of view after one in view, round and round; None where all are in view."""
    seen = [in_view(scale, thing) for thing in things]
    hidden = [thing for at, thing in enumerate(things) if not seen[at] and (seen[at - 1] or not any(seen))]
    return hidden[0] if hidden else None
