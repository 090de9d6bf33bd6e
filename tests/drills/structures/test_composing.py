from __future__ import annotations

from collections import Counter
from functools import cache, reduce

import pytest

from drills.flatfold import failing, folds, solve_layers
from drills.geometry import Chance
from drills.structures import (
    DOWN,
    STRUCTURES,
    TRIANGLE_345,
    UP,
    Beside,
    Sheet,
    block_of,
    compose,
    draw,
    fitting,
    outlines,
)
from tests.drills.sheets import figure

LARGE = (2, 6), (range(24, 65), range(8, 15))
SMALL = (1, 2), (range(10, 15), range(7, 13))


@cache
def drawn(seed: int, structures: tuple[int, int], sizes: tuple[range, range]) -> Sheet:
    """Return a composed sheet of a drawn size and number of structures, either way up."""
    chance = Chance(f"sheet {seed}")
    number = structures[0] + chance.below(structures[1] - structures[0] + 1)
    size = chance.pick(sizes[0]), chance.pick(sizes[1])
    width, height = size if chance.one_in(2) else size[::-1]
    sheet = compose(chance, width, height, number)
    assert sheet.size == (width, height)
    assert sheet.part.structures == number
    return sheet


LATER = [pytest.param(fours, marks=pytest.mark.long) for fours in range(1, 15)]


@pytest.mark.parametrize("fours", [0, *LATER])
def test_large_sheets_are_proven_by_their_layers(fours: int) -> None:
    """Four of 2 to 6 structures, 24 to 64 squares long: all points and layers fold, corners are points."""
    for seed in range(4 * fours, 4 * fours + 4):
        sheet = drawn(seed, *LARGE)
        pattern = draw(sheet)
        assert tuple(pattern.box) == (0, 0, *sheet.size)
        assert failing(pattern, pattern.labels(), folds) == ()
        assert solve_layers(pattern).folds is True
        assert outlines(sheet)
        assert all(set(corners) <= set(pattern.vertices) for corners in outlines(sheet))


@pytest.mark.long
def test_small_sheets_are_proven_by_their_layers() -> None:
    """Another 60 of one or two structures up to 14 by 12 squares."""
    for seed in range(60):
        sheet = drawn(seed, *SMALL)
        assert solve_layers(draw(sheet)).folds is True
        assert outlines(sheet)


@pytest.mark.parametrize(("large", "small"), [(6, 20), pytest.param(60, 140, marks=pytest.mark.long)])
def test_composed_sheets_differ(large: int, small: int) -> None:
    """Fifty seeds, or two hundred, give nearly as many figures; on the smallest sheets a few coincide."""
    sheets = [
        *(drawn(seed, *LARGE) for seed in range(large)),
        *(drawn(seed, *SMALL) for seed in range(small)),
    ]
    figures = {figure(draw(sheet)) for sheet in sheets}
    assert len(figures) >= 0.98 * len(sheets)


def test_a_seed_always_composes_the_same() -> None:
    """The description depends on the seed alone."""
    first, second = (compose(Chance("one"), 40, 12, 4) for _ in range(2))
    assert first == second


def test_every_kind_is_composed() -> None:
    """Stretches, roofs and diamonds, hinges all ways, and the sizes that the choices say, as their blocks."""
    choices = [tile for row in STRUCTURES.values() for tile in row.tiles((TRIANGLE_345,))]
    assert set(Counter(choice.kind for choice in choices)) == set(STRUCTURES)
    for choice in choices[::11]:
        block = block_of(choice.part)
        assert (block.width, block.height) == (choice.width, choice.height)
        assert {leaving.direction for leaving in block.leaving_hinges} == choice.directions


def test_what_fits_a_strip_fits() -> None:
    """Brought to the height, no wider than the strip, hinges only up and down."""
    found = fitting(8, 12, (UP, DOWN))
    assert {choice.kind for choice in found} == set(STRUCTURES)
    for choice in found[::5]:
        block = block_of(choice.part)
        assert block.height == 8
        assert block.width <= 12
        assert {leaving.direction for leaving in block.leaving_hinges} <= {UP, DOWN}


@pytest.mark.parametrize("structures", [1, 2, 3, 4, 5, 6])
def test_the_tightest_sheets_are_composed(structures: int) -> None:
    """Three squares of width for each and two more, six of height; and the simplest row, kept for need."""
    sheet = compose(Chance("tight"), max(3 * structures + 2, 6), 6, structures)
    assert 1 <= len(outlines(sheet)) <= sheet.part.structures == structures
    assert solve_layers(draw(sheet)).folds is True
    least = fitting(4, 3, (UP, DOWN))[0].part
    assert solve_layers(draw(Sheet(reduce(Beside, [least] * structures)))).folds is True


@pytest.mark.parametrize(("width", "height", "structures"), [(7, 6, 3), (20, 5, 2), (64, 12, 7), (64, 12, 0)])
def test_a_sheet_that_is_too_small_is_refused(width: int, height: int, structures: int) -> None:
    """Too short, too low, too many or none: told what fits."""
    with pytest.raises(ValueError, match="do not fit"):
        compose(Chance("none"), width, height, structures)
