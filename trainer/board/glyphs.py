"""The characters a board is made of: braille, or block quadrants where a font has no braille."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

GlyphName: TypeAlias = Literal["braille", "blocks"]

_QUADRANTS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
_QUADRANT_BITS = (0x01 | 0x02, 0x08 | 0x10, 0x04 | 0x40, 0x20 | 0x80)


@dataclass(frozen=True)
class Glyphs:
    """The character for each set of dots, and the signs that stand for a whole cell.

    ``arrows`` start east and go round counterclockwise; ``grid`` and ``shade`` are the characters
    of cells with nothing else in them, empty where the dots themselves are drawn.
    """

    dots: tuple[str, ...]
    arrows: str
    point: str
    cursor: str
    grid: str
    shade: str


BRAILLE = Glyphs(
    dots=(" ", *(chr(0x2800 + mask) for mask in range(1, 256))),
    arrows="►◥▲◤◄◣▼◢",
    point="●",
    cursor="◆",
    grid="",
    shade="",
)

# Of the signs the Linux console has no more than these.
BLOCKS = Glyphs(
    dots=tuple(
        _QUADRANTS[sum(1 << i for i, bits in enumerate(_QUADRANT_BITS) if mask & bits)] for mask in range(256)
    ),
    arrows="►▲◄▼",
    point="o",
    cursor="■",
    grid="·",
    shade="░",
)

GLYPHS: dict[GlyphName, Glyphs] = {"braille": BRAILLE, "blocks": BLOCKS}
