"""Cutting a sheet into cells, columns that are cut into rows, with a block in each.

What is wanted goes in first: it settles the width of its column and a place in it; the rest is cut by
chance into cells of 4 squares and more. A cut that leaves a cell without a block is drawn anew, so
many times. Where two columns are cut at the same heights, flap tips lie in a lattice; elsewhere a
side ends at the middle of another.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from drills.geometry import MIRROR, SYMMETRIES, Chance
from drills.structures.bases.cell_block import (
    CellBlock,
    diamond_block,
    roof_block,
    stretch_block,
    three_tips_block,
)
from drills.structures.triangle import TRIANGLES, Triangle

LEAST = 4
"""The least squares of a cell's sides."""
TRIES = 400
_MORE_STRETCHES_ONE_IN = 3
_LATTICE_ONE_IN = 2
_MOST_PARTS = 4
"""What is not settled by what is wanted is cut into at most so many columns, or rows."""

Wanted: TypeAlias = tuple[str, ...]
"""The kinds of blocks that a base must have: stretch, other, diamond, tips."""

TRIANGLES_OF: Mapping[str, tuple[Triangle, ...]] = {"stretch": TRIANGLES[:1], "other": TRIANGLES[1:3]}
"""The triangles of the slanted kinds: of 5-12-13 and 8-15-17 pleats are one square wide too."""


class Cell(NamedTuple):
    """A block in its place; its lower left corner is at (x, y)."""

    x: int
    y: int
    block: CellBlock

    @property
    def placed(self) -> CellBlock:
        """The block as it lies on the sheet."""
        return self.block.at(self.x, self.y)

    @property
    def corners(self) -> tuple[tuple[int, int], ...]:
        """Its corners counterclockwise from the lower left."""
        right, top = self.x + self.block.width, self.y + self.block.height
        return (self.x, self.y), (right, self.y), (right, top), (self.x, top)


@dataclass(frozen=True)
class Layout:
    """A sheet of so many squares cut into cells; ``is_half``: its image lies beyond its right side."""

    width: int
    height: int
    cells: tuple[Cell, ...]
    is_half: bool = False

    def with_image(self) -> Layout:
        """Return the whole sheet: a half with its mirror image at its right, otherwise the layout itself."""
        if not self.is_half:
            return self
        width = 2 * self.width
        images = (Cell(width - x - block.width, y, block.turned(MIRROR)) for x, y, block in self.cells)
        return Layout(width, self.height, (*self.cells, *images))

    @property
    def stretches(self) -> int:
        """The number of slanted stretches."""
        return sum(cell.block.kind == "stretch" for cell in self.cells)

    @property
    def inner_tips(self) -> frozenset[tuple[int, int]]:
        """The flap tips off the paper's edge where four cells meet, on an axis two with their images."""
        counts = Counter(corner for cell in self.with_image().cells for corner in cell.corners)
        return frozenset((x, y) for (x, y), number in counts.items() if number == 4 and x <= self.width)

    @property
    def tips(self) -> frozenset[tuple[int, int]]:
        """The corners of the cells: flap tips, but for those where a side ends at another."""
        return frozenset(corner for cell in self.cells for corner in cell.corners)


def draw_layout(
    chance: Chance, width: int, height: int, wanted: Wanted, most: int, *, is_half: bool = False
) -> Layout | None:
    """Return a sheet cut into cells, each kind wanted as often as it is named; None where none is found.

    Somewhere inside four cells meet. Where a stretch is wanted there may be more, up to ``most``.
    """
    for _ in range(TRIES):
        columns = _columns(chance, width, height, wanted)
        if columns:
            layout = Layout(width, height, tuple(_placed(columns)), is_half)
            if layout.inner_tips and layout.stretches <= most:
                return layout
    return None


Column: TypeAlias = tuple[int, list[CellBlock]]


def _columns(chance: Chance, width: int, height: int, wanted: Wanted) -> list[Column] | None:
    """Return columns from left to right with their blocks from below; None where these do not fit."""
    first = [block for kind in wanted if (block := _drawn(chance, kind, width, height))]
    groups: dict[int, list[CellBlock]] = {}
    for block in first:
        groups.setdefault(block.width, []).append(block)
    widths = _cut_rest(chance, width - sum(groups))
    if len(first) < len(wanted) or widths is None:
        return None
    asked = chance.shuffled([*groups.items(), *((each, []) for each in widths)])
    may_have_more = not {"stretch", "other"}.isdisjoint(wanted)
    rows: list[int] | None = None
    if chance.one_in(_LATTICE_ONE_IN):
        rows = _rows(chance, height, [block for _, blocks in asked for block in blocks])
    columns = []
    for across, blocks in asked:
        stack = _stacked(chance, across, height, blocks, rows, may_have_more)
        if stack is None:
            return None
        columns.append((across, stack))
    return columns


def _placed(columns: Sequence[Column]) -> Iterator[Cell]:
    x = 0
    for across, blocks in columns:
        y = 0
        for block in blocks:
            yield Cell(x, y, block)
            y += block.height
        x += across


def _cut_rest(chance: Chance, length: int) -> list[int] | None:
    """Return a length cut into parts of LEAST squares or more; None where it is too short for one."""
    if length < LEAST:
        return None if length else []
    parts = 1 + chance.below(min(_MOST_PARTS, length // LEAST))
    spare = length - LEAST * parts
    places = sorted(chance.below(spare + 1) for _ in range(parts - 1))
    return [LEAST + high - low for low, high in zip([0, *places], [*places, spare], strict=True)]


def _rows(chance: Chance, height: int, blocks: Sequence[CellBlock]) -> list[int] | None:
    """Return the heights of the cells of a column, those of the blocks wanted among them."""
    heights = sorted({block.height for block in blocks})
    more = _cut_rest(chance, height - sum(heights))
    return None if more is None else chance.shuffled([*heights, *more])


def _stacked(
    chance: Chance,
    width: int,
    height: int,
    blocks: list[CellBlock],
    rows: list[int] | None,
    may_have_more: bool,
) -> list[CellBlock] | None:
    """Return blocks that fill a column, those given among them; None where the rest has none."""
    if rows is None:
        rows = _rows(chance, height, blocks)
    waiting = {block.height: block for block in blocks}
    if rows is None or len(waiting) < len(blocks):
        return None
    stack = []
    for high in rows:
        block = waiting.pop(high, None) or _filling(chance, width, high, may_have_more)
        if block is None:
            return None
        stack.append(block)
    return None if waiting else stack


def _filling(chance: Chance, width: int, height: int, may_be_stretch: bool) -> CellBlock | None:
    """Return a block of this size, a stretch only now and then."""
    slanted = _stretches_of(width, height) if may_be_stretch else []
    if slanted and chance.one_in(_MORE_STRETCHES_ONE_IN):
        return _faced(chance, *chance.pick(slanted), width)
    return roof_block(width, height) if min(width, height) % 2 == 0 else None


def _stretches_of(width: int, height: int) -> list[tuple[int, int]]:
    """Return the units and the pleats around of the 3-4-5 stretches that fill a size exactly."""
    units, small = abs(width - height), min(width, height)
    pleats, odd = divmod(small - 3 * units, 2)
    return [(units, pleats)] if units and not odd and pleats >= 0 else []


def _faced(chance: Chance, units: int, pleats: int, width: int) -> CellBlock:
    block = stretch_block(units, pleats)
    facings = (0, 4) if block.width == width else (1, 5)
    return block.turned(SYMMETRIES[chance.pick(facings)])


def _drawn(chance: Chance, kind: str, width: int, height: int) -> CellBlock | None:
    """Return a block of a kind in one of its facings, at most so wide and high."""
    block = _DRAWN[kind](chance).turned(SYMMETRIES[chance.below(len(SYMMETRIES))])
    return block if block.width <= width and block.height <= height else None


def _stretch(chance: Chance) -> CellBlock:
    return stretch_block(chance.pick((1, 2, 2, 3)), chance.below(4))


def _other_stretch(chance: Chance) -> CellBlock:
    return stretch_block(1, chance.below(4), chance.pick(TRIANGLES_OF["other"]))


def _diamond(chance: Chance) -> CellBlock:
    half, margin = 1 + chance.below(2), chance.below(2)
    slack = chance.below(4)
    length = 4 * half + 2 * margin + 2 + slack
    return diamond_block(half, margin, length, 1 + chance.below(slack + 1))


def _three_tips(chance: Chance) -> CellBlock:
    return three_tips_block(chance.pick((1, 2)))


_DRAWN = {"stretch": _stretch, "other": _other_stretch, "diamond": _diamond, "tips": _three_tips}
"""How a block of each kind that may be wanted is drawn."""
