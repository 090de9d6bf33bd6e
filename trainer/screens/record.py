"""The record: four charts at a glance, and every figure in words."""

from __future__ import annotations

from collections.abc import Iterable

from textual.app import ComposeResult
from textual.content import Content
from textual.geometry import Size
from textual.strip import Strip
from textual.widgets import Static

from drills.pattern import number_of
from trainer.board import GLYPHS, Chart, Line, draw_chart
from trainer.screens.base_screen import BaseScreen, bindings_for
from trainer.screens.pages import ReadingScreen
from trainer.screens.painted import Painted
from trainer.text.glance import glance
from trainer.text.record import record_in_text

EXPERIMENT = (
    "   A coin decides for each miss whether it comes back that day. After 60\n"
    "   days the record says what difference the next day's first drill shows."
)
MARGIN, APART = 1, 3
"""Columns left of the charts, and between those side by side."""


class GlanceView(Painted):
    """Four charts, two beside two, that together fill the widget."""

    def __init__(self, charts: tuple[Chart, Chart, Chart, Chart]) -> None:
        super().__init__("glance")
        self.charts = charts
        self._drawn: tuple[Size, str, list[list[Line]]] | None = None

    def render_line(self, y: int) -> Strip:
        """Return one row: that of the chart at the left and of the one at the right."""
        rows = self._rows()
        strips = [self.strip(line, MARGIN if place == 0 else APART) for place, line in enumerate(rows[y])]
        widths = self._columns + MARGIN, self.size.width - self._columns - MARGIN
        return Strip.join(
            [strip.adjust_cell_length(width) for strip, width in zip(strips, widths, strict=True)]
        )

    @property
    def _columns(self) -> int:
        return (self.size.width - 2 * MARGIN - APART) // 2

    def _rows(self) -> list[list[Line]]:
        """Return the charts' lines side by side, drawn anew for another size or other signs."""
        if self._drawn is None or self._drawn[:2] != (self.size, self.glyphs):
            upper = -(-self.size.height // 2)
            heights = (upper, upper, self.size.height - upper, self.size.height - upper)
            drawn = [
                draw_chart(chart, self._columns, height, GLYPHS[self.glyphs])
                for chart, height in zip(self.charts, heights, strict=True)
            ]
            above, below = zip(*drawn[:2], strict=True), zip(*drawn[2:], strict=True)
            self._drawn = self.size, self.glyphs, [list(pair) for pair in (*above, *below)]
        return self._drawn[2]


class RecordScreen(BaseScreen):
    """Shows the record at a glance; Enter goes on to its words."""

    context = "record"
    BINDINGS = bindings_for("record")

    def body(self) -> ComposeResult:
        """Yield the charts."""
        store = self.slantwise.store
        yield GlanceView(glance(store.record(), store.today))

    def on_mount(self) -> None:
        """Say what this is, and draw in the signs and colours of now."""
        self.say("Record", number_of(self.slantwise.store.how_many, "drill"))
        self.slantwise.style_board(self.query_one(GlanceView))

    def action_details(self) -> None:
        """Go on to every figure in words."""
        self.app.push_screen(RecordInWordsScreen())


class RecordInWordsScreen(ReadingScreen):
    """Shows the record in words; arrows and the wheel scroll it."""

    context = "details"
    BINDINGS = bindings_for("details")

    def lines(self) -> Iterable[Content]:
        """Return the record as text, and how the experiment stands."""
        store = self.slantwise.store
        return map(Content, (*record_in_text(store.record(), store.today), "", *self._experiment()))

    def _experiment(self) -> tuple[str, str]:
        is_on = self.slantwise.store.settings.experiment
        return f"e  Experiment for yourself: {'on' if is_on else 'off'}", EXPERIMENT

    def action_experiment(self) -> None:
        """Throw a coin for each miss from now on, or not any more."""
        self.slantwise.remember(experiment=not self.slantwise.store.settings.experiment)
        self.query_one(".page", Static).update(Content("\n").join(self.lines()))
        self.app.notify(self._experiment()[0].removeprefix("e  "), markup=False)

    def on_mount(self) -> None:
        """Say what this is."""
        self.say("Record in words", number_of(self.slantwise.store.how_many, "drill"))
