from __future__ import annotations

from itertools import product
from typing import TypeAlias, get_args

import pytest

from drills.flatfold import check_angles, failing, folds, solve_layers
from drills.geometry import Point
from drills.pattern import Paper, build
from drills.structures import (
    LEFT,
    RIGHT,
    Diamond,
    FieldSheet,
    Framed,
    Roof,
    Sideways,
    block_of,
    diamond_field,
    draw,
    sheet_of,
    with_pleats_around,
)
from tests.drills.sheets import is_slanted

Hinges: TypeAlias = tuple[Sideways, Sideways] | None
SIDEWAYS: list[tuple[Sideways, Sideways]] = list(product(get_args(Sideways), repeat=2))
HINGES: list[Hinges] = [*SIDEWAYS, None]


def test_a_diamond_by_hand() -> None:
    """Half diagonal 1 in a field of four pleats: four sides, one level line, four hinges to the edge."""
    lines = list(diamond_field(Diamond(2, 3, 1, 4, ("right", "left")), 6))
    sides = [line for line in lines if line.role == "ridge"]
    assert {frozenset((line.start, line.end)) for line in sides} == {
        frozenset((Point(2, y), Point(x, 3))) for y in (2, 4) for x in (1, 3)
    }
    level = [line for line in lines if line.role == "pleat" and line.start.y == line.end.y]
    assert [(line.start, line.end) for line in level] == [((1, 3), (3, 3))]
    ends = {line.end for line in lines if line.role == "hinge"} & {
        Point(x, y) for x in (0, 4) for y in range(7)
    }
    assert ends == {(0, 3), (4, 3), (4, 4), (0, 2)}


@pytest.mark.parametrize("hinges", SIDEWAYS)
@pytest.mark.parametrize("half", [1, 2, 3])
def test_hinges_sideways_fold_by_rank(half: int, hinges: Hinges) -> None:
    """In an open field the labels by rank fold at each point and have a layer order."""
    field = 2 * half + 2
    diamond = Diamond(half + 1, half + 1, half, field, hinges)
    pattern = build(diamond_field(diamond, field), Paper(0, 0, field, field))
    assert check_angles(pattern) == ()
    assert failing(pattern, pattern.labels(), folds) == ()
    assert solve_layers(pattern).folds is True
    assert draw(FieldSheet(diamond, field)) == pattern


@pytest.mark.parametrize("half", [1, 2, 3])
def test_a_line_straight_through_folds_with_other_labels(half: int) -> None:
    """Ranks do not label it; the layer search does."""
    diamond = Diamond(half + 1, half + 1, half, 2 * half + 2, None)
    field = diamond_field(diamond, 2 * half + 2)
    by_rank = build(field, Paper(0, 0, 2 * half + 2, 2 * half + 2))
    assert solve_layers(by_rank).folds is False
    for facing, exchanged in product(range(4), (False, True)):
        pattern = draw(FieldSheet(diamond, 2 * half + 2, facing, exchanged))
        assert "U" not in pattern.labels()
        assert solve_layers(pattern).folds is True


@pytest.mark.parametrize("hinges", HINGES)
@pytest.mark.parametrize(("half", "field"), [(1, 2), (1, 4), (2, 4), (2, 6)])
def test_a_framed_diamond_folds(half: int, field: int, hinges: Hinges) -> None:
    """In the field of an upright roof, a pleat around: by rank with the roof's hinges up and down."""
    roof = Roof(field + 2 * half + 2, field)
    block = block_of(Framed(Diamond(field // 2, field // 2 + half + 1, half, field, hinges), roof))
    pattern = sheet_of(with_pleats_around(block, 1))
    assert check_angles(pattern) == ()
    assert solve_layers(pattern).folds is (hinges is not None)
    assert solve_layers(pattern.unlabelled()).folds is True
    assert not any(is_slanted(way) for directions in pattern.directions for way in directions)


def test_a_framed_diamond_may_stand_beside_the_middle_of_its_field() -> None:
    """Off the ridge line, at the field's very edge: its hinges leave left and right, and it folds by rank."""
    block = block_of(Framed(Diamond(1, 5, 1, 6), Roof(11, 6)))
    assert len(block.leaving_towards(LEFT)) == 1
    assert len(block.leaving_towards(RIGHT)) == 3
    assert solve_layers(sheet_of(with_pleats_around(block, 1))).folds is True


def test_a_diamond_out_of_its_field_is_refused() -> None:
    """Beyond the field's side, beyond the ends of the ridge line, or in a field of another width."""
    with pytest.raises(ValueError, match="must lie between 0 and 4"):
        Diamond(1, 3, 2, 4)
    with pytest.raises(ValueError, match="between the ends"):
        block_of(Framed(Diamond(1, 2, 1, 2), Roof(6, 2)))
    with pytest.raises(ValueError, match="4 pleats wide"):
        block_of(Framed(Diamond(1, 3, 1, 2), Roof(8, 4)))
