"""Descriptions of blocks: what a sheet is put together from, frozen and comparable; and their blocks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from drills.exact.symmetry import SYMMETRIES
from drills.structures.block import Block, turned_block, with_pleats_around
from drills.structures.diamond import Diamond
from drills.structures.joining import above, beside, mirror_pair
from drills.structures.making import block_of_diamond, block_of_roof, block_of_stretch
from drills.structures.roof import Roof
from drills.structures.stretch import Stretch


@dataclass(frozen=True)
class Framed:
    """A diamond in the field of an upright roof, which is given lying."""

    diamond: Diamond
    roof: Roof


@dataclass(frozen=True)
class Around:
    """A part with so many pleats around it."""

    part: Part
    pleats: int


@dataclass(frozen=True)
class Turned:
    """A part in one of SYMMETRIES, by index: 1 is a quarter turn counterclockwise, 4 the mirror image."""

    part: Part
    facing: int


@dataclass(frozen=True)
class Beside:
    """Two parts side by side with so many pleats between them."""

    left: Part
    right: Part
    gap: int = 0


@dataclass(frozen=True)
class Above:
    """Two parts one above the other with so many pleats between them."""

    lower: Part
    upper: Part
    gap: int = 0


@dataclass(frozen=True)
class Mirrored:
    """A part with its mirror image at its right and so many pleats between them."""

    part: Part
    gap: int = 0


Part: TypeAlias = Stretch | Roof | Framed | Around | Turned | Beside | Above | Mirrored


@lru_cache(maxsize=512)
def block_of(part: Part) -> Block:
    """Return the block that a description stands for; ValueError where parts do not go together."""
    match part:
        case Stretch():
            return block_of_stretch(part)
        case Roof():
            return block_of_roof(part)
        case Framed(diamond, roof):
            return block_of_diamond(diamond, roof)
        case Around(inner, pleats):
            return with_pleats_around(block_of(inner), pleats)
        case Turned(inner, facing):
            return turned_block(block_of(inner), SYMMETRIES[facing])
        case Beside(left, right, gap):
            return beside(block_of(left), block_of(right), gap)
        case Above(lower, upper, gap):
            return above(block_of(lower), block_of(upper), gap)
        case Mirrored(inner, gap):
            return mirror_pair(block_of(inner), gap)


def structures_in(part: Part) -> int:
    """Return how many stretches, roofs and 45-degree stretches a part has; a frame does not count."""
    match part:
        case Stretch() | Roof() | Framed():
            return 1
        case Around(inner, _) | Turned(inner, _):
            return structures_in(inner)
        case Mirrored(inner, _):
            return 2 * structures_in(inner)
        case Beside(first, second, _) | Above(first, second, _):
            return structures_in(first) + structures_in(second)
