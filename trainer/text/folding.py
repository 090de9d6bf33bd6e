"""A sheet's folded shape in words, and drawn at the end of what is said of the sheet."""

from __future__ import annotations

from collections.abc import Iterator

from drills.flatfold import Limit, Side, TearingError
from drills.pattern import CreasePattern, number_of
from trainer.board import FRAMES, SEEN, Folding, draw_folding

TURNED = {"above": "Seen from above.", "below": "Seen from below, turned over left to right."}
NOT_ORDERED = (
    "No order of its layers is known, so no edge inside is drawn; slantwise check says whether it folds flat."
)
COLUMNS, ROWS = 60, 20


def step_in_words(folding: Folding, step: int, side: Side) -> Iterator[str]:
    """Yield what a step of the way shows."""
    yield TURNED[side]
    yield ""
    if step == 0:
        yield "The sheet."
    elif step < FRAMES:
        yield "On the way. A schematic: each point goes straight to its place; paper does not move so."
    elif step == FRAMES:
        yield "Folded, with every crease."
    else:
        yield from shape_in_words(folding)
    if step < SEEN and folding.parts:
        yield "Hatched, dotted: the parts that go in, on either side. Nothing gathers at one point."


def shape_in_words(folding: Folding) -> Iterator[str]:
    """Yield what the drawing of the shape as it is seen shows."""
    yield "Folded, as it is seen."
    if not folding.shape.is_ordered:
        yield NOT_ORDERED
    most = folding.shape.most_layers
    if most == 1:
        yield "It lies in one layer."
        return
    yield f"Dotted: up to {number_of(most // 2, 'layer')}; hatched: more, up to {most}."


def shape_at_end(pattern: CreasePattern, limit: Limit) -> Iterator[str]:
    """Yield a blank line and the folded shape; nothing where the sheet does not fold flat."""
    try:
        folding = Folding.of(pattern, limit)
    except TearingError:
        return
    if folding.shape.is_ordered:
        yield ""
        yield from shape_in_text(folding)


def shape_in_text(folding: Folding) -> Iterator[str]:
    """Yield the lines of the folded shape from either side."""
    yield from shape_in_words(folding)
    sides: tuple[Side, Side] = "above", "below"
    for side in sides:
        yield TURNED[side]
        for line in draw_folding(folding, SEEN, side, COLUMNS, ROWS):
            yield "".join(span.text for span in line).rstrip()
