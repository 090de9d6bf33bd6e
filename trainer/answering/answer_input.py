"""The answer in the making: what keys and clicks do with any drill, and with one answered by numbers."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Generic, TypeVar

from drills.geometry import Step
from drills.questions import AnyQuestion, Drill, Marks, ReadStep, Verdict, with_directions_of
from trainer.board import Arrow, Look, Marked, Scale, points_at

LARGEST = 99
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

    def number(self, digit: int) -> None:
        """Type a digit."""

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

    def look(self) -> Look:
        """Return how the board shows the drill and the answer so far."""
        return Look(labels=self.drill.shows_labels, hidden=self.question.hidden)

    def says(self) -> tuple[str, ...]:
        """Return where the cursor is and what is marked, in words."""
        return ()


def verdict_look(drill: Drill, verdict: Verdict, asked: Look) -> Look:
    """Return the board with what was right, missed and wrong, and the reason lit."""
    lit = verdict.lit
    return replace(
        asked,
        hidden=frozenset(),
        cursor_edge=None,
        cursor_at=None,
        marked=Marked(),
        right=Marked(lit.right, lit.right_points),
        missed=Marked(lit.missed, lit.missed_points),
        wrong=Marked(lit.extra, lit.extra_points),
        shaded=lit.going_in,
        staircase=lit.staircase,
        fault_points=points_at(drill.pattern, lit.faults),
    )


class ReadingInput(AnswerInput[ReadStep]):
    """Two numbers, or three; a digit goes on to the next, round and round. The directions are the arrow's."""

    actions = frozenset({"number"})

    def __init__(self, drill: Drill, question: ReadStep) -> None:
        super().__init__(drill, question)
        vertical = "down" if question.answer.down > 0 else "up"
        self.names = ("across", vertical, "times")[: 3 if question.counts_repeats else 2]
        self.numbers = [0] * len(self.names)
        self.at = 0

    def go(self, arrow: Arrow) -> None:
        """Left and right go to another number, up and down change it by one."""
        if arrow in ("up", "down"):
            self.change(self.at, 1 if arrow == "up" else -1)
        else:
            self.next_point(back=arrow == "left")

    def next_point(self, back: bool) -> None:
        """Go to the next or last number, round and round."""
        self.at = (self.at + (-1 if back else 1)) % len(self.numbers)

    def number(self, digit: int) -> None:
        """Set the number and go on to the next; after the last one it begins again."""
        self.numbers[self.at] = digit
        self.next_point(back=False)

    def undo(self) -> None:
        """Go back to the number before and empty it, as long as there is one."""
        if any(self.numbers):
            self.next_point(back=True)
            self.numbers[self.at] = 0

    def change(self, field: int, by: int) -> None:
        """Change a number by one, from 1 up."""
        self.at = field
        self.numbers[field] = min(max(self.numbers[field] + by, 1), LARGEST)

    def begin(self) -> str:
        """Count the squares across."""
        truth = self.question.answer
        self.numbers[0], self.at = abs(truth.across), 1
        return f"The squares across are counted for you: {abs(truth.across)}."

    def answer(self) -> Step | None:
        """Return the step once every number is there."""
        if not all(self.numbers):
            return None
        return with_directions_of(Step(*self.numbers), self.question.answer)

    def missing(self) -> str:
        """Return which number is missing."""
        return f"Type the number for {self.names[self.numbers.index(0)]} first."

    def look(self) -> Look:
        """Return the board with the asked crease lit, a dot at its start, its arrow; nothing is counted."""
        segment = self.question.lit
        return replace(
            super().look(),
            lit=frozenset(segment.edges),
            arrow=(segment.start, segment.end),
            points=points_at(self.drill.pattern, [segment.start]),
        )

    def says(self) -> tuple[str, ...]:
        """Return how the lit crease is to be read."""
        return ("Start at the dot and go towards the arrow.",)
