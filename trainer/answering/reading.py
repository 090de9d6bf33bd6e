"""Answering by numbers, typed digit by digit."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal, TypeAlias

from drills.geometry import Step
from drills.questions import Drill, ReadStep, with_directions_of
from trainer.answering.answer_input import AnswerInput
from trainer.board import Arrow, Look, points_at

LARGEST = 99
LastInput: TypeAlias = Literal["digit", "digit that went on", "change", "move"]


class ReadingInput(AnswerInput[ReadStep]):
    """Two numbers, or three; the directions are the arrow's.

    A digit that no second one can join, as the sheet has not so many squares, goes on to the next
    number, round and round. Where one can, the number waits for it until a key goes on.
    """

    actions = frozenset({"number", "next_number"})

    def __init__(self, drill: Drill, question: ReadStep) -> None:
        super().__init__(drill, question)
        vertical = "down" if question.answer.down > 0 else "up"
        self.names = ("across", vertical, "times")[: 3 if question.counts_repeats else 2]
        self.numbers = [0] * len(self.names)
        self.at = 0
        left, bottom, right, top = drill.pattern.box
        self._squares = int(right - left), int(top - bottom)
        self._last: LastInput = "move"

    @property
    def waits(self) -> bool:
        """Whether a second digit would join the one just typed."""
        return self._last == "digit" and 10 * self.numbers[self.at] <= self._most

    def go(self, arrow: Arrow) -> None:
        """Left and right go to another number, up and down change it by one."""
        if arrow in ("up", "down"):
            self.change(self.at, 1 if arrow == "up" else -1)
        else:
            self.next_point(back=arrow == "left")

    def next_point(self, back: bool) -> None:
        """Go to the next or last number, round and round."""
        self._last = "move"
        self.at = (self.at + (-1 if back else 1)) % len(self.numbers)

    def next_number(self) -> None:
        """Go on to the next number; nothing where the last digit has gone on by itself."""
        if self._last == "digit that went on":
            self._last = "move"
        else:
            self.next_point(back=False)

    def number(self, digit: int) -> None:
        """Join the digit to the number just begun, or begin one with it; no number begins with 0."""
        joined = 10 * self.numbers[self.at] + digit
        if self._last == "digit" and joined > self._most:
            self.next_point(back=False)
        if self._last != "digit":
            joined = digit
        if joined:
            self._put(joined)

    @property
    def _most(self) -> int:
        """How many squares across or down, or how many such steps, there are on this sheet."""
        if self.at < len(self._squares):
            return self._squares[self.at]
        return min(most // max(number, 1) for most, number in zip(self._squares, self.numbers, strict=False))

    def _put(self, number: int) -> None:
        self.numbers[self.at], self._last = number, "digit"
        if not self.waits:
            self.next_point(back=False)
            self._last = "digit that went on"

    def undo(self) -> None:
        """Take a digit away: of the number in hand where that was changed last, else of one before it."""
        if not any(self.numbers):
            return
        if self._last not in ("digit", "change"):
            self.next_point(back=True)
        while not self.numbers[self.at]:
            self.next_point(back=True)
        self.numbers[self.at] //= 10
        self._last = "digit" if self.numbers[self.at] else "move"

    def change(self, field: int, by: int) -> None:
        """Change a number by one, from 1 up."""
        self.at, self._last = field, "change"
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
            ruled=False,
            lit=frozenset(segment.edges),
            arrow=(segment.start, segment.end),
            points=points_at(self.drill.pattern, [segment.start]),
        )

    def says(self) -> tuple[str, ...]:
        """Return how the lit crease is to be read, and how to go on where numbers may have two digits."""
        said = ("Start at the dot and go towards the arrow.",)
        return (*said, "Comma: the next number.") if max(self._squares) > 9 else said
