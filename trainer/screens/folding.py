"""What a sheet becomes: frames from the sheet to its folded shape, stepped by keys or played once."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.strip import Strip
from textual.timer import Timer
from textual.widgets import Static

from drills.flatfold import Limit, Side
from drills.pattern import CreasePattern
from trainer.board import SEEN, Folding, Line, draw_folding
from trainer.screens.base_screen import BaseScreen, bindings_for
from trainer.screens.painted import Painted
from trainer.text.folding import step_in_words

A_FRAME = 0.12
"""Seconds; with all frames the way takes less than two."""
SECONDS_FOR_LAYERS = 2.0


class FoldingView(Painted):
    """A frame of the way, or the shape as it is seen, in the middle of the widget."""

    def __init__(self) -> None:
        super().__init__("board")
        self._shown: tuple[Folding, int, Side] | None = None
        self._lines: tuple[Line, ...] = ()

    def show(self, folding: Folding, step: int, side: Side) -> None:
        """Show a step from a side."""
        self._shown = folding, step, side
        self.redraw()

    def redraw(self) -> None:
        """Draw the step anew."""
        if self._shown and self.size:
            columns, rows = self.size
            self._lines = draw_folding(*self._shown, columns, rows, self.glyphs)
            self.refresh()

    def on_resize(self, event: Resize) -> None:
        """Draw as large as now fits."""
        self.redraw()

    def render_line(self, y: int) -> Strip:
        """Return one row."""
        row = y - (self.size.height - len(self._lines)) // 2
        if not 0 <= row < len(self._lines):
            return Strip.blank(self.size.width, self.rich_style)
        taken = sum(len(span.text) for span in self._lines[row])
        return self.strip(self._lines[row], (self.size.width - taken) // 2)


class FoldingScreen(BaseScreen):
    """The way of one sheet that folds flat, begun by itself where motion is wanted."""

    context = "folding"
    BINDINGS = bindings_for("folding")

    def __init__(self, pattern: CreasePattern, title: str) -> None:
        super().__init__()
        self._pattern, self._title = pattern, title
        self._step = 0
        self._side: Side = "above"
        self._playing: Timer | None = None
        self._folding: Folding

    def body(self) -> ComposeResult:
        """Yield the drawing and the words beside it."""
        with Horizontal():
            yield FoldingView()
            with VerticalScroll(id="side", can_focus=False):
                yield Static("", classes="page", markup=False)

    def on_mount(self) -> None:
        """Begin with the sheet."""
        ticks = self.slantwise.clock.ticks
        self._folding = Folding.of(self._pattern, Limit(SECONDS_FOR_LAYERS, ticks))
        self.slantwise.style_board(self.query_one(FoldingView))
        self.show()
        if self.slantwise.store.settings.motion:
            self.action_play()

    def show(self) -> None:
        """Show the step that is reached."""
        self.query_one(FoldingView).show(self._folding, self._step, self._side)
        motion = self.slantwise.store.settings.motion
        words = [
            *step_in_words(self._folding, self._step, self._side),
            "",
            f"Motion: {'on' if motion else 'off'}",
        ]
        self.query_one(".page", Static).update(Content("\n").join(map(Content, words)))
        self.say(f"{self._title} | What it becomes", f"{self._step} of {SEEN}")

    def action_frame(self, key: str) -> None:
        """Go a step on or back."""
        self._stop()
        self._go_to(self._step + (1 if key == "right" else -1))

    def action_play(self) -> None:
        """Play from the sheet; without motion go straight to the shape, and from there to the sheet."""
        self._stop()
        if not self.slantwise.store.settings.motion:
            self._go_to(SEEN if self._step < SEEN else 0)
            return
        self._go_to(0)
        self._playing = self.set_interval(A_FRAME, self._play_on)

    def action_side(self) -> None:
        """Turn it over."""
        self._side = "below" if self._side == "above" else "above"
        self.show()

    def action_motion(self) -> None:
        """Play by itself from now on, or not any more."""
        self._stop()
        self.slantwise.remember(motion=not self.slantwise.store.settings.motion)
        self.show()

    def _play_on(self) -> None:
        self._go_to(self._step + 1)
        if self._step == SEEN:
            self._stop()

    def _go_to(self, step: int) -> None:
        self._step = min(max(step, 0), SEEN)
        self.show()

    def _stop(self) -> None:
        if self._playing:
            self._playing.stop()
        self._playing = None
