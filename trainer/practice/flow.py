"""The way of one drill: asked, answered or worked for the person, told; then the next. No screen.

A screen passes on what was pressed, by the names in the registry of actions, and draws what this says.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass, replace
from typing import Any, TypeAlias, cast

from drills.questions import Drill, DrillError, Verdict
from progress_store import InputDevice, Judged, StoreError
from trainer.actions import Action, Context, actions_at
from trainer.answering import FAR_WAYS, AnswerInput, verdict_look
from trainer.board import Arrow, Look, Scale
from trainer.practice.attempts import Watch
from trainer.practice.drill_source import DrillSource
from trainer.practice.making import Making, NotReadyError
from trainer.ways_of_asking import input_for

LATE = 0.3
"""Seconds after going on by itself in which a key may still be meant for the verdict before."""
MEANT_BEFORE = frozenset({"answer", "go_on", "mark"})
"""What the keys that go on from a verdict do on the next question."""


@dataclass(frozen=True)
class Asking:
    """The question is put; the notice is what must be said now, until the next input.

    One that ``is_first`` is said before any input, and still stands after the first.
    """

    notice: str = ""
    helped: bool = False
    is_first: bool = False


@dataclass(frozen=True)
class Worked:
    """The answer was given for the person, so that the verdict shows how it is done."""

    given: object
    verdict: Verdict


@dataclass(frozen=True)
class Told:
    """The person's answer and what came of it; ``goes_on``: by itself, if nothing else is pressed."""

    given: object
    verdict: Verdict
    judged: Judged | None
    kept: str
    goes_on: bool


@dataclass(frozen=True)
class Over:
    """There is no drill in hand any more, or none yet."""


@dataclass(frozen=True)
class Drawing:
    """The next drill is still being made; ``drill`` is where it will be."""

    drill: Future[Drill]


State: TypeAlias = Asking | Worked | Told | Over | Drawing


def press(used: AnswerInput[Any], name: str, key: str = "") -> None:
    """Do an action of the registry that only changes the answer in the making."""
    match name:
        case "go":
            used.go(cast("Arrow", key))
        case "far":
            used.far(FAR_WAYS[key])
        case "turn_left" | "turn_right":
            used.turn(clockwise=name == "turn_right")
        case "next_point" | "last_point":
            used.next_point(back=name == "last_point")
        case "mark":
            used.mark()
        case "undo":
            used.undo()
        case "letters":
            used.letters()
        case "letter":
            used.letter(key)
        case "letters_back":
            used.letters_back()
        case "number":
            used.number(int(key))
        case "next_number":
            used.next_number()


class DrillFlow:
    """One drill of a source after the other; ``state`` is where the one in hand has come to.

    ``ticks`` gives seconds from any fixed start. ``warn`` is told in a sentence of what went wrong where
    no verdict will say it.
    """

    drill: Drill
    input: AnswerInput[Any]

    def __init__(
        self,
        source: DrillSource,
        ticks: Callable[[], float],
        warn: Callable[[str], None],
        goes_on_after_right: bool = True,
        making: Making | None = None,
    ) -> None:
        self.source = source
        self._making = making or Making()
        self.state: State = Over()
        self._ticks, self._warn, self._goes_on_after_right = ticks, warn, goes_on_after_right
        self._watch = Watch(ticks)
        self._device: InputDevice = "keys"
        self._was_kept = False
        self._went_on_at: float | None = None

    def begin_next(self) -> None:
        """Put the next question, half of it answered or all of it worked where it is new; or be over.

        Where its drill is still being made, that is waited for; this is called again once it is there.
        """
        self.state = Over()
        try:
            drill = self.source.next_drill(self._making.take)
        except NotReadyError as waiting:
            self.state = Drawing(waiting.drill)
            return
        except DrillError as error:
            self._warn(str(error))
            return
        if drill is None:
            return
        self.drill, self.input = drill, input_for(drill)
        self._watch = Watch(self._ticks)
        if self.source.was_seen:
            self._watch.left()
        self.state = Asking()
        if before := self.source.answered_before(drill):
            self.state = Told(before.given, before.verdict, None, before.says, goes_on=False)
        elif self.source.stage == "half":
            begun = self.input.begin() or drill.question.hint(drill)
            # what a page tells says already what is done for the person
            self.state = Asking("" if self.source.tells else begun, is_first=True)
        elif self.source.stage == "worked":
            given = drill.question.right_answer(drill)
            self.state = Worked(given, drill.judge(given))

    def look_ahead(self) -> None:
        """Let be prepared what may be asked next, as things stand now."""
        self._making.prepare(self.source.coming())

    @property
    def verdict(self) -> Verdict | None:
        """The verdict that is shown, None while the question is open."""
        return self.state.verdict if isinstance(self.state, Worked | Told) else None

    @property
    def look(self) -> Look:
        """How the board shows the drill now."""
        asked = self.input.look()
        return asked if self.verdict is None else verdict_look(self.drill, self.verdict, asked)

    @property
    def actions(self) -> tuple[Action, ...]:
        """The actions that work now; while a drill is made, those that work everywhere."""
        if isinstance(self.state, Drawing):
            everywhere = set(actions_at("opening")).intersection(actions_at("help"))
            return tuple(action for action in actions_at("drill") if action in everywhere)
        known = actions_at(self._context, self.input.actions)
        barred = {"hint"} if self.source.tells_at_end else set()
        pages = actions_at("lesson") if self.source.turns_pages else ()
        return tuple(action for action in dict.fromkeys((*known, *pages)) if action.name not in barred)

    @property
    def _context(self) -> Context:
        if self.verdict is not None:
            return "feedback"
        return "letters" if self.input.letters_on else "drill"

    def allows(self, name: str) -> bool:
        """Whether an action works now; those of no drill always do."""
        contexts: tuple[Context, ...] = ("drill", "letters", "feedback", "lesson")
        ours = {action.name for context in contexts for action in actions_at(context)}
        return name not in ours or name in {action.name for action in self.actions}

    def touched(self, device: InputDevice) -> None:
        """Note by which device the person is about to do something."""
        self._device = device

    def go_on_by_itself(self, told: Told) -> None:
        """Go on from a verdict that still is the one in hand, where no key has said otherwise."""
        if self.state is told:
            self.press("go_on")
            self._went_on_at = self._ticks()

    def _is_late(self, name: str) -> bool:
        """Whether an action was meant for the verdict from which it just went on by itself."""
        went_on_at = self._went_on_at
        return name in MEANT_BEFORE and went_on_at is not None and self._ticks() - went_on_at < LATE

    def stays(self) -> None:
        """Go on by a key only: the person reads."""
        if isinstance(self.state, Told):
            self.state = replace(self.state, goes_on=False)

    def looked(self) -> None:
        """Note an input that only looks round."""
        self._watch.saw(self._device)
        self.stays()

    def left_window(self) -> None:
        """Note that the person left the window: accuracy is kept, the time is not."""
        self._watch.left()

    def press(self, name: str, key: str = "") -> None:
        """Do an action, with the key that was pressed where it takes one; nothing where it does not work."""
        works = name in {action.name for action in self.actions}
        if isinstance(self.state, Over | Drawing) or not works or self._is_late(name):
            return
        if name in ("page_on", "page_back"):
            self._turn(on=name == "page_on")
        elif isinstance(self.state, Asking):
            self._input()
            self._press_asking(self.state, name, key)
        elif name == "go_on":
            self._go_on()

    def turn_to(self, page: int) -> None:
        """Turn to a page of the source, counted from 1, if there is one."""
        if self.source.turn_to(page):
            self.begin_next()

    def give(self, given: object) -> None:
        """Answer with what was typed as text."""
        if isinstance(self.state, Asking):
            self._input()
            self._answer(given, self.state.helped)

    def change(self, field: int, by: int) -> None:
        """Change a number of the answer by a click."""
        if isinstance(self.state, Asking):
            self._input()
            self.input.change(field, by)

    def point_at(self, scale: Scale, x: float, y: float) -> None:
        """Point at the board, in cells of its scale; go on where the verdict is told."""
        if isinstance(self.state, Asking):
            self._input()
            self.input.point_at(scale, x, y)
        else:
            self.press("go_on")

    def sees(self, scale: Scale) -> bool:
        """Note what of the sheet is in view, and say whether the board changes by it."""
        return self.input.sees(scale) and self.verdict is None

    def _input(self) -> None:
        """Note an input to the question; what had to be said was said."""
        self._watch.saw(self._device)
        if isinstance(self.state, Asking):
            notice = self.state.notice if self.state.is_first else ""
            self.state = replace(self.state, notice=notice, is_first=False)

    def _press_asking(self, asking: Asking, name: str, key: str) -> None:
        match name:
            case "hint":
                self.state = Asking(self.drill.question.hint(self.drill), helped=True)
            case "why":
                self.state = replace(asking, notice=self.source.why)
            case "nothing" if self.input.answer() is not None:
                self.state = replace(asking, notice="Take back your marks first, or answer with them.")
            case "nothing":
                self._answer(self.input.nothing(), asking.helped)
            case "answer" if (given := self.input.answer()) is not None:
                self._answer(given, asking.helped)
            case "answer":
                self.state = replace(asking, notice=self.input.missing())
            case "number" if refusal := self.input.refusal(int(key)):
                self.state = replace(asking, notice=refusal)
            case _:
                press(self.input, name, key)

    def _answer(self, given: object, helped: bool) -> None:
        verdict = self.drill.judge(given)
        if besides := self.input.answered_besides(given):
            verdict = replace(verdict, answered=besides)
        judged: Judged | None = None
        try:
            judged = self.source.keep(self.drill, verdict, self._watch.read(), helped)
            kept = "" if not judged else "Kept." if self._was_kept else "Kept. It is in your record."
            self._was_kept = True
        except StoreError as error:
            kept = f"Not kept yet: {error}"
        if self.source.tells_at_end:
            if kept and not judged:
                self._warn(kept)
            self.begin_next()
        else:
            is_clean = judged is not None and judged.result == "clean"
            self.state = Told(given, verdict, judged, kept, is_clean and self._goes_on_after_right)

    def _go_on(self) -> None:
        if isinstance(self.state, Worked):
            self.source.looked_at(self.drill)
        self.begin_next()

    def _turn(self, on: bool) -> None:
        if self.source.turn_on() if on else self.source.turn_back():
            self.begin_next()
