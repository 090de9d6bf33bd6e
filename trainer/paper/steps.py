"""The precreasing plan as a sheet: a drawing for each step of a stretch, and the shape at its end."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from drills.flatfold import FoldedShape
from drills.geometry import Exact, Point
from drills.pattern import CreasePattern
from drills.plan import StretchPlan
from trainer.paper.page import At, Page, Stroke
from trainer.paper.shape import draw_shape
from trainer.paper.sheet import RIM, STYLES, add_dots, add_edges, blank_sheet, layout_of
from trainer.paper.tiles import HEAD, MARGIN, Caption, Paper, blank_page, placed, room_on

COLUMNS, ROWS, WORDS = 2, 3, 6.0
"""Drawings on a page, and the millimetres below each for its words."""
DONE = Stroke(0.2, grey=0.45)
"""What earlier steps have creased."""


def plan_pages(
    pattern: CreasePattern, plan: StretchPlan, shape: FoldedShape | None, caption: Caption, paper: Paper
) -> Iterator[Page]:
    """Yield the pages of one stretch's plan, row by row; the folded shape is left out where there is none."""
    wide, high = room_on(paper)
    room = min(wide / COLUMNS, high / ROWS - WORDS) - 2 * RIM
    drawings = list(_drawings(pattern, plan, room))
    if shape:
        drawings.append(_folded(shape, room))
    for first in range(0, len(drawings), COLUMNS * ROWS):
        page = blank_page(caption, paper)
        for place, drawing in enumerate(drawings[first : first + COLUMNS * ROWS]):
            row, column = divmod(place, COLUMNS)
            right, down = MARGIN + column * wide / COLUMNS, MARGIN + HEAD + row * high / ROWS
            page.items += placed(drawing.items, right, down + WORDS)
            page.say((right + RIM, down + WORDS - 1), drawing.title, 3.2)
        yield page


def _drawings(pattern: CreasePattern, plan: StretchPlan, room: float) -> Iterator[Page]:
    """Yield the drawing of each step: what it adds strong, what was there already thin."""
    layout = layout_of(pattern, room)
    dots = [pattern.vertices[dot.vertex] for dot in plan.dots if dot.kind != "edge"]
    outline = [edge for crease in plan.outline for edge in crease.edges]
    inside = [edge for crease in plan.inside for edge in crease.edges]
    marked = blank_sheet(pattern, layout, "1. Mark with a pencil dot")
    add_dots(marked, layout, dots)
    yield marked
    outlined = blank_sheet(pattern, layout, "2. Crease the outline, as mountains")
    add_edges(outlined, pattern, layout, outline, STYLES["M"])
    add_dots(outlined, layout, dots)
    yield outlined
    if inside:
        lined = blank_sheet(pattern, layout, "3. Crease the inside lines, as mountains")
        add_edges(lined, pattern, layout, outline, DONE)
        add_edges(lined, pattern, layout, inside, STYLES["M"])
        add_dots(lined, layout, dots)
        yield lined
    if plan.is_labelled:
        valleys = [edge for edge in (*outline, *inside) if pattern.edges[edge].label == "V"]
        switched = blank_sheet(pattern, layout, "4. Switch to valleys")
        add_edges(switched, pattern, layout, {*outline, *inside} - {*valleys}, DONE)
        add_edges(switched, pattern, layout, valleys, STYLES["V"])
        yield switched
    whole = blank_sheet(pattern, layout, "5. With all the rest, let it collapse")
    add_edges(whole, pattern, layout, pattern.creases)
    yield whole


def _folded(shape: FoldedShape, room: float) -> Page:
    """Return the folded shape from above, as large as the drawings beside it."""
    xs, ys = [point.x for point in shape.points], [point.y for point in shape.points]
    longer = float(max(max(xs) - min(xs), max(ys) - min(ys)))
    page = Page(room + 2 * RIM, room + 2 * RIM, "Folded, the darker the more layers")
    draw_shape(
        page,
        shape,
        "above",
        _fitted(min(xs), max(ys), room / longer),
    )
    return page


def _fitted(left: Exact, top: Exact, scale: float) -> Callable[[Point], At]:
    return lambda point: (RIM + float(point.x - left) * scale, RIM + float(top - point.y) * scale)
