"""Bands and twists: slanted, folding flat, and no stretch but the one above a band."""

from __future__ import annotations

import pytest

from drills.flatfold import check_angles, failing, folds, solve_layers
from drills.geometry import Chance
from drills.structures import Band, SheetDesign, Twist, draw, draw_band, draw_twist, find_stretches
from drills.structures.slanted_field import Above
from tests.drills.flatfold.assorted import folds_anew


def check(sheet: SheetDesign, stretches: int) -> None:
    """Require that it folds flat, layers included, within its size, and shows so many stretches."""
    pattern = draw(sheet)
    assert (0, 0, *sheet.size) == pattern.box
    assert check_angles(pattern) == ()
    assert not failing(pattern, pattern.labels(), folds)
    assert solve_layers(pattern).folds
    assert len(find_stretches(pattern)) == len(sheet.outlines()) == stretches
    ways = [pattern.direction(edge, pattern.edges[edge].start) for edge in pattern.creases]
    assert any(way.dx and way.dy and abs(way.dx) != abs(way.dy) for way in ways)


@pytest.mark.parametrize("size", [(14, 12), (16, 16)])
def test_bands_and_twists_fold_and_are_no_stretch(size: tuple[int, int]) -> None:
    """Ten of each on sheets of either size; below a stretch the band leaves it the only one."""
    for seed in range(10):
        chance = Chance(f"field {seed}")
        check(draw_twist(chance, *size), 0)
        check(draw_band(chance, *size, has_stretch=False), 0)
        check(draw_band(chance, *size, has_stretch=True), 1)


@pytest.mark.parametrize(
    "sheet",
    [
        Band(14, 12, 1, 2),
        Band(14, 12, 2, -1),
        Band(16, 16, 1, -2, Above(1, 6, 6, 1)),
        Twist("2 and 1", (3, 3, 3, 3)),
        Twist("parallelogram", (3, 3, 3, 3)),
    ],
)
def test_the_independent_solver_finds_layers_too(sheet: SheetDesign) -> None:
    """Of one of each sort."""
    assert folds_anew(draw(sheet))


def test_a_band_that_runs_into_the_stretch_is_refused() -> None:
    """Its upper ridge must leave the sheet below where pleats begin to turn, and the lower one must show."""
    with pytest.raises(ValueError, match="choose another start"):
        Band(16, 16, 1, 0, Above(1, 6, 6, 1))
    with pytest.raises(ValueError, match="choose another start"):
        Band(14, 12, 1, -4)
