"""The keys that move the hand: the same on every drill, whatever the hand makes of them."""

from __future__ import annotations

from typing import Any, ClassVar, cast

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.events import Key, MouseDown
from textual.timer import Timer

from drills.questions import KINDS, Drill, Verdict
from progress_store import InputDevice, Judged, StoreError
from trainer.actions import WINDOW_WAYS, Place, actions_at
from trainer.answering import AnswerInput, verdict_look
from trainer.board import Arrow
from trainer.practice.attempts import Watch
from trainer.practice.drill_source import DrillSource
from trainer.screens.base_screen import BaseScreen
from trainer.screens.board_view import BoardView
from trainer.screens.lines import KeyLine, bindings_for
from trainer.screens.overview import Overview
from trainer.screens.panel import Panel
from trainer.ways_of_asking import input_for


class HandKeys(BaseScreen):
    """A screen with a hand; ``did`` is told of every move."""

    hand: AnswerInput[Any]

    def did(self) -> None:
        """Note an input and show what it did."""

    def action_go(self, arrow: str) -> None:
        """Move, or change a number."""
        self.hand.go(cast("Arrow", arrow))
        self.did()

    def action_turn_left(self) -> None:
        """Go to the next crease counterclockwise."""
        self.hand.turn(clockwise=False)
        self.did()

    def action_turn_right(self) -> None:
        """Go to the next crease clockwise."""
        self.hand.turn(clockwise=True)
        self.did()

    def action_next_point(self) -> None:
        """Go to the next point or number."""
        self.hand.next_point(back=False)
        self.did()

    def action_last_point(self) -> None:
        """Go to the point or number before."""
        self.hand.next_point(back=True)
        self.did()

    def action_mark(self) -> None:
        """Mark what is under the cursor."""
        self.hand.mark()
        self.did()

    def action_undo(self) -> None:
        """Take back."""
        self.hand.undo()
        self.did()

    def action_number(self, digit: str) -> None:
        """Type a digit."""
        self.hand.number(int(digit))
        self.did()


class WindowKeys(BaseScreen):
    """A screen with a board and an overview; ``looked`` is told of every key that moves the window."""

    def looked(self) -> None:
        """Note an input that only looks round."""

    def on_board_view_shown(self, event: BoardView.Shown) -> None:
        """Show where the window is on the sheet."""
        self.query_one(Overview).show(event)

    def on_overview_pointed(self, event: Overview.Pointed) -> None:
        """Move the window to a place."""
        self.query_one(BoardView).centre(event.place)

    def action_pan(self, key: str) -> None:
        """Move the window on the sheet."""
        self.looked()
        self.query_one(BoardView).pan(*WINDOW_WAYS[key])

    def action_zoom(self, key: str) -> None:
        """Show the sheet larger or smaller."""
        self.looked()
        self.query_one(BoardView).zoom(closer=key != "minus")

    def action_into_view(self) -> None:
        """Go back to the cursor, or on to the next sign of the verdict."""
        self.looked()
        self.query_one(BoardView).bring_into_view()


GOES_ON_AFTER = 0.8
TICK = 0.5
LAID_OUT_AFTER = 0.05
"""The panel is laid out by then, and known to overflow if it does."""


class DrillScreen(HandKeys, WindowKeys):
    """Goes through a sitting; ``ended`` of the program says what comes after it."""

    place: ClassVar[Place] = "drill"
    BINDINGS = bindings_for("drill", "feedback")

    def __init__(self, sitting: DrillSource) -> None:
        super().__init__()
        self.sitting = sitting
        self.drill: Drill
        self.timing: Watch
        self.verdict: Verdict | None = None
        self.given: object | None = None
        self.helped = False
        self.notice = ""
        self._going_on: Timer | None = None
        self._means: InputDevice = "keys"

    def body(self) -> ComposeResult:
        """Yield the board and the panel."""
        with Horizontal():
            yield BoardView()
            with Vertical(id="side"):
                yield Panel()
                yield Overview()

    def on_mount(self) -> None:
        """Begin."""
        self.slantwise.style_board(self.query_one(BoardView))
        self.set_interval(TICK, self._write_standing)
        self._begin_next()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Let only those actions through that belong to the question, or to the verdict."""
        names = {known.name for known in actions_at("drill") + actions_at("feedback")}
        if action not in names:
            return True
        at = actions_at("feedback") if self.verdict else actions_at("drill", self.hand.actions)
        return action in {known.name for known in at} and action not in self._barred

    @property
    def _barred(self) -> tuple[str, ...]:
        return ("hint",) if self.sitting.tells_at_end else ()

    def _begin_next(self) -> None:
        drill = self.sitting.next_drill()
        if drill is None:
            self.slantwise.ended(self.sitting)
            return
        self.drill, self.hand = drill, input_for(drill)
        self.timing = Watch(self.slantwise.clock.ticks)
        self.verdict, self.given, self.helped, self.notice = None, None, False, ""
        self.query_one(KeyLine).show_keys("drill", self.hand.actions, self._barred)
        self._write_standing()
        if self.sitting.stage == "half":
            self._begin_half()
        self._show()
        if self.sitting.stage == "worked":
            self._work()

    def _begin_half(self) -> None:
        """Do the first part of the answer for the person and say so."""
        self.notice = self.hand.begin() or self.drill.question.hint(self.drill)

    def _work(self) -> None:
        """Answer for the person, so that the verdict shows how it is done."""
        self.given = self.drill.question.right_answer(self.drill)
        self.verdict = self.drill.judge(self.given)
        self._show_worked(self.query_one(Panel), self.verdict)
        self._show_verdict(self.verdict)

    def _show_worked(self, panel: Panel, verdict: Verdict) -> None:
        """Show what is true and why beside the board."""
        panel.work(self.drill, verdict)

    def _write_standing(self) -> None:
        left = self.sitting.seconds_left
        clock = "" if left is None else f"   {left // 60}:{left % 60:02d} left"
        kind = KINDS[self.drill.kind].title
        self.say(f"{self.sitting.title} | {kind}", f"{self.sitting.progress}{clock}")

    def _show(self, follow: bool = True) -> None:
        self.query_one(Overview).be_brief(bool(self.notice))
        self.query_one(BoardView).show(self.drill.pattern, self.hand.look(), follow)
        self.query_one(Panel).ask(self.drill, self.hand, self.sitting.tells, self.notice)

    def did(self, follow: bool = True) -> None:
        """Note an input and show what it did, the window at the cursor if it is to follow."""
        self.timing.saw(self._means)
        self._show(follow)
        self.notice = ""

    def looked(self) -> None:
        """Note an input that only looks round: the person is there."""
        self.timing.saw(self._means)

    def on_mouse_down(self, event: MouseDown) -> None:
        """Stop going on by itself at a click, and note that the mouse is in hand."""
        self._means = "mouse"
        self._stop_going_on()

    def on_key(self, event: Key) -> None:
        """Stop going on by itself at any key but its own, and note that keys are in hand."""
        self._means = "keys"
        if self._going_on and event.key not in ("enter", "space"):
            self._stop_going_on()

    def action_change(self, field: int, by: int) -> None:
        """Change a number by a click."""
        if not self.verdict:
            self.hand.change(field, by)
            self.did()

    def on_board_view_pointed(self, event: BoardView.Pointed) -> None:
        """Point at the board."""
        if self.verdict:
            self.action_go_on()
        else:
            self.hand.point_at(event.scale, event.x, event.y)
            self.did(follow=False)

    def on_board_view_moved(self, event: BoardView.Moved) -> None:
        """Stop going on by itself: the person looks round."""
        self._stop_going_on()

    def action_hint(self) -> None:
        """Give a little help."""
        self.helped = True
        self.notice = self.drill.question.hint(self.drill)
        self.did()

    def action_nothing(self) -> None:
        """Answer that there is nothing to mark."""
        if self.hand.answer() is not None:
            self.notice = "Take back your marks first, or answer with them."
            self.did()
        else:
            self._answer(self.hand.nothing())

    def action_answer(self) -> None:
        """Answer, if nothing is missing."""
        given = self.hand.answer()
        if given is None:
            self.notice = self.hand.missing()
            self.did()
        else:
            self._answer(given)

    def _answer(self, given: object) -> None:
        self.timing.saw(self._means)
        self.given, self.verdict = given, self.drill.judge(given)
        judged, kept = self._keep(self.verdict)
        if self.sitting.tells_at_end:
            self._go_on_untold("" if judged else kept)
            return
        self.run_worker(self.sitting.prepare, thread=True)
        self.query_one(Panel).tell(self.verdict, judged, kept)
        self._show_verdict(self.verdict)
        if judged and judged.result == "clean" and self.slantwise.store.settings.go_on_after_right:
            self._going_on = self.set_timer(GOES_ON_AFTER, self.action_go_on)

    def _go_on_untold(self, trouble: str) -> None:
        """Go on without a word on the answer, but not without one on a log that cannot be written."""
        if trouble:
            self.app.notify(trouble, severity="warning", markup=False)
        self._begin_next()

    def _show_verdict(self, verdict: Verdict) -> None:
        self.query_one(Overview).be_brief(False)
        self.set_timer(LAID_OUT_AFTER, self._make_room)
        look = verdict_look(self.drill, verdict, self.hand.look())
        self.query_one(BoardView).show(self.drill.pattern, look)
        self.query_one(KeyLine).show_keys("feedback")

    def _make_room(self) -> None:
        """Leave the overview's drawing out where the panel says more than fits above it."""
        if self.query_one(Panel).max_scroll_y:
            self.query_one(Overview).be_brief(True)

    def _keep(self, verdict: Verdict) -> tuple[Judged | None, str]:
        """Keep the answer and return how it was judged, with the words that say so."""
        try:
            judged = self.sitting.keep(self.drill, verdict, self.timing.read(), self.helped)
        except StoreError as error:
            return None, f"Not kept yet: {error}"
        return judged, "Kept." if judged else ""

    def _stop_going_on(self) -> None:
        if self._going_on:
            self._going_on.stop()
        self._going_on = None

    def action_go_on(self) -> None:
        """Go on to the next drill."""
        self._stop_going_on()
        self.app.clear_notifications()
        if self.sitting.stage == "worked":
            self.sitting.looked_at(self.drill)
        self._begin_next()

    def action_why(self) -> None:
        """Say why this drill is met."""
        if self.verdict:
            self.app.notify(self.sitting.why, title="Why this one", timeout=8, markup=False)
        else:
            self.notice = self.sitting.why
            self.did()

    def action_copy(self) -> None:
        """Copy the drill and the answer as text."""
        self.app.copy_to_clipboard(self._as_text())
        self.app.notify("The drill is copied as text.", timeout=2)

    def _as_text(self) -> str:
        from trainer.text.drill import drill_as_text

        return drill_as_text(self.drill, self.given, self.verdict)

    def action_leave(self) -> None:
        """Leave the round; what is answered is kept."""
        self._stop_going_on()
        self.slantwise.ended(self.sitting)
