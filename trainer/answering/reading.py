"""Answering with numbers: the step of the lit crease, across, down, and how often."""

from __future__ import annotations

from dataclasses import replace

from drills.geometry import Step
from drills.questions import Drill, ReadStep, with_directions_of
from trainer.answering.answer_input import AnswerInput
from trainer.board import Arrow, Look, points_at

LARGEST = 99


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
