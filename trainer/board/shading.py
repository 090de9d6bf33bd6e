"""The sparse dots that fill a face, kept clear of the creases."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import ceil, floor

from drills.geometry import Point
from trainer.board.raster import Dot, Masks, has_dot, masks_of
from trainer.board.static_layer import StaticLayer

EVERY_ACROSS, EVERY_DOWN = 4, 2
_TOUCHING = ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1))


def shade_of(sheet: StaticLayer, outline: Sequence[Point]) -> Masks:
    """Return the cells shaded inside an outline, given as its corners in order."""
    return _shade(sheet.scale.columns, sheet.scale.rows, sheet.drawn, tuple(map(sheet.scale.dot, outline)))


@lru_cache(maxsize=64)
def _shade(columns: int, rows: int, drawn: tuple[int, ...], corners: tuple[Dot, ...]) -> Masks:
    dots = (
        dot
        for dot in _lattice(corners)
        if not any(has_dot(drawn, columns, dot.x + dx, dot.y + dy) for dx, dy in _TOUCHING)
    )
    return masks_of(dots, columns, rows)


def _lattice(corners: Sequence[Dot]) -> Iterator[Dot]:
    """Yield the dots of a staggered lattice between the outline's crossings with each dot row."""
    top, bottom = min(y for _, y in corners), max(y for _, y in corners)
    for y in range(-(-top // EVERY_DOWN) * EVERY_DOWN, bottom + 1, EVERY_DOWN):
        offset = EVERY_ACROSS // 2 * (y // EVERY_DOWN % 2)
        crossings = sorted(_crossings(corners, y))
        for enter, leave in zip(crossings[::2], crossings[1::2], strict=True):
            first = ceil((enter - offset) / EVERY_ACROSS) * EVERY_ACROSS + offset
            yield from (Dot(x, y) for x in range(first, floor(leave) + 1, EVERY_ACROSS))


def _crossings(corners: Sequence[Dot], y: int) -> Iterator[float]:
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (a.y <= y) != (b.y <= y):
            yield a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y)
