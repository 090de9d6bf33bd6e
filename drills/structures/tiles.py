"""The structures that a row of a sheet is composed of."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from functools import lru_cache
from itertools import product
from typing import Literal, NamedTuple, TypeAlias, get_args

from drills.geometry import AS_IT_IS, FACINGS, QUARTER_TURN, Direction, Point, Symmetry
from drills.structures.block import DOWN, LEFT, RIGHT, UP
from drills.structures.designs import Around, BlockDesign, Framed, Turned
from drills.structures.diamond import Diamond, Sideways
from drills.structures.roof import Roof, RoofHinge
from drills.structures.stretch import Side, Stretch
from drills.structures.triangle import TRIANGLE_345, Triangle

StructureKind: TypeAlias = Literal["stretch", "roof", "diamond"]
Triangles: TypeAlias = tuple[Triangle, ...]

MOST_UNITS = 4
LONGEST_ROOF = 14
HIGHEST_ROOF = 6
LARGEST_DIAMOND = 2

_HINGES: list[tuple[Side, Side]] = list(product(get_args(Side), repeat=2))
_ROOF_HINGES: list[tuple[RoofHinge, RoofHinge]] = list(product(get_args(RoofHinge), repeat=2))
SIDEWAYS_HINGES: list[tuple[Sideways, Sideways]] = list(product(get_args(Sideways), repeat=2))
_QUARTER = 1


class Tile(NamedTuple):
    """A structure with the size of its block in squares and the ways its hinges leave.

    ``is_by_rank`` says that labels by rank fold it with any pleats around, so that no others need to
    be sought; ``is_varied`` that the pleats round a side corner are wider than those outside.
    """

    kind: StructureKind
    part: BlockDesign
    width: int
    height: int
    ways: frozenset[Direction]
    is_by_rank: bool = True
    is_varied: bool = False


@lru_cache(maxsize=16)
def all_choices(triangles: Triangles = (TRIANGLE_345,)) -> tuple[Tile, ...]:
    """Return every structure, lying and upright; the stretches are of these triangles."""
    return (*_stretches(triangles), *_roofs(), *_diamonds())


def _stretches(triangles: Triangles) -> Iterator[Tile]:
    """Yield stretches of equal sides whose outer pleats are one square wide."""
    shapes = [shape for triangle in triangles for shape in _shapes(triangle)]
    for (triangle, units, widths), hinges, facing in product(shapes, _HINGES, range(4)):
        stretch = Stretch((units, units), hinges, pleats=0, facing=facing, triangle=triangle, widths=widths)
        at_a, at_b = hinges
        ways = [DOWN if at_a == "shallow" else RIGHT, UP if at_b == "shallow" else LEFT]
        is_varied = widths is not None and len(set(widths)) > 1
        yield Tile("stretch", stretch, *stretch.size, _turned_ways(ways, FACINGS[facing]), True, is_varied)


def _shapes(triangle: Triangle) -> Iterator[tuple[Triangle, int, tuple[int, int, int] | None]]:
    """Yield units and widths; where pleats one square wide are not the triangle's own, a single unit."""
    if triangle.width > 1:
        yield triangle, 1, (1, 1, 1)
        return
    for units in range(1, MOST_UNITS + 1):
        yield triangle, units, None
        if units > 1:
            yield from ((triangle, units, (*at, 1)) for at in ((units, 1), (1, units), (units, units)))


def _roofs() -> Iterator[Tile]:
    for height in range(2, HIGHEST_ROOF + 1, 2):
        for width, hinges in product(range(height + 1, LONGEST_ROOF + 1), _ROOF_HINGES):
            roof = Roof(width, height, hinges)
            is_by_rank = hinges[0] == "side" or hinges[0] != hinges[1]
            lying = Tile("roof", roof, width, height, _turned_ways(roof.ways, AS_IT_IS), is_by_rank)
            yield from (lying, _upright(lying))


def _diamonds() -> Iterator[Tile]:
    """Yield diamonds in upright frames as narrow as they or two pleats wider, in every place along them."""
    for half, more, slack in product(range(1, LARGEST_DIAMOND + 1), (0, 2), (0, 1, 2)):
        field = 2 * half + more
        length = field + 2 * half + 2 + slack
        for hinges, roof_hinges, up in product([*SIDEWAYS_HINGES, None], _ROOF_HINGES, range(slack + 1)):
            diamond = Diamond(field // 2, field // 2 + half + 1 + up, half, field, hinges)
            roof = Roof(length, field, roof_hinges)
            ways = _turned_ways(roof.ways, QUARTER_TURN) | {LEFT, RIGHT}
            is_by_rank = _is_by_rank(hinges, roof_hinges)
            upright = Tile("diamond", Framed(diamond, roof), field, length, ways, is_by_rank)
            yield from (upright, _upright(upright))


def _is_by_rank(hinges: tuple[Sideways, Sideways] | None, roof: tuple[RoofHinge, RoofHinge]) -> bool:
    """Whether ranks give a diamond in its upright frame labels that fold; measured with pleats around.

    Where both of its hinges leave to one side none of the frame's may, where one leaves to each side
    not both of the frame's to one.
    """
    across = [{"up": "left", "down": "right"}.get(hinge) for hinge in roof]
    if hinges is None:
        return False
    if hinges[0] == hinges[1]:
        return hinges[0] not in across
    return across[0] is None or across[0] != across[1]


def _upright(choice: Tile) -> Tile:
    """Return the choice turned a quarter."""
    ways = _turned_ways(choice.ways, QUARTER_TURN)
    return choice._replace(
        part=Turned(choice.part, _QUARTER), width=choice.height, height=choice.width, ways=ways
    )


def _turned_ways(ways: Iterable[Direction], symmetry: Symmetry) -> frozenset[Direction]:
    images = (symmetry.of(Point(*way)) for way in ways)
    return frozenset(Direction(int(x), int(y)) for x, y in images)


_STRAIGHT_OUT = frozenset((UP, DOWN))


def fitting(
    height: int,
    room: int,
    free: Collection[Direction],
    kinds: Collection[StructureKind] = get_args(StructureKind),
    triangles: Triangles = (TRIANGLE_345,),
) -> list[Tile]:
    """Return structures of these kinds brought to a height by pleats around, at most so wide.

    Their hinges leave free ways only, and their stretches are of these triangles.
    """
    return [
        choice
        for choice in _brought_to(height, triangles)
        if choice.width <= room and choice.kind in kinds and choice.ways <= set(free)
    ]


@lru_cache(maxsize=256)
def narrowest(height: int, kind: StructureKind, triangles: Triangles) -> Tile | None:
    """Return the narrowest structure of a kind brought to a height, if there is one.

    Its hinges run up and down only, and labels by rank fold it.
    """
    among = (c for c in _brought_to(height, triangles) if c.kind == kind and c.is_by_rank)
    straight = (c for c in among if c.ways <= _STRAIGHT_OUT)
    return min(straight, key=lambda choice: (choice.width, choice.is_varied), default=None)


@lru_cache(maxsize=256)
def _brought_to(height: int, triangles: Triangles) -> tuple[Tile, ...]:
    return tuple(
        _with_pleats(choice, (height - choice.height) // 2)
        for choice in all_choices(triangles)
        if choice.height <= height and (height - choice.height) % 2 == 0
    )


def _with_pleats(choice: Tile, pleats: int) -> Tile:
    if not pleats:
        return choice
    return choice._replace(
        part=Around(choice.part, pleats), width=choice.width + 2 * pleats, height=choice.height + 2 * pleats
    )
