"""Putting blocks together: beside or above one another, or a block and its mirror image.

Where the corners of the two meet, at either end of the line they share, a new hinge leaves.
"""

from __future__ import annotations

from dataclasses import replace

from drills.exact.plane import Point
from drills.exact.symmetry import HALF_TURN, QUARTER_TURN
from drills.pattern.building import Line
from drills.pattern.crease_pattern import CreasePattern
from drills.structures.block import (
    DOWN,
    LEFT,
    RIGHT,
    UP,
    Block,
    Exit,
    exchanged,
    mirrored,
    sheet_of,
    shifted,
    turned_block,
    with_pleats_around,
)
from drills.vertex.kawasaki import check_angles


def beside(left: Block, right: Block, gap: int = 0) -> Block:
    """Return two blocks of one height side by side with so many pleats, an even number, between them.

    Each gets half of the gap around it, and the outermost pleat lines fall together. The right one's
    labels are exchanged where the shared line needs it. ValueError where they do not go together.
    """
    _check_hinges(left, right)
    return _joined(left, right, gap)


def above(lower: Block, upper: Block, gap: int = 0) -> Block:
    """Return two blocks of one width one above the other: as beside, a quarter turned."""
    if lower.width != upper.width:
        raise ValueError(
            f"Blocks above each other must be of one width, not {lower.width} and {upper.width}."
        )
    back = QUARTER_TURN.then(HALF_TURN)
    return turned_block(beside(turned_block(lower, back), turned_block(upper, back), gap), QUARTER_TURN)


def mirror_pair(block: Block, gap: int = 0) -> Block:
    """Return a block with its mirror image at its right; hinges towards each other run into one.

    Such hinges break the alternation of the labels, so the pair then comes without any.
    """
    if block.exits_to(RIGHT):
        block = without_labels(block)
    return _joined(block, mirrored(block), gap)


def without_labels(block: Block) -> Block:
    """Return the block with the labels of all its lines and hinges taken away."""
    return replace(
        block,
        lines=tuple(line._replace(label="U") for line in block.lines),
        exits=tuple(exit_._replace(label="U") for exit_ in block.exits),
        edge="U",
    )


def check_block(block: Block) -> Block:
    """Return the block if every point of it, its edge included, can fold flat; else ValueError."""
    pattern = sheet_of(with_pleats_around(block, 1))
    wrong = check_angles(pattern)
    if wrong:
        raise ValueError(
            f"These blocks do not go together: the creases at {_place(pattern, wrong[0])} cannot fold."
        )
    return block


def _check_hinges(left: Block, right: Block) -> None:
    facing = [*left.exits_to(RIGHT), *right.exits_to(LEFT)]
    if facing:
        raise ValueError(
            f"A hinge leaves at height {facing[0].place.y} towards the other block; turn one of the two."
        )


def _joined(left: Block, right: Block, gap: int) -> Block:
    if left.pleat != right.pleat or gap % 2:
        raise ValueError("Blocks beside each other need pleats of one width and an even number between them.")
    if left.height != right.height:
        raise ValueError(
            f"Blocks beside each other must be of one height, not {left.height} and {right.height}."
        )
    if left.edge != right.edge:
        right = exchanged(right)
    left, right = (with_pleats_around(block, gap // 2) for block in (left, right))
    return check_block(_sharing(left, shifted(right, left.width, 0)))


def _sharing(left: Block, right: Block) -> Block:
    """Return the two as one block, the right one already in its place, their shared line drawn."""
    low, high = Point(left.width, 0), Point(left.width, left.height)
    outward = [exit_ for exit_ in left.exits if exit_.way != RIGHT]
    outward += [exit_ for exit_ in right.exits if exit_.way != LEFT]
    new = (Exit(low, DOWN, left.edge), Exit(high, UP, left.edge))
    return replace(
        left,
        width=left.width + right.width,
        lines=(*left.lines, *right.lines, Line(low, high, "pleat", left.edge)),
        exits=(*outward, *new),
        outlines=left.outlines + right.outlines,
    )


def _place(pattern: CreasePattern, vertex: int) -> str:
    """Return a point in words, counted from the lower left corner of the block with a pleat around it."""
    x, y = pattern.vertices[vertex]
    return f"{x} across, {y} up"
