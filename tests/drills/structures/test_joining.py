from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from drills.flatfold import check_angles, completions, failing, folds, solve_layers
from drills.geometry import Direction, Point
from drills.pattern import Line, faces
from drills.structures import (
    DOWN,
    LEFT,
    RIGHT,
    UP,
    Block,
    Roof,
    Side,
    Stretch,
    Triangle,
    beside,
    block_of,
    check_block,
    exchanged,
    mirror_pair,
    mirrored,
    sheet_of,
    with_pleats_around,
)
from tests.drills.flatfold.counting import count_foldable
from tests.drills.sheets import HINGES


def stretch_block(units: int, facing: int = 0, hinges: tuple[Side, Side] = ("shallow", "shallow")) -> Block:
    """Return the block of a stretch of equal sides."""
    return block_of(Stretch((units, units), hinges, pleats=0, facing=facing))


UPRIGHT_HINGES = [
    stretch_block(units, facing, hinges)
    for units, facing, hinges in product((1, 2), range(4), HINGES)
    if not {LEFT, RIGHT}
    & {leaving.direction for leaving in stretch_block(units, facing, hinges).leaving_hinges}
]


def test_two_stretches_by_hand() -> None:
    """Two of 4 by 3 with a gap of two: 12 by 5, sharing the line at x = 6, with hinges from its ends."""
    pair = beside(stretch_block(1), stretch_block(1), 2)
    assert (pair.width, pair.height) == (12, 5)
    assert Line(Point(6, 0), Point(6, 5), "pleat", "V") in pair.lines
    assert {(leaving.point, leaving.direction) for leaving in pair.leaving_hinges} == {
        ((4, 0), DOWN),
        ((2, 5), UP),
        ((10, 0), DOWN),
        ((8, 5), UP),
        ((6, 0), DOWN),
        ((6, 5), UP),
    }
    assert pair.outlines[1] == ((7, 1), (10, 2), (11, 4), (8, 3))


@pytest.mark.parametrize("gap", [0, 2, 4])
@pytest.mark.parametrize("block", UPRIGHT_HINGES)
def test_stretches_beside_each_other_fold_by_rank(block: Block, gap: int) -> None:
    """The same twice, and one with its mirror image, with a pleat around: points, labels and layers."""
    for other in (block, mirrored(block), exchanged(block)):
        pattern = sheet_of(with_pleats_around(beside(block, other, gap), 1))
        assert check_angles(pattern) == ()
        assert failing(pattern, pattern.labels(), folds) == ()
        assert solve_layers(pattern).folds is True


@pytest.mark.parametrize("gap", [0, 2, 4])
def test_a_stretch_and_a_roof_fold(gap: int) -> None:
    """A stretch upright with a roof of its height: by rank where the roof's hinges go two ways."""
    stretch = stretch_block(1, 1, ("steep", "steep"))
    for hinges in (("up", "down"), ("down", "up")):
        pair = beside(stretch, block_of(Roof(7, 4, hinges)), gap)
        assert solve_layers(sheet_of(with_pleats_around(pair, 1))).folds is True


def test_pleats_around_bring_blocks_to_one_height() -> None:
    """A stretch of one unit with two pleats around is as high as an upright one of two units."""
    small, large = stretch_block(1, 1, ("steep", "steep")), stretch_block(2, 1, ("steep", "steep"))
    row = beside(with_pleats_around(small, 2), large)
    assert (row.width, row.height) == (7 + 6, 8)
    assert solve_layers(sheet_of(with_pleats_around(row, 1))).folds is True


def test_a_row_of_four_folds_by_rank() -> None:
    """Three stretches and a roof on 36 by 12 squares, with 98 faces or more."""
    large = stretch_block(2, 1, ("steep", "steep"))
    small = with_pleats_around(stretch_block(1, 1, ("steep", "steep")), 2)
    roof = with_pleats_around(block_of(Roof(11, 6, ("up", "down"))), 1)
    row = beside(beside(beside(large, small), roof), mirrored(small))
    pattern = sheet_of(with_pleats_around(row, 2), (1, 0, 0, 0))
    left, _, right, top = pattern.box
    assert (right - left, top) == (36, 12)
    assert len(faces(pattern)) >= 98
    assert solve_layers(pattern).folds is True


@pytest.mark.parametrize("units", [1, 2])
@pytest.mark.parametrize("facing", range(4))
def test_mirror_images_whose_hinges_run_into_one_fold(units: int, facing: int) -> None:
    """Across a shared edge or with a gap, with and without pleats around: with labels from the layers."""
    for hinges, gap, pleats in product(HINGES, (0, 2), (0, 1)):
        block = stretch_block(units, facing, hinges)
        if block.leaving_towards(RIGHT):
            pattern = sheet_of(with_pleats_around(mirror_pair(block, gap), pleats))
            assert check_angles(pattern) == ()
            assert solve_layers(pattern).folds is True


@pytest.mark.parametrize("facing", [0, pytest.param(1, marks=pytest.mark.long)])
def test_a_pair_without_pleats_around_has_many_labellings(facing: int) -> None:
    """A smallest stretch and its mirror image across a shared edge: five or more fold."""
    for hinges in HINGES[:: 3 if facing else len(HINGES)]:
        block = stretch_block(1, facing, hinges)
        _, whole = count_foldable(sheet_of(mirror_pair(block)).unlabelled())
        assert whole >= 5


def test_blocks_that_do_not_go_together_are_refused() -> None:
    """Another height, an odd gap, hinges towards each other, pleats of another width."""
    block = stretch_block(1)
    with pytest.raises(ValueError, match="one height, not 3 and 6"):
        beside(block, stretch_block(2))
    with pytest.raises(ValueError, match="even number"):
        beside(block, block, 1)
    with pytest.raises(ValueError, match="at height 1 towards"):
        beside(stretch_block(1, 0, ("steep", "shallow")), block)
    with pytest.raises(ValueError, match="at height 2 towards"):
        beside(block, stretch_block(1, 0, ("shallow", "steep")))
    wide = block_of(Stretch((1, 1), triangle=Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 2)))
    with pytest.raises(ValueError, match="one width"):
        beside(block, wide)


def test_a_join_that_could_not_fold_is_refused_with_its_place() -> None:
    """A block that lacks a hinge: the point of its outline where it is missed is named."""
    block = stretch_block(1)
    no_hinges = replace(
        block, lines=tuple(line for line in block.lines if line.role != "hinge"), leaving_hinges=()
    )
    with pytest.raises(ValueError, match="2 across, 3 up"):
        check_block(no_hinges)
    with pytest.raises(ValueError, match="do not go together"):
        beside(no_hinges, block)


def test_labels_by_rank_are_the_only_ones_there_with_a_pleat_around() -> None:
    """With the pleat and inside lines given, the ridges and hinges of a pair follow at each point."""
    pattern = sheet_of(with_pleats_around(beside(stretch_block(1), stretch_block(1), 2), 1))
    given = ["U" if edge.role in ("ridge", "hinge", "outline") else edge.label for edge in pattern.edges]
    assert list(completions(pattern, given)) == [pattern.labels()]
