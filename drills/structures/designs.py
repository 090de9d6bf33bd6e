"""Designs of blocks: how a block is put together from structures, as small values that hash.

A structure (a stretch, a roof, ...) is a design that knows its own block; the designs here turn,
surround and join those of others. Tiles are structures as a row of a sheet is composed of them.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple, TypeAlias

from drills.geometry import QUARTER_TURN, SYMMETRIES, Direction, Symmetry
from drills.structures.block import (
    Block,
    beside,
    mirror_pair,
    turned_block,
    turned_direction,
    with_pleats_around,
)


class BlockDesign(ABC):
    """What a block is made after; a frozen value, so that equal designs are one and drawn once."""

    @abstractmethod
    def block(self) -> Block:
        """Return the block, labelled by rank; ValueError where parts do not go together."""

    @property
    def structures(self) -> int:
        """The number of structures in it, look-alikes included; a frame round one does not count."""
        return 1


@lru_cache(maxsize=512)
def block_of(part: BlockDesign) -> Block:
    """Return the block of a design, remembered; ValueError where parts do not go together."""
    return part.block()


@dataclass(frozen=True)
class Around(BlockDesign):
    """A part with so many pleats around it."""

    part: BlockDesign
    pleats: int

    def block(self) -> Block:
        """Return the part's block with the pleats around."""
        return with_pleats_around(block_of(self.part), self.pleats)

    @property
    def structures(self) -> int:
        """Those of the part."""
        return self.part.structures


@dataclass(frozen=True)
class Turned(BlockDesign):
    """A part in one of SYMMETRIES, by index: 1 is a quarter turn counterclockwise, 4 the mirror image."""

    part: BlockDesign
    facing: int

    def block(self) -> Block:
        """Return the image of the part's block."""
        return turned_block(block_of(self.part), SYMMETRIES[self.facing])

    @property
    def structures(self) -> int:
        """Those of the part."""
        return self.part.structures


@dataclass(frozen=True)
class Beside(BlockDesign):
    """Two parts side by side with so many pleats between them."""

    left: BlockDesign
    right: BlockDesign
    gap: int = 0

    def block(self) -> Block:
        """Return both blocks as one."""
        return beside(block_of(self.left), block_of(self.right), self.gap)

    @property
    def structures(self) -> int:
        """Those of both parts."""
        return self.left.structures + self.right.structures


@dataclass(frozen=True)
class Mirrored(BlockDesign):
    """A part with its mirror image at its right and so many pleats between them."""

    part: BlockDesign
    gap: int = 0

    def block(self) -> Block:
        """Return the part's block and its image as one."""
        return mirror_pair(block_of(self.part), self.gap)

    @property
    def structures(self) -> int:
        """Those of the part, twice."""
        return 2 * self.part.structures


StructureKind: TypeAlias = str
"""The name of a row of STRUCTURES."""


class Tile(NamedTuple):
    """A structure with the size of its block in squares and the directions in which its hinges leave.

    ``is_by_rank`` says that labels by rank fold it with any pleats around, so that no others need to
    be sought; ``is_varied`` that the pleats round a side corner are wider than those outside.
    """

    kind: StructureKind
    part: BlockDesign
    width: int
    height: int
    directions: frozenset[Direction]
    is_by_rank: bool = True
    is_varied: bool = False

    def upright(self) -> Tile:
        """Return the tile turned a quarter."""
        return self._replace(
            part=Turned(self.part, SYMMETRIES.index(QUARTER_TURN)),
            width=self.height,
            height=self.width,
            directions=turned_directions(self.directions, QUARTER_TURN),
        )

    def with_pleats(self, pleats: int) -> Tile:
        """Return the tile with so many pleats around it."""
        if not pleats:
            return self
        return self._replace(
            part=Around(self.part, pleats), width=self.width + 2 * pleats, height=self.height + 2 * pleats
        )


def turned_directions(directions: Iterable[Direction], symmetry: Symmetry) -> frozenset[Direction]:
    """Return the images of directions under a symmetry of the square."""
    return frozenset(turned_direction(direction, symmetry) for direction in directions)
