"""The answer in the making: what keys and clicks do with any drill."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar, Generic, TypeVar

from drills.questions import AnyQuestion, Drill, Marks, Verdict
from trainer.board import Arrow, Look, Marked, Scale, points_at

FAR_WAYS: Mapping[str, Arrow] = {"home": "left", "end": "right", "pageup": "up", "pagedown": "down"}
"""Where the keys lead that go far."""
Asked = TypeVar("Asked", bound=AnyQuestion)


class AnswerInput(Generic[Asked]):
    """The answer in the making; what a way of answering has no use for does nothing.

    ``actions`` names what this input has of the actions that not every input has.
    """

    actions: ClassVar[frozenset[str]] = frozenset()

    def __init__(self, drill: Drill, question: Asked) -> None:
        self.drill, self.question = drill, question

    def go(self, arrow: Arrow) -> None:
        """Move the cursor, or change a number."""

    def turn(self, clockwise: bool) -> None:
        """Go to the next crease round the point."""

    def next_point(self, back: bool) -> None:
        """Go to the next or last point, or number, in reading order."""

    def mark(self) -> None:
        """Mark what is under the cursor, or take its mark away."""

    def undo(self) -> None:
        """Take back the last mark or number."""

    def far(self, arrow: Arrow) -> None:
        """Move the cursor far."""

    @property
    def letters_on(self) -> bool:
        """Whether letters stand on the board."""
        return False

    def sees(self, scale: Scale) -> bool:
        """Take note of what of the sheet is in view, and say whether the letters change by it."""
        return False

    def letters(self) -> None:
        """Put letters on what is in view, or take them away."""

    def letter(self, letter: str) -> None:
        """Mark what has the letter, or show the letters of the part that has it."""

    def letters_back(self) -> None:
        """Go back from the letters of a part to all of them, then to none."""

    def number(self, digit: int) -> None:
        """Type a digit."""

    def next_number(self) -> None:
        """Go on to the next number, the one before being whole."""

    def change(self, field: int, by: int) -> None:
        """Change a number by a click."""

    def point_at(self, scale: Scale, x: float, y: float) -> None:
        """Point at a place on the board, in cells."""

    def answer(self) -> object | None:
        """Return the answer, or None while something is missing."""
        return None

    def begin(self) -> str:
        """Do the first part of the answer for the person and say so; empty where it has no parts."""
        return ""

    def nothing(self) -> object:
        """Return the answer that there is nothing to mark."""
        return Marks(frozenset())

    def missing(self) -> str:
        """Return what is missing for an answer, in one sentence."""
        return ""

    def answered_besides(self, given: object) -> str:
        """Return what was given besides what was done for the person; empty where nothing was, or no part."""
        return ""

    def refusal(self, digit: int) -> str:
        """Return why a digit cannot be typed now, in one sentence; empty where it can."""
        return ""

    def look(self) -> Look:
        """Return how the board shows the drill and the answer so far."""
        points = points_at(self.drill.pattern, self.question.lit_points)
        return Look(labels=self.drill.shows_labels, ruled=True, hidden=self.question.hidden, points=points)

    def says(self) -> tuple[str, ...]:
        """Return where the cursor is and what is marked, in words."""
        return ()


def verdict_look(drill: Drill, verdict: Verdict, asked: Look) -> Look:
    """Return the board with what was right, missed and wrong, and the reason lit."""
    lit = verdict.lit
    return replace(
        asked,
        ruled=True,
        hidden=frozenset(),
        cursor_edge=None,
        cursor_at=None,
        letters=(),
        marked=Marked(),
        right=Marked(lit.right, lit.right_points),
        missed=Marked(lit.missed, lit.missed_points),
        wrong=Marked(lit.extra, lit.extra_points),
        shaded=lit.going_in,
        points=asked.points | lit.tips,
        staircase=lit.staircase,
        is_told=True,
        kept=lit.sides.union(*(drill.pattern.around[count.vertex] for count in lit.counts)),
        outlines=lit.outlines,
        angles=lit.angles,
        notes=tuple((edge, f"{was}>{should_be}") for edge, was, should_be in lit.switches),
        counts=tuple(
            (drill.pattern.vertices[vertex], f"{mountains}M {valleys}V")
            for vertex, mountains, valleys in lit.counts
        ),
    )
