"""The grid from blank paper: how often a square is halved, and a reference for an odd number of parts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from drills.geometry import Exact
from drills.pattern import CreasePattern


class Reference(NamedTuple):
    """Haga's first theorem: it marks one edge of a square in an odd number of ``parts``, without error.

    The lower right corner is put on the upper edge, ``corner`` of the edge from its right end, which
    halving alone finds. The lower edge then crosses the left one ``mark`` below its upper end:
    2u / (1 + u) for u = ``corner``. A corner put off by a little moves the mark ``gain`` times as far.
    Kazuo Haga, Origamics (2008), from memory; the formula is worked out again in the tests.
    """

    parts: int
    corner: Fraction
    mark: Fraction

    @property
    def gain(self) -> Fraction:
        """How many times an error at the corner comes back at the mark: 2 / (1 + u) squared."""
        return 2 / (1 + self.corner) ** 2


class GridPlan(NamedTuple):
    """The grid of a square that the sheet is cut from where it is no square itself.

    The sheet is ``across`` by ``down`` squares; the square has ``squares`` a side, which are ``parts``
    (odd, by a ``reference`` if more than one) halved ``halved`` times.
    """

    across: Exact
    down: Exact
    squares: int
    parts: int
    halved: int
    reference: Reference | None

    @property
    def is_cut(self) -> bool:
        """Whether the sheet is only a part of the square."""
        return not self.across == self.down == self.squares

    @property
    def next_power(self) -> int:
        """The squares of the next grid that halving alone makes."""
        return 1 << (self.squares - 1).bit_length()


def grid_of(pattern: CreasePattern) -> GridPlan:
    """Return how the grid of a sheet is folded, whose squares are 1 a side."""
    left, bottom, right, top = pattern.box
    squares = ceil(max(right - left, top - bottom))
    halved = (squares & -squares).bit_length() - 1
    parts = squares >> halved
    return GridPlan(right - left, top - bottom, squares, parts, halved, _reference(parts))


def _reference(parts: int) -> Reference | None:
    if parts == 1:
        return None
    below = 1 << (parts.bit_length() - 1)
    corner = Fraction(parts - below, below)
    return Reference(parts, corner, 2 * corner / (1 + corner))


def halvings(reference: Reference) -> Iterator[tuple[int, int, int]]:
    """Yield the folds that make every part of an odd division: a line, another, the one halfway between.

    Lines are counted in parts from the upper edge. Each fold puts two lines that are there on each other.
    """
    lines = {0, reference.parts, int(reference.mark * reference.parts)}
    while len(lines) <= reference.parts:
        known = sorted(lines)
        pairs = ((a, b) for place, a in enumerate(known) for b in known[place + 1 :])
        one, other = next((a, b) for a, b in pairs if (a + b) % 2 == 0 and (a + b) // 2 not in lines)
        lines.add((one + other) // 2)
        yield one, other, (one + other) // 2
