"""Letters on what is in view, so that typing one marks it; of many, a digit first takes a part."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Generic, TypeAlias, TypeVar

from drills.geometry import Point
from drills.questions import AnyQuestion, Drill
from trainer.actions import DIGITS, LETTERS
from trainer.answering.answer_input import AnswerInput
from trainer.board import Letter, Scale

BY_LETTERS = frozenset({"far", "letters"})
"""The actions of an input that can put letters on the board, and where the cursor goes far."""
PART_SIGNS = DIGITS + LETTERS
"""The signs of parts, in this order."""
Asked = TypeVar("Asked", bound=AnyQuestion)
Item = TypeVar("Item", int, Point)
Places: TypeAlias = Mapping[Item, Point]


@dataclass(frozen=True)
class Lettered(Generic[Item]):
    """What is in view, in parts that have no more items than there are letters; ``open``: the part chosen."""

    parts: tuple[tuple[Item, ...], ...]
    open: int | None = None

    @property
    def signs(self) -> str:
        """The letters of the items of a part; digits are among them where they take no other part."""
        return LETTERS if len(self.parts) > 1 else LETTERS + DIGITS

    def shown(self) -> dict[Item, str]:
        """Return the letter of every item: its own, or the sign of its part while none is chosen."""
        if self.open is not None:
            return dict(zip(self.parts[self.open], self.signs, strict=False))
        return {item: sign for part, sign in zip(self.parts, PART_SIGNS, strict=False) for item in part}

    def other_parts(self) -> dict[Item, str]:
        """Return the sign of each part but the chosen one that can be typed, at an item in its middle."""
        signs = DIGITS if self.open is not None else PART_SIGNS
        parts = enumerate(zip(self.parts, signs, strict=False))
        return {part[len(part) // 2]: sign for number, (part, sign) in parts if number != self.open}

    def item(self, letter: str) -> Item | None:
        """Return the item that has this letter for its own."""
        found = [item for item, own in self.shown().items() if own == letter]
        return found[0] if found and self.open is not None else None

    def opening(self, sign: str) -> Lettered[Item]:
        """Return the letters of the part that has this sign; from another part only digits lead there."""
        part = PART_SIGNS.index(sign)
        can_be_typed = self.open is None or sign in DIGITS
        return replace(self, open=part) if can_be_typed and part < len(self.parts) else self


def lettered(places: Places[Item]) -> Lettered[Item]:
    """Return the letters of items at these places, the part chosen where there is only one."""
    number = 1 if len(places) <= len(LETTERS + DIGITS) else -(-len(places) // len(LETTERS))
    items = sorted(places, key=lambda item: _reading(places[item]))
    parts = tuple(map(tuple, _split(items, places, min(number, len(PART_SIGNS)))))
    return Lettered(parts, 0 if len(parts) == 1 else None)


def _split(items: list[Item], places: Places[Item], number: int) -> list[list[Item]]:
    """Return the items in so many parts of like size, cut across where they spread most."""
    if number <= 1:
        return [sorted(items, key=lambda item: _reading(places[item]))] if items else []
    points = [places[item] for item in items]
    across = max(point.x for point in points) - min(point.x for point in points)
    down = max(point.y for point in points) - min(point.y for point in points)
    if across >= down:
        items = sorted(items, key=lambda item: (places[item].x, -places[item].y))
    first = number // 2
    cut = -(-len(items) * first // number)
    return _split(items[:cut], places, first) + _split(items[cut:], places, number - first)


def _reading(point: Point) -> tuple[object, object]:
    return -point.y, point.x


class LetteredInput(AnswerInput[Asked], ABC, Generic[Asked, Item]):
    """An answer input that can put letters on what is in view, which it must be told."""

    def __init__(self, drill: Drill, question: Asked) -> None:
        super().__init__(drill, question)
        self.scale: Scale | None = None
        self.marks: list[Item] = []
        self.begun: frozenset[Item] = frozenset()
        self.lettered: Lettered[Item] | None = None

    @property
    def letters_on(self) -> bool:
        """Whether letters stand on the board."""
        return self.lettered is not None

    def sees(self, scale: Scale) -> bool:
        """Take note of what of the sheet is in view, and say whether the letters change by it."""
        if scale == self.scale:
            return False
        self.scale = scale
        if self.lettered is None:
            return False
        self.lettered = lettered(self.places(scale))
        return True

    def letters(self) -> None:
        """Put letters on what is in view, or take them away."""
        places = self.places(self.scale) if self.scale and self.lettered is None else {}
        self.lettered = lettered(places) if places else None

    def letter(self, letter: str) -> None:
        """Mark what has the letter, or show the letters of the part that has it."""
        if self.lettered is None:
            return
        if (item := self.lettered.item(letter)) is not None:
            self.take(item)
        else:
            self.lettered = self.lettered.opening(letter)

    def letters_back(self) -> None:
        """Go back from the letters of a part to all of them, then to none."""
        if self.lettered is not None:
            several = len(self.lettered.parts) > 1 and self.lettered.open is not None
            self.lettered = replace(self.lettered, open=None) if several else None

    def signs(self) -> tuple[Letter[Item], ...]:
        """Return the letters for the board, and the digits that lead to other parts."""
        if self.lettered is None:
            return ()
        others = self.lettered.other_parts() if self.lettered.open is not None else {}
        return self.lettered_signs(others | self.lettered.shown())

    def lettered_signs(self, shown: Mapping[Item, str]) -> tuple[Letter[Item], ...]:
        """Return letters for the board: capitals where there is a mark, a star for a digit."""
        marked = frozenset(self.marks)
        return tuple(
            Letter(of, ("*" if sign in DIGITS else sign.upper()) if of in marked else sign)
            for of, sign in shown.items()
        )

    def says_of_letters(self, noun: str, does: str = "mark it; a capital or * is marked") -> tuple[str, ...]:
        """Return what typing a letter does now, and how the letters go away."""
        if self.lettered is None:
            return ()
        if self.lettered.open is None:
            return f"Type the digit at your {noun}, then its letter.", "Esc: no letters."
        number = min(len(self.lettered.parts), len(DIGITS))
        back = f"1-{number}: another part. a: no letters." if number > 1 else "Esc: no letters."
        return f"Type a {noun}'s letter to {does}.", back

    @property
    def has_own(self) -> bool:
        """Whether anything is marked, or unmarked, besides what was done for the person."""
        return frozenset(self.marks) != self.begun

    def missing(self) -> str:
        """Return what to do."""
        if self.begun:
            return f"{self.begun_in_words()} Mark the rest."
        none = " Press 0 if there is nothing to mark." if self.question.may_be_none else ""
        return f"Nothing is marked yet.{none}"

    def begun_in_words(self) -> str:
        """Return how many were marked for the person."""
        return f"{len(self.begun)} {'was' if len(self.begun) == 1 else 'were'} marked for you."

    def says_of_marks(self) -> str:
        """Return how many are marked, and how many of them for the person."""
        begun = len(self.begun.intersection(self.marks))
        return f"Marked: {len(self.marks)}" + (f", {begun} for you" if begun else "")

    @abstractmethod
    def places(self, scale: Scale) -> Places[Item]:
        """Return what may be marked in view, and the middle of each."""

    @abstractmethod
    def take(self, item: Item) -> None:
        """Put the cursor on an item and mark it, or take its mark away."""
