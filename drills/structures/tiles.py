"""The structures that sheets are composed of, and which of them fit a row.

To add one: a module with its design and its tiles, and a row of STRUCTURES.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from functools import lru_cache
from typing import NamedTuple, TypeAlias

from drills.geometry import Direction
from drills.structures.block import DOWN, UP
from drills.structures.designs import StructureKind, Tile
from drills.structures.diamond import diamond_tiles
from drills.structures.roof import roof_tiles
from drills.structures.stretch import stretch_tiles
from drills.structures.triangle import TRIANGLE_345, Triangle

Triangles: TypeAlias = tuple[Triangle, ...]


class Structure(NamedTuple):
    """A row of the registry: the tiles of a structure, lying and upright.

    ``tiles`` takes the triangles that slanted stretches may have. Slanted structures are what is
    practised, so they are drawn twice as often as look-alikes.
    """

    tiles: Callable[[Triangles], Iterable[Tile]]
    is_slanted: bool = False


STRUCTURES: dict[StructureKind, Structure] = {
    "stretch": Structure(stretch_tiles, is_slanted=True),
    "roof": Structure(roof_tiles),
    "diamond": Structure(diamond_tiles),
}
"""By name. A sheet has only those that its recipe allows, so a new row changes no old sheet."""

_STRAIGHT_OUT = frozenset((UP, DOWN))


@lru_cache(maxsize=64)
def _tiles(structure: Structure, triangles: Triangles) -> tuple[Tile, ...]:
    return tuple(structure.tiles(triangles))


def fitting(
    height: int,
    room: int,
    free: Collection[Direction],
    kinds: Collection[StructureKind] | None = None,
    triangles: Triangles = (TRIANGLE_345,),
) -> list[Tile]:
    """Return structures of these kinds brought to a height by pleats around, at most so wide.

    Their hinges leave in free directions only, and their stretches are of these triangles.
    """
    return [
        tile
        for name, structure in STRUCTURES.items()
        if kinds is None or name in kinds
        for tile in _brought_to(structure, height, triangles)
        if tile.width <= room and tile.directions <= set(free)
    ]


def stands_in_row(kind: StructureKind, triangles: Triangles) -> bool:
    """Whether a kind has a structure at all that a row of some height can fall back on."""
    return any(map(_is_plain, _tiles(STRUCTURES[kind], triangles)))


def _is_plain(tile: Tile) -> bool:
    """Whether hinges run up and down only, and labels by rank fold it."""
    return tile.is_by_rank and tile.directions <= _STRAIGHT_OUT


def narrowest(height: int, kind: StructureKind, triangles: Triangles) -> Tile | None:
    """Return the narrowest structure of a kind brought to a height, if there is one.

    Its hinges run up and down only, and labels by rank fold it.
    """
    return _narrowest(STRUCTURES[kind], height, triangles)


@lru_cache(maxsize=256)
def _narrowest(structure: Structure, height: int, triangles: Triangles) -> Tile | None:
    plain = filter(_is_plain, _brought_to(structure, height, triangles))
    return min(plain, key=lambda tile: (tile.width, tile.is_varied), default=None)


@lru_cache(maxsize=512)
def _brought_to(structure: Structure, height: int, triangles: Triangles) -> tuple[Tile, ...]:
    return tuple(
        tile.with_pleats((height - tile.height) // 2)
        for tile in _tiles(structure, triangles)
        if tile.height <= height and (height - tile.height) % 2 == 0
    )
