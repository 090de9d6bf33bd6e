"""The folded shape as a page: from either side, at one scale, its layers told by shading."""

from __future__ import annotations

from collections.abc import Callable

from drills.flatfold import FoldedShape, Side
from drills.geometry import Exact, Point
from trainer.paper.page import At, Drawn, Filled, Page, Stroke

LONGEST = 120.0
"""Millimetres that the longer side of either view takes."""
MARGIN, BELOW = 10.0, 18.0
OUTLINE, EDGE = Stroke(0.6), Stroke(0.3)
LIGHTEST, DARKEST = 0.96, 0.55
"""Greys of one layer and of the most; lines stay readable on the darkest."""
SIDES: tuple[Side, Side] = "above", "below"


def shape_page(shape: FoldedShape, title: str) -> Page:
    """Return the folded shape seen from above, and beside it turned over from left to right."""
    left, bottom, right, top = _box(shape)
    scale = LONGEST / float(max(right - left, top - bottom))
    wide, high = float(right - left) * scale, float(top - bottom) * scale
    page = Page(3 * MARGIN + 2 * wide, 2 * MARGIN + high + BELOW, f"{title}, folded")
    for number, side in enumerate(SIDES):
        start = MARGIN + number * (wide + MARGIN)

        def at(point: Point, start: float = start, side: Side = side) -> At:
            across = float(point.x - left if side == "above" else right - point.x)
            return start + across * scale, MARGIN + float(top - point.y) * scale

        draw_shape(page, shape, side, at)
        words = "from above" if side == "above" else "from below, turned over left to right"
        page.say((start, MARGIN + high + 6), words)
    most = f"{shape.most_layers} layers where it is darkest"
    unordered = (
        "" if shape.is_ordered else "; the order of the layers is not known, so no edge inside is drawn"
    )
    page.say((MARGIN, MARGIN + high + 13), f"{title}: {most}{unordered}")
    return page


def draw_shape(page: Page, shape: FoldedShape, side: Side, at: Callable[[Point], At]) -> None:
    """Add the shape as it is seen from a side, each stack the darker the more layers it has."""
    most = shape.most_layers
    for stack in shape.stacks:
        share = (len(stack.faces) - 1) / max(1, most - 1)
        grey = LIGHTEST - share * (LIGHTEST - DARKEST)
        page.items.append(Filled(tuple(map(at, stack.corners)), grey))
    for ends in shape.edges_seen(side):
        page.items.append(Drawn(tuple(map(at, ends)), EDGE))
    for ends in shape.outline():
        page.items.append(Drawn(tuple(map(at, ends)), OUTLINE))


def _box(shape: FoldedShape) -> tuple[Exact, Exact, Exact, Exact]:
    xs, ys = [point.x for point in shape.points], [point.y for point in shape.points]
    return min(xs), min(ys), max(xs), max(ys)
