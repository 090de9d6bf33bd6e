"""The drill screen: it draws what the flow of drills says, and passes on what is pressed and clicked."""

from __future__ import annotations

from asyncio import wait, wrap_future
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Key, MouseDown, Resize

from drills.questions import Drill
from trainer.actions import WINDOW_WAYS, Context
from trainer.practice.drill_source import DrillSource
from trainer.practice.flow import Asking, Drawing, DrillFlow, Over, Told, Worked
from trainer.practice.lesson import Lesson
from trainer.practice.panel_text import panel_text
from trainer.screens.base_screen import BaseScreen, KeyLine, bindings_for, link
from trainer.screens.board_view import BoardView
from trainer.screens.contents import ContentsScreen
from trainer.screens.folding import FoldingScreen
from trainer.screens.side import Overview, Panel, Side
from trainer.text.drill import drill_as_text

GOES_ON_AFTER = 0.8
TICK = 0.5
LAID_OUT_AFTER = 0.05
"""The panel is laid out by then, and known to overflow if it does."""


class FlowKeys(BaseScreen):
    """The keys that the flow takes, each passed on by its name."""

    def press(self, name: str, key: str = "") -> None:
        """Pass an action on and show what it did."""

    def action_go(self, arrow: str) -> None:
        """Move, or change a number."""
        self.press("go", arrow)

    def action_turn_left(self) -> None:
        """Go to the next crease counterclockwise."""
        self.press("turn_left")

    def action_turn_right(self) -> None:
        """Go to the next crease clockwise."""
        self.press("turn_right")

    def action_next_point(self) -> None:
        """Go to the next point or number."""
        self.press("next_point")

    def action_last_point(self) -> None:
        """Go to the point or number before."""
        self.press("last_point")

    def action_mark(self) -> None:
        """Mark what is under the cursor."""
        self.press("mark")

    def action_undo(self) -> None:
        """Take back."""
        self.press("undo")

    def action_far(self, key: str) -> None:
        """Go far."""
        self.press("far", key)

    def action_letters(self) -> None:
        """Put letters on the board, or take them away."""
        self.press("letters")

    def action_letter(self, letter: str) -> None:
        """Mark what has the letter."""
        self.press("letter", letter)

    def action_letters_back(self) -> None:
        """Go back from the letters of a part, or from all of them."""
        self.press("letters_back")

    def action_number(self, digit: str) -> None:
        """Type a digit."""
        self.press("number", digit)

    def action_next_number(self) -> None:
        """Go on to the next number."""
        self.press("next_number")

    def action_hint(self) -> None:
        """Give a little help."""
        self.press("hint")

    def action_nothing(self) -> None:
        """Answer that there is nothing to mark."""
        self.press("nothing")

    def action_answer(self) -> None:
        """Answer, if nothing is missing."""
        self.press("answer")

    def action_go_on(self) -> None:
        """Go on to the next drill."""
        self.app.clear_notifications()
        self.press("go_on")

    def action_page_on(self) -> None:
        """Turn to the next page."""
        self.press("page_on")

    def action_page_back(self) -> None:
        """Turn to the beginning of the page, or to the page before."""
        self.press("page_back")


class DrillScreen(FlowKeys):
    """Goes through a source of drills; the program is told when it is over or left."""

    context: ClassVar[Context] = "drill"
    BINDINGS = bindings_for("drill", "letters", "feedback")

    def __init__(self, source: DrillSource) -> None:
        super().__init__()
        self.source = source
        self.flow: DrillFlow
        self._shown: Drill | None = None
        self._is_full = False

    def body(self) -> ComposeResult:
        """Yield the board and the panel."""
        with Horizontal():
            yield BoardView()
            yield Side()

    def on_mount(self) -> None:
        """Begin."""
        program = self.slantwise
        program.style_board(self.query_one(BoardView))
        goes_on = program.store.settings.go_on_after_right
        self.flow = DrillFlow(self.source, program.clock.ticks, self._warn, goes_on, program.making)
        self.flow.begin_next()
        self.show()
        self.set_interval(TICK, self._write_standing)

    def on_resize(self, event: Resize) -> None:
        """Share the columns out anew."""
        super().on_resize(event)
        if self._shown:
            self.query_one(Side).make_room_for(self._shown.pattern, self.flow.input.look())

    def _warn(self, sentence: str) -> None:
        self.app.notify(sentence, severity="warning", markup=False)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Let only those actions through that belong to the question, or to the verdict."""
        return self.flow.allows(action)

    def press(self, name: str, key: str = "") -> None:
        """Pass an action on and show what it did."""
        self.flow.press(name, key)
        # what has a letter is in view: the window stays, and so do the letters
        self.show(follow=name != "letter")

    def show(self, follow: bool = True) -> None:
        """Show where the flow has come to, the window at the cursor if it is to follow."""
        flow, state = self.flow, self.flow.state
        if isinstance(state, Over):
            self.slantwise.ended(self.source)
            return
        board = self.query_one(BoardView)
        if isinstance(state, Drawing):
            self._wait_for(state, board)
            return
        if self._shown is not flow.drill:
            self.query_one(Side).make_room_for(flow.drill.pattern, flow.input.look())
            # a new sheet opens on what is asked, even where the answer follows at once
            board.show(flow.drill.pattern, flow.input.look())
            self._shown, self._is_full = flow.drill, False
            self.call_after_refresh(flow.look_ahead)
        is_noted = isinstance(state, Asking) and bool(state.notice)
        self.query_one(Overview).be_brief(self._is_full or is_noted)
        board.show(flow.drill.pattern, flow.look, follow)
        self.query_one(Panel).show(panel_text(flow))
        self.query_one(KeyLine).show_keys(flow.actions)
        self._write_standing()
        self.set_timer(LAID_OUT_AFTER, self._make_room)
        if isinstance(state, Told):
            self.call_after_refresh(flow.look_ahead)
            if state.goes_on:
                self.set_timer(GOES_ON_AFTER, partial(self._go_on_from, state))

    def _wait_for(self, drawing: Drawing, board: BoardView) -> None:
        """Show at once that the next drill is on its way, and go on to it once it is there."""
        board.clear()
        self._shown = None
        self.query_one(Overview).display = False
        self.query_one(Panel).show(panel_text(self.flow))
        self.query_one(KeyLine).show_keys(self.flow.actions)
        self._write_standing()
        self.run_worker(self._go_on_once_there(drawing))

    async def _go_on_once_there(self, drawing: Drawing) -> None:
        # a wait that is given up must not take the drill from whoever takes it next
        await wait([wrap_future(drawing.drill)])
        if self.flow.state is drawing:
            self.flow.begin_next()
            self.show()

    def _go_on_from(self, told: Told) -> None:
        if self.flow.state is told:
            self.app.clear_notifications()
            self.flow.go_on_by_itself(told)
            self.show()

    def _write_standing(self) -> None:
        source, left = self.source, self.source.seconds_left
        if source.ends_on_time and left == 0 and self.is_current:
            self.slantwise.ended(source)
            return
        clock = "" if left is None else f"   {left // 60}:{left % 60:02d} left"
        standing = Content(f"{source.progress}{clock}")
        if source.turns_pages:
            turning = link("PgUp", "page_back"), " ", link("PgDn", "page_on"), " turn"
            standing += Content.assemble("   ", *turning, "  ", link("c pages", "contents"))
        self.say(" | ".join(filter(None, (source.title, source.subject))), standing)

    def _make_room(self) -> None:
        """Leave the overview's drawing out where the panel says more than fits above it."""
        if self.query_one(Panel).max_scroll_y:
            self._is_full = True
            self.query_one(Overview).be_brief(True)

    def on_mouse_down(self, event: MouseDown) -> None:
        """Note that the mouse is in hand, and stop going on by itself."""
        self.flow.touched("mouse")
        self.flow.stays()

    def on_key(self, event: Key) -> None:
        """Note that keys are in hand, and stop going on by itself at any key but its own."""
        self.flow.touched("keys")
        if event.key not in ("enter", "space"):
            self.flow.stays()

    def action_change(self, field: int, by: int) -> None:
        """Change a number by a click."""
        if not self.flow.verdict:
            self.flow.change(field, by)
            self.show()

    def on_board_view_pointed(self, event: BoardView.Pointed) -> None:
        """Point at the board; after the answer go on."""
        if self.flow.verdict:
            self.action_go_on()
        else:
            self.flow.point_at(event.scale, event.x, event.y)
            self.show(follow=False)

    def on_board_view_moved(self, event: BoardView.Moved) -> None:
        """Stop going on by itself: the person looks round."""
        self.flow.stays()

    def on_board_view_shown(self, event: BoardView.Shown) -> None:
        """Show where the window is on the sheet."""
        self.query_one(Overview).show(event)
        self.set_timer(LAID_OUT_AFTER, self._make_room)
        if self.flow.sees(event.scale):
            self.show(follow=False)

    def on_overview_pointed(self, event: Overview.Pointed) -> None:
        """Move the window to a point of the sheet."""
        self.query_one(BoardView).centre(event.point)

    def action_pan(self, key: str) -> None:
        """Move the window on the sheet."""
        self.flow.looked()
        self.query_one(BoardView).pan(*WINDOW_WAYS[key])

    def action_zoom(self, key: str) -> None:
        """Show the sheet larger or smaller."""
        self.flow.looked()
        self.query_one(BoardView).zoom(closer=key != "minus")

    def action_whole(self) -> None:
        """Show the whole sheet, or from there a part of it close by."""
        self.flow.looked()
        self.query_one(BoardView).show_whole_or_close()

    def action_into_view(self) -> None:
        """Go back to the cursor, or on to the next sign of the verdict."""
        self.flow.looked()
        self.query_one(BoardView).bring_into_view()

    def action_why(self) -> None:
        """Say why this drill is met."""
        if self.flow.verdict:
            self.app.notify(self.source.why, title="Why this one", timeout=8, markup=False)
        else:
            self.press("why")

    def action_fold(self) -> None:
        """Show what the sheet becomes."""
        self.app.push_screen(FoldingScreen(self.flow.drill.truth, self.source.title))

    def action_copy(self) -> None:
        """Copy the drill and the answer as text."""
        state = self.flow.state
        given, verdict = (state.given, state.verdict) if isinstance(state, Worked | Told) else (None, None)
        self.app.copy_to_clipboard(drill_as_text(self.flow.drill, given, verdict, self.source.heading))
        self.app.notify("The drill is copied as text.", timeout=2)

    def action_leave(self) -> None:
        """Leave; what is answered is kept."""
        self.slantwise.ended(self.source)


class LessonScreen(DrillScreen):
    """A lesson whose pages can be turned, or gone to from a list."""

    context = "lesson"
    BINDINGS = bindings_for("lesson")

    def __init__(self, lesson: Lesson) -> None:
        super().__init__(lesson)
        self.lesson = lesson

    def action_contents(self) -> None:
        """Show the list of pages."""
        self.app.push_screen(ContentsScreen(self.lesson.plan, self.lesson.reached, self._go_to))

    def _go_to(self, page: int) -> None:
        self.flow.turn_to(page)
        self.show()
