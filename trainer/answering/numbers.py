"""Answering by numbers, typed digit by digit or clicked."""

from __future__ import annotations

from typing import Literal, TypeAlias, TypeVar

from drills.questions import AnyQuestion, Drill
from trainer.answering.answer_input import AnswerInput
from trainer.board import Arrow

LARGEST = 99
Asked = TypeVar("Asked", bound=AnyQuestion)
LastInput: TypeAlias = Literal["digit", "digit that went on", "change", "move"]


class NumbersInput(AnswerInput[Asked]):
    """Numbers from 1 up by their names; usually one, which then is the answer.

    A digit that no second one can join, as ``most`` says, goes on to the next number, round and round.
    Where one can, the number waits for it until a key goes on.
    """

    actions = frozenset({"number"})

    def __init__(self, drill: Drill, question: Asked, names: tuple[str, ...] = ("number",)) -> None:
        super().__init__(drill, question)
        self.names = names
        self.numbers = [0] * len(names)
        self.at = 0
        self._last: LastInput = "move"

    @property
    def most(self) -> int:
        """The largest number that can be typed in the place in hand."""
        return LARGEST

    @property
    def waits(self) -> bool:
        """Whether a second digit would join the one just typed."""
        return self._last == "digit" and 10 * self.numbers[self.at] <= self.most

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
        if self._last == "digit" and joined > self.most:
            self.next_point(back=False)
        if self._last != "digit":
            joined = digit
        if joined:
            self._put(joined)

    def refusal(self, digit: int) -> str:
        """Return that no number begins with 0, where a 0 would begin one."""
        follows = self._last == "digit" and 10 * self.numbers[self.at] <= self.most
        return "" if digit or follows else "No number here is 0: type one from 1 up."

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

    def answer(self) -> object | None:
        """Return the number once it is there."""
        return self.numbers[0] or None

    def missing(self) -> str:
        """Return which number is missing."""
        which = f" for {self.names[self.numbers.index(0)]}" if len(self.names) > 1 else ""
        return f"Type the number{which} first."
