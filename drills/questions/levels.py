"""Levels: which stretches a kind of question draws on, one difficulty added at a time.

Up to level 4 a sheet stays within 14 x 12 squares, so that 80 columns by 24 rows show it well.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drills.geometry import Chance
from drills.structures import Side, Stretch

WIDEST, HIGHEST = 14, 12

Units = tuple[int, int]

EQUAL: tuple[Units, ...] = ((2, 2), (3, 3))
UNEQUAL: tuple[Units, ...] = ((2, 1), (1, 2), (3, 1), (1, 3))


@dataclass(frozen=True)
class Level:
    """The stretches of one level: units of the two sides, pleats around, facings, crops or none."""

    units: tuple[Units, ...]
    pleats: tuple[int, ...]
    facings: tuple[int, ...] = (0, 2)
    cropped: bool = False


FAIR_CUTS: Mapping[Units, tuple[int, int, int]] = {
    (2, 2): (3, 3, 1),
    (3, 3): (4, 4, 4),
    (2, 1): (0, 1, 0),
    (1, 2): (1, 0, 0),
    (3, 1): (0, 2, 2),
    (1, 3): (2, 0, 2),
}
"""How many squares the paper's edge may cut into the outline's box: at the left or right, at the
bottom or top, at a far corner. Deeper cuts leave too little to ask, or creases that run from edge
to edge, whose labels nothing decides."""


def stretch_at(level: Level, chance: Chance) -> Stretch:
    """Return a stretch of the level that fits the largest sheet, one in two cut where crops are allowed."""
    while True:
        stretch = Stretch(
            units=chance.pick(level.units),
            hinges=(_side(chance), _side(chance)),
            pleats=chance.pick(level.pleats),
            facing=chance.pick(level.facings),
            exchanged=chance.one_in(2),
        )
        if level.cropped and chance.one_in(2):
            stretch = cropped(stretch, chance)
        if fits(stretch):
            return stretch


def fits(stretch: Stretch) -> bool:
    """Whether the sheet stays within the largest of the first four levels."""
    width, height = stretch.size
    return width <= WIDEST and height <= HIGHEST


def cropped(stretch: Stretch, chance: Chance) -> Stretch:
    """Return the stretch with the paper's edge cutting fairly into its outline on one or two sides."""
    left, bottom, corner = FAIR_CUTS[stretch.units]
    cuts = [(depth, 0) for depth in range(1, left + 1)]
    cuts += [(0, depth) for depth in range(1, bottom + 1)]
    cuts += [(depth, depth) for depth in range(1, corner + 1)]
    at_left, at_bottom = (depth and depth + stretch.pleats for depth in chance.pick(cuts))
    crop = (0, 0, at_left, at_bottom) if chance.one_in(2) else (at_left, at_bottom, 0, 0)
    return Stretch(stretch.units, stretch.hinges, stretch.pleats, stretch.facing, stretch.exchanged, crop)


def _side(chance: Chance) -> Side:
    return "steep" if chance.one_in(2) else "shallow"
