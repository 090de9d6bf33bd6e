"""Seeded chance over SHA-256, so that a code draws the same on every system and Python."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import TypeVar

Item = TypeVar("Item")
_WORD = 1 << 64


class Chance:
    """An endless stream of draws that depends on the seed text alone."""

    def __init__(self, seed: str) -> None:
        self._seed = seed
        self._drawn = 0

    def below(self, bound: int) -> int:
        """Return a whole number from 0 to bound - 1, each equally likely; bound from 1 to 2**64."""
        fair = _WORD - _WORD % bound
        while (word := self._word()) >= fair:
            pass
        return word % bound

    def pick(self, items: Sequence[Item]) -> Item:
        """Return one of the items, each equally likely; ValueError where there is none."""
        if not items:
            raise ValueError("There is nothing to pick from.")
        return items[self.below(len(items))]

    def one_in(self, number: int) -> bool:
        """Return True once in so many draws."""
        return self.below(number) == 0

    def shuffled(self, items: Sequence[Item]) -> list[Item]:
        """Return the items in a drawn order, each order equally likely."""
        order = list(items)
        for last in range(len(order) - 1, 0, -1):
            other = self.below(last + 1)
            order[last], order[other] = order[other], order[last]
        return order

    def branch(self, name: str) -> Chance:
        """Return an independent stream, so that one question's draws never shift another's."""
        return Chance(f"{self._seed}/{name}")

    def _word(self) -> int:
        digest = sha256(f"{self._seed}#{self._drawn}".encode()).digest()
        self._drawn += 1
        return int.from_bytes(digest[:8], "big")
