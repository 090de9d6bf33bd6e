"""Levels: which sheets a kind of question draws on, one difficulty added at a time.

Up to level 4 a sheet stays within 14 x 12 squares, so that 80 columns by 24 rows show it well, but for
the bases of 16 x 16 that are looked over for stretches from level 4 on. Level 5 has one stretch on a
sheet that they still show whole, level 6 several structures on such a sheet or a base of up to 20 x 20;
level 7 has both on sheets that have to be moved about, level 8 the largest bases.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, get_args

from drills.geometry import Chance
from drills.questions.code import BaseRecipe, Code, Recipe
from drills.structures import TRIANGLES, Side, Stretch, Triangle, Wanted

WIDEST, HIGHEST = 14, 12

Units = tuple[int, int]

EQUAL: tuple[Units, ...] = ((2, 2), (3, 3))
UNEQUAL: tuple[Units, ...] = ((2, 1), (1, 2), (3, 1), (1, 3))
ADDS: Mapping[int, str] = {
    1: "one small stretch, one to three inside lines",
    2: "pleats around it",
    3: "sides of up to three pleats, several labels wrong",
    4: "more unequal sides, cuts by the paper's edge",
    5: "wider pleats, other triangles",
    6: "several structures and look-alikes",
    7: "sheets larger than the screen",
    8: "whole bases, flap tips, stretches and hinges together",
}


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


def fits(stretch: Stretch, widest: int = WIDEST, highest: int = HIGHEST) -> bool:
    """Whether the sheet stays within a size; without one, that of the first four levels."""
    width, height = stretch.size
    return width <= widest and height <= highest


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


ALONE, SEVERAL, LARGE, WHOLE = 5, 6, 7, 8
BASES = "bases"
"""Feature: sheets of several structures are whole bases, square, with flap tips inside."""
SMALL_BASES = ((16, 16),)
_BASES_AT: Mapping[int, tuple[int, ...]] = {
    SEVERAL: (16, 18, 20),
    LARGE: (20, 22, 24),
    WHOLE: (24, 26, 28, 30, 32),
}
"""The sizes of whole bases, in squares along a side."""
SCREEN_WIDEST, SCREEN_HIGHEST = 18, 15
LARGEST_WIDTH, LARGEST_HEIGHT = 64, 20

_T345, _T51213, _T81517, _T72425, _T202129 = TRIANGLES
_CUT_ONE_IN = 3

Widths = tuple[int, int, int]


class SingleStretch(NamedTuple):
    """Stretches that fill a sheet alone: triangle, units, choices of pleat widths and of pleats around."""

    triangle: Triangle
    units: tuple[int, int]
    widths: tuple[Widths, ...]
    pleats: tuple[int, ...]


_WIDER = (
    SingleStretch(_T345, (2, 2), ((2, 2, 2),), (1, 2)),
    SingleStretch(_T345, (2, 2), ((1, 2, 1), (2, 1, 1), (1, 1, 2), (2, 2, 1), (2, 1, 2)), (1, 2)),
    SingleStretch(_T345, (3, 3), ((3, 3, 3), (1, 3, 3), (3, 1, 3), (1, 1, 3)), (1,)),
    SingleStretch(_T345, (3, 3), ((1, 3, 1), (3, 1, 1), (3, 3, 1)), (1, 2, 3)),
    SingleStretch(_T345, (3, 3), ((1, 3, 2), (3, 1, 2), (3, 3, 2), (1, 1, 2)), (1,)),
    SingleStretch(_T345, (4, 4), ((1, 2, 1), (2, 1, 1), (2, 2, 1), (2, 4, 1), (4, 2, 1), (4, 4, 1)), (1,)),
    SingleStretch(_T345, (4, 2), ((2, 2, 2),), (1,)),
    SingleStretch(_T345, (2, 4), ((2, 2, 2),), (1,)),
)
_OTHERS = (
    SingleStretch(_T51213, (1, 1), ((2, 2, 2),), (1,)),
    SingleStretch(_T51213, (1, 1), ((1, 1, 1), (1, 2, 1), (2, 1, 1), (2, 2, 1)), (1, 2, 3)),
    SingleStretch(_T51213, (1, 1), ((1, 1, 2), (1, 2, 2), (2, 1, 2), (1, 1, 3)), (1,)),
    SingleStretch(_T81517, (1, 1), ((1, 1, 1), (1, 3, 1), (3, 1, 1), (3, 3, 1)), (1,)),
    SingleStretch(_T51213, (1, 2), ((1, 1, 1), (2, 2, 2)), (1,)),
)
_LARGE = (
    SingleStretch(
        _T51213, (2, 2), ((2, 2, 2), (1, 1, 1), (1, 2, 2), (4, 2, 2), (2, 4, 1), (4, 1, 1)), (1, 2)
    ),
    SingleStretch(_T51213, (2, 1), ((2, 2, 2),), (1, 2)),
    SingleStretch(_T81517, (1, 1), ((3, 3, 3), (1, 3, 3), (3, 1, 3), (1, 1, 3)), (1, 2)),
    SingleStretch(_T72425, (1, 1), ((3, 3, 3), (1, 1, 1), (3, 1, 1), (1, 3, 1), (3, 3, 1)), (1, 2)),
    SingleStretch(_T202129, (1, 1), ((6, 6, 6), (3, 3, 3), (2, 2, 2), (2, 3, 2), (3, 6, 3), (6, 2, 2)), (1,)),
)
SINGLE_STRETCHES: Mapping[int, tuple[SingleStretch, ...]] = {ALONE: _WIDER + _OTHERS, LARGE: _LARGE}


def single_stretch_at(level: int, chance: Chance, triangles: Sequence[Triangle] = TRIANGLES) -> Stretch:
    """Return a stretch that fills a sheet of this level alone, of one of the triangles."""
    single = chance.pick([single for single in SINGLE_STRETCHES[level] if single.triangle in triangles])
    while True:
        stretch = Stretch(
            single.units,
            hinges=(chance.pick(get_args(Side)), chance.pick(get_args(Side))),
            pleats=chance.pick(single.pleats),
            facing=chance.below(4),
            exchanged=chance.one_in(2),
            triangle=single.triangle,
            widths=chance.pick(single.widths),
        )
        if level != ALONE or fits(stretch, SCREEN_WIDEST, SCREEN_HIGHEST):
            return stretch


def cut(stretch: Stretch, chance: Chance) -> Stretch:
    """Return the stretch, or one in three times with the paper's edge through it, a third in at most."""
    if not chance.one_in(_CUT_ONE_IN):
        return stretch
    far = stretch.corners[2]
    side = chance.below(4)
    depth = 1 + chance.below(max(1, int(far.y if side % 2 else far.x) // 3))
    depth += stretch.pleats * stretch.pleat_widths[2]
    left, bottom, right, top = (depth if place == side else 0 for place in range(4))
    return replace(stretch, crop=(left, bottom, right, top))


def recipe_at(code: Code, chance: Chance, most: int, *, may_be_cut: bool = True) -> Recipe:
    """Return the recipe of a sheet of level 6 or 7: two structures up to so many, one slanted at least."""
    width, height = _size_at(code.level, chance)
    structures = 2 + chance.below(most - 1)
    is_cut = may_be_cut and chance.one_in(_CUT_ONE_IN)
    return Recipe(f"{code}/sheet", width, height, structures, is_cut=is_cut)


def _size_at(level: int, chance: Chance) -> tuple[int, int]:
    if level == LARGE:
        return 24 + 2 * chance.below(21), 12 + chance.below(9)
    return 16 + chance.below(3), 11 + chance.below(5)


def base_at(code: Code, wanted: Wanted) -> BaseRecipe:
    """Return the recipe of a whole base of level 6, 7 or 8 with these blocks."""
    sizes = tuple((size, size) for size in _BASES_AT[code.level])
    return BaseRecipe(f"{code}/base", sizes, wanted)
