"""Every outcome of a plan's draws, found by trying each of them in turn."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import TypeVar

from drills.geometry import Chance

Outcome = TypeVar("Outcome")


class TooManyDrawsError(Exception):
    """The plan threw away what it had drawn and began anew."""


class ToldChance(Chance):
    """Chance whose first draws are told; further ones are 0, and all are written down with their bounds."""

    def __init__(self, told: tuple[int, ...], most: int) -> None:
        super().__init__("")
        self.told, self.most = told, most
        self.bounds: list[int] = []

    def below(self, bound: int) -> int:
        """Return the next draw."""
        place = len(self.bounds)
        if place == self.most:
            raise TooManyDrawsError
        self.bounds.append(bound)
        return self.told[place] if place < len(self.told) else 0


def outcomes(drawn: Callable[[Chance], Outcome], most: int) -> Iterator[Outcome]:
    """Yield what comes of every row of draws, leaving out rows of more than so many."""
    waiting: list[tuple[int, ...]] = [()]
    while waiting:
        told = waiting.pop()
        chance = ToldChance(told, most)
        with suppress(TooManyDrawsError):
            yield drawn(chance)
        for place in range(len(told), len(chance.bounds)):
            start = told + (0,) * (place - len(told))
            waiting.extend((*start, other) for other in range(1, chance.bounds[place]))
