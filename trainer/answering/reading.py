"""Answering with the numbers of a step."""

from __future__ import annotations

from dataclasses import replace

from drills.geometry import Step
from drills.questions import Drill, ReadStep, with_directions_of
from trainer.answering.numbers import NumbersInput
from trainer.board import Look


class ReadingInput(NumbersInput[ReadStep]):
    """Two numbers, or three; the directions are the arrow's."""

    actions = frozenset({"number", "next_number"})

    def __init__(self, drill: Drill, question: ReadStep) -> None:
        vertical = "down" if question.answer.down > 0 else "up"
        super().__init__(
            drill, question, ("across", vertical, "times")[: 3 if question.counts_repeats else 2]
        )
        left, bottom, right, top = drill.pattern.box
        self._squares = int(right - left), int(top - bottom)

    @property
    def most(self) -> int:
        """How many squares across or down, or how many such steps, there are on this sheet."""
        if self.at < len(self._squares):
            return self._squares[self.at]
        return min(most // max(number, 1) for most, number in zip(self._squares, self.numbers, strict=False))

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

    def look(self) -> Look:
        """Return the board with the asked crease lit, a dot at its start, its arrow; nothing is counted."""
        segment = self.question.lit
        return replace(
            super().look(),
            ruled=False,
            lit=frozenset(segment.edges),
            arrow=(segment.start, segment.end),
        )

    def says(self) -> tuple[str, ...]:
        """Return how the lit crease is to be read, and how to go on where numbers may have two digits."""
        said = ("Start at the dot and go towards the arrow.",)
        return (*said, "Comma: the next number.") if max(self._squares) > 9 else said
