"""Rows of structures, each in a strip of its own and brought to the row's height by pleats around it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from typing import NamedTuple

from drills.exact.chance import Chance
from drills.exact.plane import Direction
from drills.structures.block import DOWN, LEFT, RIGHT, UP
from drills.structures.choices import Choice, Kind, Triangles
from drills.structures.fitting import fitting, narrowest
from drills.structures.parts import Beside, Part

LOWEST = 4
VARIED_ONE_IN = 8


class Free(NamedTuple):
    """The ends at which hinges may leave a row, and whether its structures may need a search for labels."""

    ends: tuple[Direction, ...]
    is_any: bool


class Wish(NamedTuple):
    """How many structures a row has, the kinds it needs and may have, and its stretches' triangles."""

    structures: int
    needed: tuple[Kind, ...]
    allowed: tuple[Kind, ...]
    triangles: Triangles

    def heights(self, width: int, height: int) -> list[int]:
        """Return the heights, up to the one given, at which such a row fits a width."""
        rows = ((high, self.least(high)) for high in range(LOWEST, height + 1))
        return [high for high, row in rows if row and sum(choice.width for choice in row) <= width]

    def least(self, height: int) -> list[Choice]:
        """Return the narrowest row of a height, those needed first; an empty one where there is none."""
        kinds: list[tuple[Kind, ...]] = [(kind,) for kind in self.needed]
        kinds += [self.allowed] * (self.structures - len(kinds))
        row = [self._narrowest(height, among) for among in kinds]
        return [choice for choice in row if choice] if all(row) else []

    def _narrowest(self, height: int, kinds: Sequence[Kind]) -> Choice | None:
        found = (narrowest(height, kind, self.triangles) for kind in kinds)
        return min((choice for choice in found if choice), key=lambda choice: choice.width, default=None)


def least_rows(wish: Wish, room: tuple[int, int]) -> Iterator[Part]:
    """Yield the narrowest row of each height that fits, the lowest first."""
    for high in wish.heights(*room):
        yield reduce(Beside, [choice.part for choice in wish.least(high)])


def drawn_row(chance: Chance, wish: Wish, room: tuple[int, int], free: Free) -> Part:
    """Return a row of structures, at most so wide and high; there must be a height at which it fits."""
    width, height = room
    heights = wish.heights(width, height)
    high = max(chance.pick(heights), chance.pick(heights))
    row = _drawn(chance, wish, (width, high), free)
    spare = min((width - sum(choice.width for choice in row)) // 2, height - high)
    return _joined(chance, [choice.part for choice in row], spare)


def _drawn(chance: Chance, wish: Wish, size: tuple[int, int], free: Free) -> list[Choice]:
    """Return the structures of a row from left to right, those needed drawn first.

    Each may take its share of the width that is left, or what the narrowest of its kind needs.
    """
    left, high = size
    least = [choice.width for choice in wish.least(high)]
    drawn: dict[int, Choice] = {}
    for turn, place in enumerate(chance.shuffled(range(wish.structures))):
        kinds = wish.needed[turn : turn + 1] or wish.allowed
        share = max(least[turn], left // (wish.structures - turn))
        room = min(share, left - sum(least[turn + 1 :]))
        ways = _free_ways(place, wish.structures, free.ends)
        choices = fitting(high, room, ways, kinds, wish.triangles)
        drawn[place] = _picked(chance, [c for c in choices if c.is_by_rank or free.is_any])
        left -= drawn[place].width
    return [drawn[place] for place in range(wish.structures)]


def _free_ways(place: int, structures: int, open_ends: Sequence[Direction]) -> set[Direction]:
    ends = {LEFT} if place == 0 else set()
    ends |= {RIGHT} if place == structures - 1 else set()
    return {UP, DOWN} | ends.intersection(open_ends)


def _picked(chance: Chance, choices: Sequence[Choice]) -> Choice:
    """Return one of the structures, each kind equally likely and slanted ones twice as much."""
    kinds = sorted({choice.kind for choice in choices})
    kind = chance.pick([*kinds, "stretch"] if "stretch" in kinds else kinds)
    sizes = sorted({(c.width, c.height) for c in choices if c.kind == kind})
    size = chance.pick(sizes)
    alike = [c for c in choices if c.kind == kind and (c.width, c.height) == size]
    varied = [c for c in alike if c.is_varied]
    if varied and chance.one_in(VARIED_ONE_IN):
        return chance.pick(varied)
    return chance.pick([c for c in alike if not c.is_varied])


def _joined(chance: Chance, parts: Sequence[Part], spare: int) -> Part:
    """Return the parts in a row, with a gap somewhere where so many squares are to spare."""
    if len(parts) == 1:
        return parts[0]
    gap = 2 * chance.below(min(spare, 4) // 2 + 1)
    place = 1 + chance.below(len(parts) - 1)
    return Beside(reduce(Beside, parts[:place]), reduce(Beside, parts[place:]), gap)
