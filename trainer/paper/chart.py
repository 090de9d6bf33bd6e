"""A chart of the record as a page: bars, or values across their intervals, on a scale from 0."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from trainer.board import Chart
from trainer.paper.page import Filled, Page, Stroke

WIDTH, HEIGHT = 90.0, 62.0
LEFT, TOP, RIGHT, BOTTOM = 14.0, 12.0, 86.0, 48.0
"""Where the figures lie in a chart, in millimetres."""
TITLE_SIZE, SIZE = 4.0, 3.2
SCALE, INTERVAL, VALUE = Stroke(0.15, grey=0.7), Stroke(0.5, grey=0.45), Stroke(1.2)
BAR_GREY: Final = 0.35
WIDEST: Final = 8.0


def chart_page(chart: Chart) -> Page:
    """Return the page of a chart, its words the title of the page."""
    page = Page(WIDTH, HEIGHT, f"{chart.title}. {chart.says}")
    page.say((2, 6), chart.title, TITLE_SIZE)
    if not chart.figures:
        return page
    for value in (0, chart.top / 2, chart.top):
        page.line((LEFT, _y(chart, value)), (RIGHT, _y(chart, value)), SCALE)
        page.say((LEFT - 2, _y(chart, value) + 1), f"{value:g}", SIZE, "end")
    _add_figures(page, chart)
    first, last = chart.ends
    page.say((LEFT, BOTTOM + 5), first, SIZE)
    if last:
        page.say((max(LEFT + 30, LEFT + len(chart.figures) * _slot(chart)), BOTTOM + 5), last, SIZE, "end")
    return page


def _add_figures(page: Page, chart: Chart) -> None:
    for middle, value, ends in _placed(chart):
        half = 0.36 * _slot(chart)
        y = _y(chart, value)
        if chart.bars:
            left, right = middle - half, middle + half
            page.items.append(Filled(((left, BOTTOM), (left, y), (right, y), (right, BOTTOM)), BAR_GREY))
            continue
        page.line((middle, _y(chart, ends[0])), (middle, _y(chart, ends[1])), INTERVAL)
        page.line((middle - half, y), (middle + half, y), VALUE)


def _placed(chart: Chart) -> Iterator[tuple[float, float, tuple[float, float]]]:
    """Yield where each figure stands across, the figure, and its interval."""
    for place, figure in enumerate(chart.figures):
        if figure is not None:
            middle = LEFT + (place + 0.5) * _slot(chart)
            yield middle, figure.value, figure.interval or (figure.value, figure.value)


def _slot(chart: Chart) -> float:
    return min(WIDEST, (RIGHT - LEFT) / len(chart.figures))


def _y(chart: Chart, value: float) -> float:
    return BOTTOM - min(value, chart.top) / chart.top * (BOTTOM - TOP)
