"""The 45-degree stretch: a diamond in a field of vertical pleat lines that run level inside it.

It looks like a slanted stretch at a glance but has no slanted line: its four sides are 45-degree
ridges. Left and right corner have one hinge each, straight out across the field. Top and bottom
corner have two ridges and a vertical line, so a hinge leaves each sideways, or one line joins them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from drills.geometry import Point
from drills.pattern import Line
from drills.structures.triangle import label_of_rank

Sideways: TypeAlias = Literal["left", "right"]


@dataclass(frozen=True)
class Diamond:
    """A 45-degree stretch: its middle and half diagonal on the grid, its field from x = 0 to ``field``.

    ``hinges`` say to which side the top and the bottom hinge leave; None: straight through, which no
    labels by rank fold. The vertical pleat line at x has rank x. ValueError where it leaves the field.
    """

    x: int
    y: int
    half: int
    field: int
    hinges: tuple[Sideways, Sideways] | None = ("right", "right")

    def __post_init__(self) -> None:
        if self.half < 1 or not self.half <= self.x <= self.field - self.half:
            raise ValueError(f"The 45-degree stretch round x = {self.x} must lie between 0 and {self.field}.")

    @property
    def rows(self) -> tuple[tuple[int, Sideways], ...]:
        """The heights at which a hinge leaves the field, with the side to which it leaves."""
        if self.hinges is None:
            return (self.y, "left"), (self.y, "right")
        top, bottom = self.hinges
        return (self.y, "left"), (self.y, "right"), (self.y + self.half, top), (self.y - self.half, bottom)


def diamond_field(diamond: Diamond, low: int, high: int) -> Iterator[Line]:
    """Yield a field of vertical pleat lines from height low to high with the diamond in it."""
    upright = (
        Line(Point(x, low), Point(x, high), "pleat", label_of_rank(x)) for x in range(1, diamond.field)
    )
    yield from cut_field(upright, diamond)
    yield from diamond_lines(diamond)


def cut_field(lines: Iterable[Line], diamond: Diamond) -> Iterator[Line]:
    """Yield vertical pleat lines, from below upwards, without what of them lies inside the diamond."""
    for line in lines:
        reach = diamond.half - abs(int(line.start.x) - diamond.x)
        if reach <= 0:
            yield line
        else:
            yield line._replace(end=Point(line.end.x, diamond.y - reach))
            yield line._replace(start=Point(line.start.x, diamond.y + reach))


def diamond_lines(diamond: Diamond) -> Iterator[Line]:
    """Yield the sides, inside lines and hinges of a diamond, labelled by rank."""
    yield from _sides(diamond)
    yield from _level_lines(diamond)
    yield from _side_hinges(diamond)
    if diamond.hinges is None:
        yield from _through(diamond)
        return
    for row, side in diamond.rows[2:]:
        yield from _across(diamond, row, side)


def _sides(diamond: Diamond) -> Iterator[Line]:
    """Yield the four sides; a piece is of the kind of the line at its end nearer the top or bottom."""
    for right in (-1, 1):
        for up in (-1, 1):
            for away in range(diamond.half):
                rank = diamond.x - away
                start = Point(diamond.x + right * (away + 1), diamond.y + up * (diamond.half - away - 1))
                end = Point(diamond.x + right * away, diamond.y + up * (diamond.half - away))
                yield Line(start, end, "ridge", label_of_rank(rank))


def _level_lines(diamond: Diamond) -> Iterator[Line]:
    for height in range(1 - diamond.half, diamond.half):
        reach = diamond.half - abs(height)
        y = diamond.y + height
        yield Line(
            Point(diamond.x - reach, y),
            Point(diamond.x + reach, y),
            "pleat",
            label_of_rank(diamond.x - reach),
        )


def _side_hinges(diamond: Diamond) -> Iterator[Line]:
    """Yield the hinges of the side corners: each piece is of the kind of the pleat line it comes from."""
    for x in range(diamond.x - diamond.half, 0, -1):
        yield Line(Point(x, diamond.y), Point(x - 1, diamond.y), "hinge", label_of_rank(x))
    for x in range(diamond.x + diamond.half, diamond.field):
        yield Line(Point(x, diamond.y), Point(x + 1, diamond.y), "hinge", label_of_rank(x))


def _across(diamond: Diamond, row: int, side: Sideways) -> Iterator[Line]:
    """Yield the hinge of the top or bottom: each piece is of the kind of the pleat line it comes to."""
    step, end = (-1, 0) if side == "left" else (1, diamond.field)
    for x in range(diamond.x, end, step):
        yield Line(Point(x, row), Point(x + step, row), "hinge", label_of_rank(x + step))


def _through(diamond: Diamond) -> Iterator[Line]:
    """Yield the line from top to bottom without labels, which ranks do not give."""
    for y in range(diamond.y - diamond.half, diamond.y + diamond.half):
        yield Line(Point(diamond.x, y), Point(diamond.x, y + 1), "hinge", "U")
