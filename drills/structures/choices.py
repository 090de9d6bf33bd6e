"""The structures that a row of a sheet is composed of, and those that fit a strip of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import Literal, NamedTuple, TypeAlias, get_args

from drills.exact.plane import Direction, Point
from drills.exact.symmetry import AS_IT_IS, FACINGS, QUARTER_TURN, Symmetry
from drills.structures.block import DOWN, LEFT, RIGHT, UP
from drills.structures.diamond import Diamond, Sideways
from drills.structures.parts import Around, Framed, Part, Turned
from drills.structures.roof import Roof, RoofHinge
from drills.structures.stretch import Side, Stretch

Kind: TypeAlias = Literal["stretch", "roof", "diamond"]

MOST_UNITS = 4
LONGEST_ROOF = 14
HIGHEST_ROOF = 6
LARGEST_DIAMOND = 2

_HINGES: list[tuple[Side, Side]] = list(product(get_args(Side), repeat=2))
_ROOF_HINGES: list[tuple[RoofHinge, RoofHinge]] = list(product(get_args(RoofHinge), repeat=2))
_DIAMOND_HINGES: list[tuple[Sideways, Sideways] | None] = [*product(get_args(Sideways), repeat=2), None]
_QUARTER = 1


class Choice(NamedTuple):
    """A structure with the size of its block in squares and the ways its hinges leave."""

    kind: Kind
    part: Part
    width: int
    height: int
    ways: frozenset[Direction]


def fitting(height: int, room: int, free: frozenset[Direction]) -> list[Choice]:
    """Return the structures brought to a height by pleats around, at most so wide, hinges only free ways."""
    return [_brought_to(choice, height) for choice in _fitting(height, room) if choice.ways <= free]


@lru_cache(maxsize=256)
def _fitting(height: int, room: int) -> tuple[Choice, ...]:
    return tuple(
        choice
        for choice in all_choices()
        if choice.height <= height
        and (height - choice.height) % 2 == 0
        and choice.width + height - choice.height <= room
    )


def _brought_to(choice: Choice, height: int) -> Choice:
    more = height - choice.height
    if more == 0:
        return choice
    return choice._replace(
        part=Around(choice.part, more // 2), width=choice.width + more, height=choice.height + more
    )


@lru_cache(maxsize=1)
def all_choices() -> tuple[Choice, ...]:
    """Return every structure, lying and upright."""
    return (*_stretches(), *_roofs(), *_diamonds())


def _stretches() -> Iterator[Choice]:
    for units, hinges, facing in product(range(1, MOST_UNITS + 1), _HINGES, range(4)):
        stretch = Stretch((units, units), hinges, pleats=0, facing=facing)
        at_a, at_b = hinges
        ways = [DOWN if at_a == "shallow" else RIGHT, UP if at_b == "shallow" else LEFT]
        yield Choice("stretch", stretch, *stretch.size, _turned_ways(ways, FACINGS[facing]))


def _roofs() -> Iterator[Choice]:
    for height in range(2, HIGHEST_ROOF + 1, 2):
        for width, hinges in product(range(height + 1, LONGEST_ROOF + 1), _ROOF_HINGES):
            roof = Roof(width, height, hinges)
            yield from _lying_and_upright("roof", roof, width, height, roof.ways)


def _diamonds() -> Iterator[Choice]:
    """Yield diamonds in upright frames as narrow as they or two pleats wider, in every place along them."""
    for half, more, slack in product(range(1, LARGEST_DIAMOND + 1), (0, 2), (0, 1, 2)):
        field = 2 * half + more
        length = field + 2 * half + 2 + slack
        for hinges, roof_hinges, up in product(_DIAMOND_HINGES, _ROOF_HINGES, range(slack + 1)):
            diamond = Diamond(field // 2, field // 2 + half + 1 + up, half, field, hinges)
            roof = Roof(length, field, roof_hinges)
            ways = [*_turned_ways(roof.ways, QUARTER_TURN), LEFT, RIGHT]
            yield from _lying_and_upright("diamond", Framed(diamond, roof), field, length, ways)


def _lying_and_upright(
    kind: Kind, part: Part, width: int, height: int, ways: Sequence[Direction]
) -> Iterator[Choice]:
    yield Choice(kind, part, width, height, _turned_ways(ways, AS_IT_IS))
    yield Choice(kind, Turned(part, _QUARTER), height, width, _turned_ways(ways, QUARTER_TURN))


def _turned_ways(ways: Sequence[Direction], symmetry: Symmetry) -> frozenset[Direction]:
    images = (symmetry.of(Point(*way)) for way in ways)
    return frozenset(Direction(int(x), int(y)) for x, y in images)
