"""Levels 5 to 7: wider pleats and other triangles, several structures, sheets larger than the screen.

Level 5 has one stretch on a sheet that 80 columns by 24 rows still show whole, level 6 several
structures on such a sheet; level 7 has both, on sheets that have to be moved about.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple, get_args

from drills.geometry import Chance
from drills.questions.code import Code
from drills.questions.recipe import Recipe
from drills.structures import TRIANGLES, Side, Stretch, Triangle

ALONE, SEVERAL, LARGE = 5, 6, 7
WIDEST, HIGHEST = 18, 15
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
LONE: Mapping[int, tuple[SingleStretch, ...]] = {ALONE: _WIDER + _OTHERS, LARGE: _LARGE}


def lone_at(level: int, chance: Chance, triangles: Sequence[Triangle] = TRIANGLES) -> Stretch:
    """Return a stretch that fills a sheet of this level alone, of one of the triangles."""
    lone = chance.pick([lone for lone in LONE[level] if lone.triangle in triangles])
    while True:
        stretch = Stretch(
            lone.units,
            hinges=(_side(chance), _side(chance)),
            pleats=chance.pick(lone.pleats),
            facing=chance.below(4),
            exchanged=chance.one_in(2),
            triangle=lone.triangle,
            widths=chance.pick(lone.widths),
        )
        if level != ALONE or fits(stretch):
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


def fits(stretch: Stretch) -> bool:
    """Whether 80 columns by 24 rows show the whole sheet."""
    width, height = stretch.size
    return width <= WIDEST and height <= HIGHEST


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


def _side(chance: Chance) -> Side:
    return chance.pick(get_args(Side))
