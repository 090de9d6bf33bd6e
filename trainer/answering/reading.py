"""Answering with numbers: the step of the lit crease, across, down, and how often."""

from __future__ import annotations

from dataclasses import replace

from drills.exact.step import Step
from drills.questions.drill import Answer, Drill
from drills.questions.judging_steps import with_directions_of
from trainer.answering.hand import Hand
from trainer.board.arrows import Arrow
from trainer.board.look import Look

LARGEST = 99


class ReadingHand(Hand):
    """Two numbers, or three; a digit goes on to the next by itself. The directions are the lit arrow's."""

    def __init__(self, drill: Drill) -> None:
        super().__init__(drill)
        self.names = ("across", self._way(), "times")[: 3 if drill.question.counts_repeats else 2]
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
        """Set the number and go on to the next; the last one stays."""
        self.numbers[self.at] = digit
        self.at = min(self.at + 1, len(self.numbers) - 1)

    def undo(self) -> None:
        """Empty this number, or go back to the one before and empty that."""
        if not self.numbers[self.at] and self.at:
            self.at -= 1
        self.numbers[self.at] = 0

    def change(self, field: int, by: int) -> None:
        """Change a number by one, from 1 up."""
        self.at = field
        self.numbers[field] = min(max(self.numbers[field] + by, 1), LARGEST)

    def answer(self) -> Answer | None:
        """Return the step once every number is there."""
        truth = self.drill.answer
        if not all(self.numbers) or not isinstance(truth, Step):
            return None
        return with_directions_of(Step(*self.numbers), truth)

    def missing(self) -> str:
        """Return which number is missing."""
        return f"Type the number for {self.names[self.numbers.index(0)]} first."

    def look(self) -> Look:
        """Return the board with the asked crease lit and its arrow; nothing is counted on it."""
        segment = self.drill.question.lit
        if segment is None:
            return super().look()
        return replace(super().look(), lit=frozenset(segment.edges), arrow=(segment.start, segment.end))

    def _way(self) -> str:
        truth = self.drill.answer
        return "down" if isinstance(truth, Step) and truth.down > 0 else "up"
