from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from drills.flatfold import solve_layers
from drills.geometry import SYMMETRIES, Direction
from drills.pattern import turned
from drills.structures import (
    DOWN,
    UP,
    Block,
    Diamond,
    Framed,
    Roof,
    Stretch,
    Triangle,
    block_of,
    draw,
    exchanged,
    mirrored,
    outline,
    quarter_turned,
    sheet_of,
    shifted,
    turned_block,
    with_pleats_around,
)
from tests.drills.sheets import HINGES, figure

BLOCKS = [
    block_of(Stretch((2, 2), ("shallow", "steep"), pleats=0, facing=1)),
    block_of(Roof(5, 2, ("up", "side"))),
    block_of(Framed(Diamond(2, 5, 1, 4, ("left", "right")), Roof(9, 4))),
]


def test_the_block_of_the_smallest_stretch() -> None:
    """Four by three, hinges down from A and up from B, and its corners S, A, T, B, by hand."""
    block = block_of(Stretch((1, 1)))
    assert (block.width, block.height, block.edge) == (4, 3, "M")
    assert block.leaving_hinges == (((1, 3), UP, "V"), ((3, 0), DOWN, "V")) or block.leaving_hinges == (
        ((3, 0), DOWN, "V"),
        ((1, 3), UP, "V"),
    )
    assert block.outlines == (((0, 0), (3, 1), (4, 3), (1, 2)),)


@pytest.mark.parametrize("hinges", HINGES)
def test_pleats_around_a_stretch_are_those_it_is_drawn_with(hinges: tuple[str, str]) -> None:
    """The block with pleats around is the same figure as the stretch drawn with as many, label by label."""
    for units, facing, other, pleats in product((1, 2, 3), range(4), (False, True), range(4)):
        stretch = Stretch((units, units), hinges, pleats, facing, other)  # type: ignore[arg-type]
        block = with_pleats_around(block_of(stretch), pleats)
        assert figure(sheet_of(block)) == figure(draw(stretch))
        assert block.outlines == (outline(stretch),)


def test_any_triangle_makes_a_block() -> None:
    """5-12-13 with pleats two squares wide, and 7-24-25 with turning points off the grid."""
    for triangle in (
        Triangle("5-12-13", Direction(5, 1), Direction(2, 3), 2),
        Triangle("7-24-25", Direction(7, 1), Direction(3, 4), 1),
    ):
        stretch = Stretch((3, 3), triangle=triangle)
        block = with_pleats_around(block_of(stretch), 1)
        assert block.pleat == triangle.width
        assert figure(sheet_of(block)) == figure(draw(stretch))
        assert solve_layers(sheet_of(block)).folds is True


def test_unequal_sides_are_no_block() -> None:
    """Their pleats spiral."""
    with pytest.raises(ValueError, match="equal sides"):
        block_of(Stretch((2, 1)))


@pytest.mark.parametrize("block", BLOCKS)
def test_turning_a_block_turns_its_sheet(block: Block) -> None:
    """Under each symmetry, before or after the pleats around it."""
    whole = with_pleats_around(block, 1)
    for symmetry in SYMMETRIES:
        image = turned_block(block, symmetry)
        assert figure(sheet_of(with_pleats_around(image, 1))) == figure(turned(sheet_of(whole), symmetry))
        assert figure(sheet_of(turned_block(whole, symmetry))) == figure(turned(sheet_of(whole), symmetry))


@pytest.mark.parametrize("block", BLOCKS)
def test_what_is_done_twice_or_four_times_undoes_itself(block: Block) -> None:
    """Mirror image and exchange twice, a quarter turn four times, a shift there and back."""
    assert mirrored(mirrored(block)) == block
    assert exchanged(exchanged(block)) == block
    assert quarter_turned(quarter_turned(quarter_turned(quarter_turned(block)))) == block
    assert shifted(shifted(block, 2, 3), -2, -3) == block
    assert exchanged(with_pleats_around(block, 2)) == with_pleats_around(exchanged(block), 2)


@pytest.mark.parametrize("block", BLOCKS)
@pytest.mark.parametrize("pleats", [0, 1, 2, 3])
def test_pleats_around_fold(block: Block, pleats: int) -> None:
    """Labels by rank have a layer order with any number of pleats around, and so have their exchange."""
    whole = with_pleats_around(block, pleats)
    assert (whole.width, whole.height) == (block.width + 2 * pleats, block.height + 2 * pleats)
    assert solve_layers(sheet_of(whole)).folds is True
    assert solve_layers(sheet_of(exchanged(whole))).folds is True


def test_a_crop_is_a_part_of_the_sheet() -> None:
    """One square off the left and two off the top of a sheet of 6 by 5 leave 5 by 3, which folds."""
    whole = with_pleats_around(block_of(Stretch((1, 1))), 1)
    part = sheet_of(whole, (1, 0, 0, 2))
    assert part.box == (1, 0, 6, 3)
    assert solve_layers(part).folds is True


def test_a_block_is_a_value() -> None:
    """Equal descriptions make equal blocks that hash alike."""
    assert hash(BLOCKS[0]) == hash(replace(BLOCKS[0]))
