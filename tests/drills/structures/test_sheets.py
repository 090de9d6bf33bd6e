from __future__ import annotations

import pytest

from drills.flatfold import solve_layers
from drills.structures import (
    Around,
    Beside,
    Diamond,
    Framed,
    Mirrored,
    Roof,
    Sheet,
    Stretch,
    Turned,
    block_of,
    creases_of,
    draw,
    labelled,
    outline,
    outlines,
)
from tests.drills.sheets import figure

UPRIGHT = Stretch((1, 1), ("steep", "steep"), pleats=0, facing=1)
LOOK_ALIKE = Turned(Framed(Diamond(2, 4, 1, 4, ("left", "right")), Roof(8, 4, ("up", "down"))), 1)


def test_a_sheet_of_one_stretch_is_that_stretch() -> None:
    """Drawn, labelled and measured the same as the stretch itself with as many pleats around."""
    stretch = Stretch((2, 2), ("shallow", "steep"), pleats=2, facing=3, exchanged=True)
    sheet = Sheet(stretch, pleats=2)
    assert draw(sheet) == draw(stretch)
    assert outlines(sheet) == (outline(stretch),)
    assert sheet.size == stretch.size


def test_a_sheet_with_every_kind_of_part() -> None:
    """A stretch, a roof and a diamond in a row: corners where they are drawn, and it folds."""
    part = Beside(Beside(UPRIGHT, Roof(5, 4, ("up", "down"))), LOOK_ALIKE, 2)
    sheet = Sheet(part, pleats=2, crop=(1, 0, 0, 1))
    pattern = draw(sheet)
    assert part.structures == 3
    assert sheet.size == (3 + 5 + 2 + 8 + 2 + 4 - 1, 4 + 2 + 4 - 1)
    assert tuple(pattern.box) == (0, 0, *sheet.size)
    assert outlines(sheet) == (((5, 3), (4, 6), (2, 7), (3, 4)),)
    assert set(outlines(sheet)[0]) <= set(pattern.vertices)
    assert solve_layers(pattern).folds is True


def test_labels_come_from_the_layers_where_ranks_do_not_give_them() -> None:
    """A short roof whose hinges go up, and a line straight through a diamond: other labels, same creases."""
    for part in (Roof(3, 2, ("up", "up")), Framed(Diamond(1, 3, 1, 2, None), Roof(6, 2))):
        sheet = Sheet(part, pleats=2)
        by_rank, pattern = creases_of(sheet), draw(sheet)
        assert solve_layers(by_rank).folds is False
        assert pattern.unlabelled() == by_rank.unlabelled()
        assert "U" not in pattern.labels()
        assert solve_layers(pattern).folds is True


def test_mirror_images_fold() -> None:
    """Stretches whose hinges run into one, at once or over pleats between them."""
    single = Stretch((1, 1), ("steep", "shallow"), pleats=0)
    for part in (Mirrored(single), Mirrored(single, 2)):
        assert solve_layers(draw(Sheet(part))).folds is True


def test_facing_and_exchange_of_a_whole_sheet() -> None:
    """Each of the eight symmetries and the exchange is another figure, all fold, and the corners follow."""
    part = Beside(UPRIGHT, Roof(5, 4, ("up", "down")))
    sheets = [
        Sheet(part, facing=facing, exchanged=other, crop=(0, 1, 0, 0))
        for facing in range(8)
        for other in (False, True)
    ]
    patterns = [draw(sheet) for sheet in sheets]
    assert len({figure(pattern) for pattern in patterns}) == 16
    for sheet, pattern in zip(sheets, patterns, strict=True):
        assert solve_layers(pattern).folds is True
        assert set(outlines(sheet)[0]) <= set(pattern.vertices)


def test_equal_descriptions_are_one_sheet() -> None:
    """They compare and hash alike, and draw the same pattern."""
    first, second = Sheet(Around(UPRIGHT, 1), 2), Sheet(Around(UPRIGHT, 1), 2)
    assert first == second
    assert len({first, second}) == 1
    assert draw(first) == draw(second)
    assert block_of(Around(UPRIGHT, 1)).height == 6


def test_labels_that_cannot_fold_are_replaced() -> None:
    """Mountains alone cannot fold, but the creases can: other labels are chosen, no crease is moved."""
    creases = creases_of(Sheet(UPRIGHT))
    all_mountains = creases.with_labels("B" if edge.label == "B" else "M" for edge in creases.edges)
    assert labelled(all_mountains).unlabelled() == creases.unlabelled()
    assert solve_layers(labelled(all_mountains)).folds is True


def test_parts_that_do_not_go_together_are_refused() -> None:
    """The error is that of the join."""
    with pytest.raises(ValueError, match="one height"):
        draw(Sheet(Beside(UPRIGHT, Roof(3, 2, ("up", "down")))))
