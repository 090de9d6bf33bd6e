"""Sheets with several structures: a frozen description, the labelled pattern it stands for, landmarks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from drills.exact.plane import Point
from drills.exact.symmetry import SYMMETRIES
from drills.pattern.building import Paper, build
from drills.pattern.crease_pattern import CreasePattern
from drills.pattern.placing import to_origin, turned
from drills.structures.block import (
    Block,
    Outline,
    exchanged,
    sheet_of,
    turned_block,
    with_pleats_around,
)
from drills.structures.diamond import Diamond, diamond_field
from drills.structures.labelling import labelled
from drills.structures.parts import Part, block_of


@dataclass(frozen=True)
class Sheet:
    """A part with pleats around, in one of SYMMETRIES by index, labels exchanged or not, and cropped.

    ``crop`` cuts so many squares off at the left, bottom, right and top of the sheet as it faces.
    """

    part: Part
    pleats: int = 1
    facing: int = 0
    exchanged: bool = False
    crop: tuple[int, int, int, int] = (0, 0, 0, 0)

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""
        block, (left, bottom, right, top) = whole_block(self), self.crop
        return int(block.width) - left - right, int(block.height) - bottom - top


@lru_cache(maxsize=256)
def whole_block(sheet: Sheet) -> Block:
    """Return the sheet as one block before the crop, labelled by rank."""
    block = turned_block(with_pleats_around(block_of(sheet.part), sheet.pleats), SYMMETRIES[sheet.facing])
    return exchanged(block) if sheet.exchanged else block


def creases_of(sheet: Sheet) -> CreasePattern:
    """Return the sheet's creases, lower left paper corner at (0, 0), with the labels that ranks give.

    These need not fold; no layer order is sought.
    """
    return to_origin(sheet_of(whole_block(sheet), sheet.crop))


@lru_cache(maxsize=256)
def draw_sheet(sheet: Sheet) -> CreasePattern:
    """Return the labelled pattern of a sheet, for which a layer order was found.

    ValueError where parts do not go together or no order was found.
    """
    return labelled(creases_of(sheet))


def landmarks(sheet: Sheet) -> tuple[Outline, ...]:
    """Return for each slanted stretch its corners S, A, T, B on the sheet; a crop may leave some outside."""
    left, bottom, _, _ = sheet.crop

    def on_paper(point: Point) -> Point:
        return Point(point.x - left, point.y - bottom)

    return tuple(
        (on_paper(s), on_paper(a), on_paper(t), on_paper(b)) for s, a, t, b in whole_block(sheet).outlines
    )


@dataclass(frozen=True)
class FieldSheet:
    """One 45-degree stretch in an open field of pleats, so many squares high; no block, so a sheet alone."""

    diamond: Diamond
    height: int
    facing: int = 0
    exchanged: bool = False

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper in squares."""
        size = self.diamond.field, self.height
        return size if SYMMETRIES[self.facing].b == 0 else (size[1], size[0])


def draw_field_sheet(sheet: FieldSheet) -> CreasePattern:
    """Return the labelled pattern of such a sheet, for which a layer order was found."""
    paper = Paper(0, 0, sheet.diamond.field, sheet.height)
    pattern = turned(build(diamond_field(sheet.diamond, 0, sheet.height), paper), SYMMETRIES[sheet.facing])
    return labelled(pattern.switched(pattern.creases) if sheet.exchanged else pattern)
