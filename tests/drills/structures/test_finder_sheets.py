"""The finder on whole sheets: all stretches that the construction put there are found, none besides."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from fractions import Fraction

import pytest

from drills.geometry import MIRROR, QUARTER_TURN, Chance, Point
from drills.pattern import CreasePattern
from drills.structures import (
    TRIANGLE_345,
    TRIANGLES,
    Sheet,
    StructureKind,
    Triangle,
    compose,
    creases_of,
    cut,
    find_stretches,
    pleats_only,
)
from tests.drills.structures.test_finder import bare, with_role
from tests.drills.structures.truth import corners_within, shown

LOOK_ALIKES: tuple[StructureKind, ...] = ("roof", "diamond")
THIRD = Fraction(1, 3)
IMAGES: tuple[Callable[[Point], Point], ...] = (
    QUARTER_TURN.of,
    MIRROR.of,
    lambda p: Point(p.x + THIRD, p.y - 7),
    lambda p: Point(2 * p.x, 2 * p.y),
    lambda p: Point(p.x * THIRD, p.y * THIRD),
)


@pytest.mark.parametrize("tens", range(3))
def test_all_are_found_and_none_invented(tens: int) -> None:
    """Thirty sheets: composed with look-alikes, of other triangles, cut, look-alikes alone, and plain."""
    for seed in range(10 * tens, 10 * tens + 10):
        check_pattern(seed)


@pytest.mark.long
@pytest.mark.parametrize("hundreds", range(10))
def test_a_thousand_more(hundreds: int) -> None:
    """The same on a thousand other sheets."""
    for seed in range(1000 + 100 * hundreds, 1100 + 100 * hundreds):
        check_pattern(seed)


def check_pattern(seed: int) -> None:
    """Compare what is found with the construction, and with what is found in images of the sheet."""
    sheet = sheet_of(seed)
    pattern = bare(creases_of(sheet))
    found, outlines = find_stretches(pattern), shown(sheet)
    assert len(found) == len(outlines), seed
    left = list(outlines)
    for stretch in found:
        seen = {corner for corner in stretch.corners if corner}
        (own,) = [o for o in left if corners_within(o, sheet.size) <= seen <= set(o) and seen]
        left.remove(own)
    roles = creases_of(sheet)
    assert sorted(e for f in found for e in f.outline) == list(with_role(roles, "outline"))
    assert sorted(e for f in found for e in f.inside) == list(with_role(roles, "inside"))
    for image in IMAGES:
        moved = CreasePattern(tuple(map(image, pattern.vertices)), pattern.edges)
        assert told(moved) == told(pattern), seed


def told(pattern: CreasePattern) -> list[tuple[object, ...]]:
    """Return what does not depend on where the pattern lies; a half turn exchanges A and B."""
    return [
        (f.triangle.name, sorted(map(str, f.units)), f.outline, f.inside, f.turning_points)
        for f in find_stretches(pattern)
    ]


def sheet_of(seed: int) -> Sheet:
    """Return a sheet of the kind whose turn it is, its size by chance."""
    chance = Chance(f"found {seed}")
    width, height, number = 14 + chance.below(20), 10 + chance.below(5), 2 + chance.below(2)
    size = (width, height) if chance.one_in(2) else (height, width)
    match seed % 5:
        case 0:
            return pleats_only(chance, *size)
        case 1:
            return compose(chance, *size, 2, needed=("roof",), allowed=LOOK_ALIKES)
        case 2:
            triangle = chance.pick(TRIANGLES[1:])
            return cut(chance, compose(chance, *room_for(triangle), 2, triangles=(triangle, TRIANGLE_345)))
        case 3:
            return cut(chance, compose(chance, *size, number if width > 20 else 2))
        case _:
            return compose(chance, *size, 2, needed=("stretch", chance.pick(LOOK_ALIKES)))


def room_for(triangle: Triangle) -> tuple[int, int]:
    """Return a size that a triangle's stretch and another structure fit."""
    long, short = sorted(int(part) for part in triangle.name.split("-")[:2])[::-1]
    return long + 8, max(short + 4, 10)


def test_the_sheets_show_none_to_several() -> None:
    """Of the first twenty sheets eight show no stretch by their making, others one, some more."""
    sheets = [sheet_of(seed) for seed in range(20)]
    numbers = Counter(len(shown(sheet)) for sheet in sheets)
    assert numbers[0] == 8
    assert numbers[1] >= 3
    assert sum(numbers.values()) - numbers[0] - numbers[1] >= 2
