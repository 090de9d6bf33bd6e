"""A small drawing of a sheet and of where the window lies on it: creases, cursor and marks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from itertools import groupby
from math import floor
from typing import NamedTuple, TypeAlias

from drills.geometry import Point
from drills.pattern import CreasePattern
from trainer.board.look import Look, Marked
from trainer.board.palette import SIGNS, Mark
from trainer.board.raster import DOTS_ACROSS, DOTS_DOWN, Dot, Glyphs, Masks, line_dots, masks_of
from trainer.board.scale import Box, Scale
from trainer.board.window import halfway

MOST_COLUMNS, MOST_ROWS = 28, 4
LEAST_COLUMNS = 8
WIDER = 2
"""How many times as high as wide a character is, about."""


OverviewRow: TypeAlias = list[tuple[str, bool]]
"""Runs of signs, and whether the window shows what is there."""


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

    def dot(self, point: Point) -> Dot:
        """Return the dot of a place, two by four in each cell."""
        left, bottom, right, top = self.box
        return Dot(
            round((point.x - left) * (self.columns * DOTS_ACROSS - 1) / Fraction(right - left)),
            round((top - point.y) * (self.rows * DOTS_DOWN - 1) / Fraction(top - bottom)),
        )

    def point(self, column: int, row: int) -> Point:
        """Return the place on the sheet that the middle of a cell stands for."""
        left, bottom, right, top = self.box
        return Point(
            left + Fraction(2 * column + 1, 2 * self.columns) * (right - left),
            top - Fraction(2 * row + 1, 2 * self.rows) * (top - bottom),
        )


def plan_of(box: Box, most_columns: int = MOST_COLUMNS) -> Plan:
    """Return the largest plan of a sheet of this box, in its proportions unless it is too narrow for them."""
    left, bottom, right, top = box
    width, height = right - left, top - bottom
    columns = min(Fraction(min(MOST_COLUMNS, most_columns)), Fraction(WIDER * MOST_ROWS * width) / height)
    rows = columns * height / (WIDER * width)
    return Plan(box, max(LEAST_COLUMNS, round(columns)), max(1, round(rows)))


def draw_overview(
    pattern: CreasePattern, look: Look, scale: Scale, glyphs: Glyphs, plan: Plan | None = None
) -> list[OverviewRow]:
    """Return the rows of the overview: the paper's frame, the creases that the board shows, and signs.

    The signs are the cursor's, the question's and those of marks. Coarse glyphs would fill it with creases,
    so that nothing is seen: then these are left out.
    """
    plan = plan or plan_of(scale.box)
    no_creases = look.bare or not glyphs.is_fine
    creases = _creases(pattern, plan, frozenset(pattern.creases) if no_creases else look.hidden)
    signs = {plan.cell(point): sign for point, sign in _signs(pattern, look, glyphs)}
    rows = [
        _runs(
            [
                (signs.get((column, row)) or glyphs.dots[creases.get(row * plan.columns + column, 0)], shown)
                for column, shown in enumerate(window)
            ]
        )
        for row, window in enumerate(_window(plan, scale))
    ]
    edge = "─" * plan.columns
    return [
        [(f"┌{edge}┐", False)],
        *([("│", False), *row, ("│", False)] for row in rows),
        [(f"└{edge}┘", False)],
    ]


@lru_cache(maxsize=16)
def _creases(pattern: CreasePattern, plan: Plan, hidden: frozenset[int]) -> Masks:
    shown = (edge for edge in pattern.creases if edge not in hidden)
    dots = (dot for edge in shown for dot in line_dots(*map(plan.dot, pattern.ends(edge))))
    return masks_of(dots, plan.columns, plan.rows)


def _runs(cells: list[tuple[str, bool]]) -> OverviewRow:
    return [("".join(sign for sign, _ in run), shown) for shown, run in groupby(cells, lambda cell: cell[1])]


def _window(plan: Plan, scale: Scale) -> Iterator[list[bool]]:
    """Yield of each row which cells the window shows: those whose middle it does, one each way at least."""
    left, bottom, right, top = scale.shown
    middle = plan.cell(halfway(Point(left, bottom), Point(right, top)))
    for row in range(plan.rows):
        places = [(plan.point(column, row), column) for column in range(plan.columns)]
        yield [
            (left <= place.x <= right or column == middle[0])
            and (bottom <= place.y <= top or row == middle[1])
            for place, column in places
        ]


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
