"""Where the window goes by itself: to the question first, then after the cursor, at last to the verdict."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TypeAlias

from drills.geometry import Point
from drills.pattern import CreasePattern
from trainer.board.look import NOTHING, Look, Marked
from trainer.board.raster import line_dots, masks_of
from trainer.board.scale import PANNED_DOTS, Scale
from trainer.board.window import Room, Window, halfway, window_on

LABEL_DOTS = 6
"""On a board with fewer dots a square than these, letters stand where they do not belong."""

Thing: TypeAlias = tuple[Point, Point]
"""A crease by its ends, or a point, both ends of which are the same."""


def opened(pattern: CreasePattern, room: Room, look: Look) -> Window:
    """Return the window on a sheet that is shown anew: on what is asked, its start above all."""
    window = window_on(pattern, room)
    if look.labels and window.scale.dots < LABEL_DOTS:
        window = replace(window, dots=PANNED_DOTS)
    for thing in asked(pattern, look)[:1]:
        return _on(window, thing)
    return window


def followed(window: Window, before: Look, look: Look) -> Window:
    """Return the window after a change of the look.

    It goes after a cursor that has moved; to a verdict that has come, where nothing of what it says
    first is in view: what was missed, else what was too many, out of balance, right.
    """
    told = _told(window.pattern, look)
    if told and told != _told(window.pattern, before):
        first = told[0]
        return window if any(in_view(window.scale, thing) for thing in first) else _on(window, first[0])
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
    return bool(masks_of(line_dots(*map(scale.dot, thing)), scale.columns, scale.rows))


def _told(pattern: CreasePattern, look: Look) -> list[list[Thing]]:
    """Return what a verdict says, what matters first: missed, too many, out of balance, right."""
    groups = (look.missed, look.wrong, Marked(points=look.fault_points), look.right)
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
