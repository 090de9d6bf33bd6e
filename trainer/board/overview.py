"""A small drawing of where the window lies on a sheet: paper, window, cursor and marks, no creases."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple

from drills.geometry import Exact, Point
from drills.pattern import CreasePattern
from trainer.board.drawing import Look, Marked
from trainer.board.palette import SIGNS, Mark
from trainer.board.raster import Glyphs
from trainer.board.scale import Box, Scale
from trainer.board.window import halfway

MOST_COLUMNS, MOST_ROWS = 28, 4
LEAST_COLUMNS = 8
WINDOW, PAPER = "░", " "
WIDER = 2
"""How many times as high as wide a character is, about."""


class Plan(NamedTuple):
    """The sheet's box in squares, and the columns and rows that stand for it, its frame left out."""

    box: Box
    columns: int
    rows: int

    def cell(self, point: Point) -> tuple[int, int]:
        """Return the column and row of a place on the sheet."""
        left, bottom, right, top = self.box
        return (
            min(floor((point.x - left) * self.columns / Fraction(right - left)), self.columns - 1),
            min(floor((top - point.y) * self.rows / Fraction(top - bottom)), self.rows - 1),
        )

    def point(self, column: int, row: int) -> Point:
        """Return the place on the sheet that the middle of a cell stands for."""
        left, bottom, right, top = self.box
        return Point(
            left + Fraction(2 * column + 1, 2 * self.columns) * (right - left),
            top - Fraction(2 * row + 1, 2 * self.rows) * (top - bottom),
        )


def plan_of(box: Box) -> Plan:
    """Return the largest plan of a sheet of this box, in its proportions unless it is too narrow for them."""
    left, bottom, right, top = box
    width, height = right - left, top - bottom
    columns = min(Fraction(MOST_COLUMNS), Fraction(WIDER * MOST_ROWS * width) / height)
    rows = columns * height / (WIDER * width)
    return Plan(box, max(LEAST_COLUMNS, round(columns)), max(1, round(rows)))


def draw_overview(pattern: CreasePattern, look: Look, scale: Scale, glyphs: Glyphs) -> list[str]:
    """Return the rows of the overview: the paper's frame, the window shaded, signs where something is.

    They are the cursor's, the question's and those of marks; nothing tells where the creases are.
    """
    plan = plan_of(scale.box)
    signs = {plan.cell(point): sign for point, sign in _signs(pattern, look, glyphs)}
    rows = [
        "".join(signs.get((column, row), shade) for column, shade in enumerate(line))
        for row, line in enumerate(_shaded(plan, scale))
    ]
    edge = "─" * plan.columns
    return [f"┌{edge}┐", *(f"│{row}│" for row in rows), f"└{edge}┘"]


def shown_in_words(scale: Scale) -> str:
    """Return which squares of how many are shown, counted from the sheet's top left corner."""
    left, bottom, right, top = scale.box
    first, low, last, high = scale.shown
    across = _part(first - left, last - left, right - left, "across")
    return f"{across}, {_part(top - high, top - low, top - bottom, 'down')}"


def _part(first: Exact, last: Exact, whole: Exact, way: str) -> str:
    if (first, last) == (0, whole):
        return f"all {ceil(whole)} {way}"
    return f"{ceil(first)}-{floor(last)}/{ceil(whole)} {way}"


def _shaded(plan: Plan, scale: Scale) -> Iterator[str]:
    """Yield the rows with the window shaded: the cells whose middle it shows, one each way at least."""
    left, bottom, right, top = scale.shown
    middle = plan.cell(halfway(Point(left, bottom), Point(right, top)))
    for row in range(plan.rows):
        places = [(plan.point(column, row), column) for column in range(plan.columns)]
        yield "".join(
            WINDOW
            if (left <= place.x <= right or column == middle[0])
            and (bottom <= place.y <= top or row == middle[1])
            else PAPER
            for place, column in places
        )


def _signs(pattern: CreasePattern, look: Look, glyphs: Glyphs) -> Iterator[tuple[Point, str]]:
    """Yield places and signs; of several at one place the last is seen."""
    marks: Mapping[Mark, Marked] = {
        Mark.MARKED: look.marked,
        Mark.RIGHT: look.right,
        Mark.WRONG: look.wrong,
        Mark.MISSED: look.missed,
    }
    for mark, marked in marks.items():
        for edge in marked.edges:
            yield halfway(*pattern.ends(edge)), SIGNS[mark]
        yield from ((point, SIGNS[mark]) for point in marked.points)
    yield from ((point, "!") for point in look.fault_points)
    yield from ((point, glyphs.point) for point in look.points)
    if look.cursor_at:
        yield look.cursor_at, glyphs.cursor
