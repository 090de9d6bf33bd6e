"""The drills of a set on paper, two to a page: the questions with room for the answers, or the answers."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from drills.geometry import Point
from drills.questions import KINDS, Drill
from trainer.answering import verdict_look
from trainer.board import Look
from trainer.paper.page import Drawn, Page, Spot, Stroke
from trainer.paper.sheet import RIM, STYLES, Layout, add_dots, add_edges, blank_sheet, layout_of
from trainer.paper.tiles import HEAD, MARGIN, THIN, Caption, Paper, blank_page, placed, room_on
from trainer.ways_of_asking import input_for, way_of

ON_A_PAGE = 2
LINE, LETTERS = 4.2, 100
"""Millimetres from line to line of words, and how many letters one takes at most."""
PLAIN, DIM, THICK = Stroke(0.25), Stroke(0.18, grey=0.5), 1.1
START, TRUE_POINT = 1.2, 1.5
LINES_ABOVE, LINES_BELOW = 3, 4
"""Lines of words above a drawing and below it."""


def drill_pages(drills: Sequence[Drill], caption: Caption, paper: Paper, answered: bool) -> Iterator[Page]:
    """Yield the pages of a set in its order, with the questions or with the answers."""
    _, high = room_on(paper)
    for first in range(0, len(drills), ON_A_PAGE):
        page = blank_page(caption, paper)
        for place, drill in enumerate(drills[first : first + ON_A_PAGE]):
            top = MARGIN + HEAD + place * high / ON_A_PAGE
            _add_drill(page, drill, first + place + 1, top, answered)
        yield page


def _add_drill(page: Page, drill: Drill, number: int, top: float, answered: bool) -> None:
    """Add one drill from a height on: its words, its drawing, and a line for the answer or the answer."""
    wide, high = room_on(Paper(page.width, page.height))
    asked = input_for(drill).look()
    verdict = drill.judge(drill.question.right_answer(drill)) if answered else None
    says = way_of(drill).text.put(drill.question, drill, {}) if asked.bare else " ".join(drill.question.says)
    page.say((MARGIN, top + 3), f"{number}. {KINDS[drill.kind].title} ({drill.code})", 3.4)
    _say_lines(page, says, top + 3 + LINE, LINES_ABOVE - 1)
    room = high / ON_A_PAGE - (LINES_ABOVE + LINES_BELOW) * LINE - 2 * RIM
    look = verdict_look(drill, verdict, asked) if verdict else asked
    drawing = _drawing(drill, look, wide - 2 * RIM, room)
    down = top + LINES_ABOVE * LINE + 1
    page.items += placed(drawing.items, MARGIN, down)
    below = down + drawing.height + LINE
    if verdict:
        _say_lines(page, f"{verdict.truth} {verdict.why}", below, LINES_BELOW)
    else:
        page.say((MARGIN, below + 2), "Answer", 3.2)
        page.line((MARGIN + 14, below + 2.5), (MARGIN + wide, below + 2.5), THIN)


def _say_lines(page: Page, text: str, top: float, most: int) -> None:
    for number, line in enumerate(textwrap.wrap(text, LETTERS, max_lines=most, placeholder=" ...")):
        page.say((MARGIN, top + number * LINE), line, 3.2)


def _drawing(drill: Drill, look: Look, wide: float, high: float) -> Page:
    """Return the sheet in so much room as the board shows it, what is lit and what is true thick."""
    pattern = drill.pattern
    left, bottom, right, top = pattern.box
    across, up = float(right - left), float(top - bottom)
    layout = layout_of(pattern, min(wide / across, high / up) * max(across, up))
    page = blank_sheet(pattern, layout, drill.code)
    true = look.right.edges | look.missed.edges | look.lit
    for edge in pattern.creases:
        if look.bare or edge in look.hidden:
            continue
        label = pattern.edges[edge].label
        stroke = STYLES[label] if look.labels else DIM if look.is_told else PLAIN
        add_edges(
            page, pattern, layout, [edge], stroke._replace(width=THICK, grey=0.0) if edge in true else stroke
        )
    for outline in look.outlines:
        add_edges(page, pattern, layout, outline, Stroke(THICK))
    add_dots(page, layout, look.points)
    if look.arrow:
        _add_point(page, layout, pattern.vertices[look.arrow[0]], START)
    for point in look.right.points | look.missed.points:
        _add_point(page, layout, point, TRUE_POINT)
    corners = tuple(map(layout.at, look.staircase))
    page.items += [Drawn(corners, Stroke(0.3, (0.6, 0.6)))] if corners else []
    return page


def _add_point(page: Page, layout: Layout, point: Point, radius: float) -> None:
    page.items.append(Spot(layout.at(point), radius))
