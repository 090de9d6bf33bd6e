"""Drawings put on paper: one to a page where it fits, else in tiles to be cut and laid side by side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil, dist
from typing import NamedTuple

from trainer.paper.page import At, Box, Drawn, Filled, Item, Page, Spot, Stroke, Words


class Paper(NamedTuple):
    """The width and height of a page in millimetres."""

    width: float
    height: float

    def turned_for(self, is_wide: bool) -> Paper:
        """Return the paper laid so that it is wide, or so that it is high."""
        return Paper(self.height, self.width) if is_wide == (self.width < self.height) else self


PAPERS: Mapping[str, Paper] = {"a4": Paper(210.0, 297.0), "letter": Paper(215.9, 279.4)}
"""By ISO 216 and ANSI/ASME Y14.1, from memory."""
MARGIN, HEAD, FOOT = 12.0, 16.0, 26.0
CUT, CUT_MARK = Stroke(0.2), 5.0
THIN = Stroke(0.2, grey=0.4)
CHECKED = 50.0
"""Millimetres of the line by which the scale of a print is checked."""


class Caption(NamedTuple):
    """What stands round a drawing: what it is, its code, the strokes it has, and lines below."""

    title: str
    code: str
    strokes: Sequence[tuple[Stroke, str]]
    lines: Sequence[str]


def room_on(paper: Paper) -> tuple[float, float]:
    """Return the width and height of a drawing that fits one page."""
    return paper.width - 2 * MARGIN, paper.height - 2 * MARGIN - HEAD - FOOT


def pages_of(drawing: Page, caption: Caption, paper: Paper) -> Iterator[Page]:
    """Yield the pages that show a drawing at its true size, row by row where it takes several."""
    wide, high = room_on(paper)
    columns, rows = ceil(drawing.width / wide - 1e-9), ceil(drawing.height / high - 1e-9)
    for row in range(rows):
        for column in range(columns):
            window = Box(
                column * wide,
                row * high,
                min((column + 1) * wide, drawing.width),
                min((row + 1) * high, drawing.height),
            )
            place = f", part {row * columns + column + 1} of {rows * columns}" if rows * columns > 1 else ""
            page = blank_page(caption, paper, place)
            page.items += placed(
                clipped(drawing.items, window), MARGIN - window.left, MARGIN + HEAD - window.top
            )
            if place:
                _add_cut_marks(page, window)
                page.say(
                    (MARGIN, page.height - MARGIN),
                    f"Row {row + 1} of {rows}, column {column + 1} of {columns}: cut at the corner marks, "
                    "lay edge to edge.",
                    2.8,
                )
            yield page


def blank_page(caption: Caption, paper: Paper, place: str = "") -> Page:
    """Return a page with its head, a line for the name, its legend and a line that checks the scale."""
    width, height = paper
    page = Page(width, height, caption.title + place)
    page.say((MARGIN, MARGIN + 4), caption.title + place, 4.2)
    page.say((MARGIN, MARGIN + 9), caption.code, 3.2)
    page.say((width - MARGIN - 72, MARGIN + 4), "Name", 3.2)
    page.line((width - MARGIN - 62, MARGIN + 4.5), (width - MARGIN, MARGIN + 4.5), THIN)
    y = height - MARGIN - FOOT + 7
    x = MARGIN
    for stroke, words in caption.strokes:
        page.line((x, y), (x + 12, y), stroke)
        page.say((x + 14, y + 1), words, 3)
        x += 40
    y += 5
    page.line((MARGIN, y), (MARGIN + CHECKED, y), THIN)
    for end in (MARGIN, MARGIN + CHECKED):
        page.line((end, y - 1), (end, y + 1), THIN)
    page.say(
        (MARGIN + CHECKED + 3, y + 1),
        "50 mm: if it is not, print at 100 percent, not fitted to the page",
        2.8,
    )
    for number, line in enumerate(caption.lines):
        page.say((MARGIN, y + 5 + 4 * number), line, 2.8)
    return page


def placed(items: Sequence[Item], right: float, down: float) -> Iterator[Item]:
    """Yield items moved so far right and down."""

    def moved(at: At) -> At:
        return at[0] + right, at[1] + down

    for item in items:
        match item:
            case Drawn(points, stroke):
                yield Drawn(tuple(map(moved, points)), stroke)
            case Filled(corners, grey):
                yield Filled(tuple(map(moved, corners)), grey)
            case _:
                yield item._replace(at=moved(item.at))


def clipped(items: Sequence[Item], window: Box) -> list[Item]:
    """Return what of the lines, spots and words lies in a window; areas are left out, as no sheet has any.

    Dashes of a line that is cut go on in the next window where they ended in this one.
    """
    found: list[Item] = []
    for item in items:
        if isinstance(item, Drawn) and (part := _part_inside(item.points[0], item.points[-1], window)):
            (ax, ay), (bx, by) = item.points[0], item.points[-1]
            start, end = ((ax + (bx - ax) * t, ay + (by - ay) * t) for t in part)
            phase = dist((ax, ay), (bx, by)) * part[0] if item.stroke.dashes else 0.0
            found.append(Drawn((start, end), item.stroke._replace(phase=phase)))
        elif isinstance(item, Spot | Words) and _holds(window, item.at):
            found.append(item)
    return found


def _holds(window: Box, at: At) -> bool:
    return window.left <= at[0] <= window.right and window.top <= at[1] <= window.bottom


def _part_inside(start: At, end: At, window: Box) -> tuple[float, float] | None:
    """Return from which to which part of a line it is in the window (Liang and Barsky 1984, from memory)."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    first, last = 0.0, 1.0
    for towards, room in (
        (-dx, start[0] - window.left),
        (dx, window.right - start[0]),
        (-dy, start[1] - window.top),
        (dy, window.bottom - start[1]),
    ):
        if towards == 0:
            if room < 0:
                return None
        elif towards < 0:
            first = max(first, room / towards)
        else:
            last = min(last, room / towards)
    return (first, last) if first < last else None


def _add_cut_marks(page: Page, window: Box) -> None:
    """Add marks outside the corners of a tile."""
    left, top = MARGIN, MARGIN + HEAD
    right, bottom = left + window.right - window.left, top + window.bottom - window.top
    for x, away in ((left, -1), (right, 1)):
        for y, down in ((top, -1), (bottom, 1)):
            page.line((x + away, y), (x + away * CUT_MARK, y), CUT)
            page.line((x, y + down), (x, y + down * CUT_MARK), CUT)
