from __future__ import annotations

from itertools import product
from typing import get_args

import pytest

from drills.flatfold import check_angles, failing, folds, solve_layers
from drills.geometry import Point
from drills.structures import Roof, RoofHinge, block_of, roof_lines, sheet_of, with_pleats_around
from tests.drills.sheets import is_slanted

HINGE_PAIRS: list[tuple[RoofHinge, RoofHinge]] = list(product(get_args(RoofHinge), repeat=2))
ONE_WAY: list[tuple[RoofHinge, RoofHinge]] = [("up", "up"), ("down", "down")]


def test_a_roof_by_hand() -> None:
    """Six by four: the ridge line from (2, 2) to (4, 2), one pleat line in a ring, eight ridge pieces."""
    roof = Roof(6, 4, ("side", "up"))
    lines = list(roof_lines(roof))
    assert roof.ridge_line == (Point(2, 2), Point(4, 2))
    assert [line.role for line in lines].count("pleat") == 4
    assert [line.role for line in lines].count("ridge") == 8 + 1
    assert [(line.start, line.end) for line in lines if line.role == "hinge"] == [
        ((2, 2), (1, 2)),
        ((1, 2), (0, 2)),
        ((4, 2), (4, 3)),
        ((4, 3), (4, 4)),
    ]
    assert tuple(hinge.point for hinge in block_of(roof).leaving_hinges) == ((0, 2), (4, 4))


@pytest.mark.parametrize("hinges", HINGE_PAIRS)
@pytest.mark.parametrize("size", [(3, 2), (5, 4), (6, 4), (9, 6)])
def test_all_nine_hinge_pairs_fold(size: tuple[int, int], hinges: tuple[RoofHinge, RoofHinge]) -> None:
    """With a pleat around, some labels have a layer order; those by rank unless both go up or both down."""
    pattern = sheet_of(with_pleats_around(block_of(Roof(*size, hinges)), 1))
    assert check_angles(pattern) == ()
    assert failing(pattern, pattern.labels(), folds) == ()
    assert solve_layers(pattern.unlabelled()).folds is True
    assert solve_layers(pattern).folds is (hinges not in ONE_WAY)


@pytest.mark.parametrize("hinges", ONE_WAY)
def test_hinges_one_way_fold_by_rank_beside_a_long_ridge_line(hinges: tuple[RoofHinge, RoofHinge]) -> None:
    """They do exactly where the ridge line is no shorter than the hinges, pleats around counted."""
    for half, pleats, ridge_line in product((1, 2, 3), (0, 1, 2, 3), range(1, 8)):
        roof = Roof(2 * half + ridge_line, 2 * half, hinges)
        pattern = sheet_of(with_pleats_around(block_of(roof), pleats))
        assert solve_layers(pattern).folds is (ridge_line >= half + pleats)


def test_a_roof_has_no_slanted_line() -> None:
    """Every crease runs along the grid or at 45 degrees."""
    pattern = sheet_of(with_pleats_around(block_of(Roof(9, 4)), 2))
    ways = [way for directions in pattern.directions for way in directions]
    assert not any(is_slanted(way) for way in ways)


@pytest.mark.parametrize("size", [(4, 4), (3, 4), (6, 3), (2, 0)])
def test_a_roof_of_another_size_is_refused(size: tuple[int, int]) -> None:
    """Wider than high, the height even and not nothing."""
    with pytest.raises(ValueError, match="wider than high"):
        Roof(*size)
