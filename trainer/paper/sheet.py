"""A crease pattern drawn to scale, its grid numbered along all edges; or bare, to be folded from.

Lines follow the convention of Yoshizawa and Randlett (S. Randlett, The Art of Origami, Dutton 1961):
valleys dashed, mountains dashed with dots. They differ in dashes alone, so that they read in grey.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import floor
from typing import Literal, NamedTuple, TypeAlias

from drills.geometry import Exact, Point
from drills.pattern import CreasePattern, Label
from drills.structures import find_stretches
from trainer.paper.page import At, Drawn, Page, Spot, Stroke

Show: TypeAlias = Literal["all", "grid", "dots", "outline"]
SHOWN: Mapping[Show, str] = {
    "all": "all creases",
    "grid": "the grid alone",
    "dots": "grid and pencil dots",
    "outline": "grid and outline",
}
RIM = 7.0
"""Millimetres round the sheet for the numbers of its grid."""
GRID, PAPER = Stroke(0.12, grey=0.72), Stroke(0.55)
STYLES: Mapping[Label, Stroke] = {
    "B": PAPER,
    "M": Stroke(0.4, (2.4, 0.7, 0.4, 0.7)),
    "V": Stroke(0.3, (1.5, 0.9)),
    "F": Stroke(0.18),
    "U": Stroke(0.18),
}
BARE = Stroke(0.4)
"""Outlines on a bare sheet: their labels are not yet of interest, as all are creased as mountains."""
DOT = 0.7
CLOSE = 4.0
"""Where squares are narrower than this, in millimetres, only every fifth line is numbered."""


class Layout(NamedTuple):
    """Where the pattern lies in its drawing: ``scale`` millimetres to a square, y down from the top."""

    left: Exact
    top: Exact
    scale: float

    def at(self, point: Point) -> At:
        """Return the place of a point."""
        return RIM + float(point.x - self.left) * self.scale, RIM + float(self.top - point.y) * self.scale


def layout_of(pattern: CreasePattern, longer: float) -> Layout:
    """Return the layout in which the longer side of the sheet has this length."""
    left, bottom, right, top = pattern.box
    return Layout(left, top, longer / float(max(right - left, top - bottom)))


def blank_sheet(pattern: CreasePattern, layout: Layout, title: str) -> Page:
    """Return the sheet's edge and its numbered grid."""
    left, bottom, right, top = pattern.box
    wide, high = float(right - left) * layout.scale, float(top - bottom) * layout.scale
    page = Page(wide + 2 * RIM, high + 2 * RIM, title)
    every = 1 if layout.scale >= CLOSE else 5
    for count in range(floor(right - left) + 1):
        x = RIM + count * layout.scale
        page.line((x, RIM), (x, RIM + high), GRID)
        if count % every == 0:
            page.say((x, RIM - 1.5), str(count), 2.6, "middle")
            page.say((x, RIM + high + 3.6), str(count), 2.6, "middle")
    for count in range(floor(top - bottom) + 1):
        y = RIM + count * layout.scale
        page.line((RIM, y), (RIM + wide, y), GRID)
        if count % every == 0:
            page.say((RIM - 1.5, y + 0.9), str(count), 2.6, "end")
            page.say((RIM + wide + 1.5, y + 0.9), str(count), 2.6)
    add_edges(page, pattern, layout, _border(pattern))
    return page


def sheet_drawing(pattern: CreasePattern, longer: float, show: Show, title: str) -> Page:
    """Return the drawing of a sheet, its longer side so many millimetres."""
    layout = layout_of(pattern, longer)
    page = blank_sheet(pattern, layout, title)
    stretches = find_stretches(pattern)
    outline = [edge for found in stretches for edge in found.outline]
    if show == "all":
        add_edges(page, pattern, layout, pattern.creases)
    elif show == "outline":
        add_edges(page, pattern, layout, outline, BARE)
    if show == "dots":
        turning = {vertex for found in stretches for vertex in found.turning_points}
        corners = {point for found in stretches for point in found.corners if point is not None}
        add_dots(page, layout, corners | {pattern.vertices[vertex] for vertex in turning})
    return page


def add_edges(
    page: Page, pattern: CreasePattern, layout: Layout, edges: Iterable[int], stroke: Stroke | None = None
) -> None:
    """Add edges in one stroke, or each as its label is drawn."""
    for edge in edges:
        ends = tuple(layout.at(point) for point in pattern.ends(edge))
        page.items.append(Drawn(ends, stroke or STYLES[pattern.edges[edge].label]))


def add_dots(page: Page, layout: Layout, points: Iterable[Point]) -> None:
    """Add pencil dots."""
    page.items += [Spot(layout.at(point), DOT) for point in sorted(points)]


def legend(labels: Iterable[Label]) -> Iterator[tuple[Stroke, str]]:
    """Yield the strokes of a drawing with these labels, each with what it stands for."""
    words: Mapping[Label, str] = {
        "M": "mountain",
        "V": "valley",
        "U": "open",
        "F": "flat",
        "B": "paper's edge",
    }
    found = set(labels)
    yield from ((STYLES[label], said) for label, said in words.items() if label in found)


def _border(pattern: CreasePattern) -> list[int]:
    return [edge for edge, each in enumerate(pattern.edges) if each.label == "B"]
