"""Shaded faces: one part hatched, the other dotted, in cells without a crease, so that these stay plain."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor

from drills.geometry import Point
from trainer.board.palette import Ink
from trainer.board.raster import Dot, Masks, masks_of
from trainer.board.scale import Scale

TEXTURES = Ink.HATCH, Ink.SHADE
"""Those of the first and the second part that goes in, and so on in turn."""


def shade_of(scale: Scale, outline: Sequence[Point], texture: Ink) -> Masks:
    """Return the cells shaded inside an outline, given as its corners in order."""
    dots = (dot for dot in _inside(tuple(map(scale.dot, outline))) if _is_of(texture, dot))
    return masks_of(dots, scale.columns, scale.rows)


def _is_of(texture: Ink, dot: Dot) -> bool:
    """Whether a dot belongs to a texture: level strokes, or a staggered lattice of single dots."""
    if texture is Ink.HATCH:
        return dot.y % 2 == 0
    return dot.y % 2 == 0 and (dot.x + dot.y) % 4 == 0


def _inside(corners: Sequence[Dot]) -> Iterator[Dot]:
    """Yield the dots between the outline's crossings with each row of dots."""
    top, bottom = min(y for _, y in corners), max(y for _, y in corners)
    for y in range(top, bottom + 1):
        crossings = sorted(_crossings(corners, y))
        for enter, leave in zip(crossings[::2], crossings[1::2], strict=True):
            yield from (Dot(x, y) for x in range(ceil(enter), floor(leave) + 1))


def _crossings(corners: Sequence[Dot], y: int) -> Iterator[float]:
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (a.y <= y) != (b.y <= y):
            yield a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y)
