"""A sheet that stands turned in its file, turned back until its sides run along the axes."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees, hypot, isqrt
from typing import Final

from drills.fold_file.drawing import Drawing
from drills.geometry import IntPair

_STRAIGHT: Final = 4e-4
"""Up to this slope a side counts as straight, and a corner as right: points set by hand miss it."""
_MORE_PLACES: Final = 3


def turned_back(drawing: Drawing) -> Drawing:
    """Return the drawing with the sides of its paper along the axes; only a turned rectangle is turned.

    It stays where more creases run along the axes than along the paper's sides: there the grid does too.
    """
    if drawing.exact is not None:
        return drawing
    side = _side(_corners(drawing))
    if side is None or _along(drawing, (1, 0)) > _along(drawing, side):
        return drawing
    dx, dy = side
    # a thousand times finer, so that what is rounded here is nothing beside what the file rounds
    finer = 10**_MORE_PLACES
    length = isqrt((dx * dx + dy * dy) * finer * finer)
    scale = finer * finer
    turned = [
        ((x * dx + y * dy) * scale // length, (y * dx - x * dy) * scale // length)
        for x, y in zip(drawing.xs, drawing.ys, strict=True)
    ]
    angle = f"{abs(degrees(atan2(dy, dx))):.2f}".rstrip("0").rstrip(".")
    said = f"Turned back by {angle} degrees, so that the paper's sides run along the grid."
    return drawing._replace(
        xs=tuple(x for x, _ in turned),
        ys=tuple(y for _, y in turned),
        places=drawing.places + _MORE_PLACES,
        # a point's own two roundings mix, and so do those of the side that it is turned by
        rounding=2 * drawing.rounding * finer,
        notices=(*drawing.notices, said),
    )


def _corners(drawing: Drawing) -> list[IntPair]:
    """Return the corners of the paper's hull, counterclockwise, without those on a straight side."""
    pairs = list(zip(drawing.ends, drawing.labels, strict=True))
    border = {vertex for pair, label in pairs if label == "B" for vertex in pair}
    places = {(drawing.xs[v], drawing.ys[v]) for v in border or {v for pair, _ in pairs for v in pair}}
    ring = _hull(sorted(places))
    size = max((hypot(x - ring[0][0], y - ring[0][1]) for x, y in ring), default=0.0)
    kept: list[IntPair] = []
    for place, point in enumerate(ring):
        before, after = kept[-1] if kept else ring[-1], ring[(place + 1) % len(ring)]
        area = (point[0] - before[0]) * (after[1] - point[1]) - (point[1] - before[1]) * (after[0] - point[0])
        if area > _STRAIGHT * size * hypot(after[0] - before[0], after[1] - before[1]):
            kept.append(point)
    return kept


def _hull(places: Sequence[IntPair]) -> list[IntPair]:
    """Return the convex hull of sorted places, counterclockwise (A. M. Andrew 1979, from memory)."""
    ring: list[IntPair] = []
    for way in (places, places[::-1]):
        chain: list[IntPair] = []
        for x, y in way:
            while len(chain) > 1:
                (ax, ay), (bx, by) = chain[-2:]
                if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                    break
                chain.pop()
            chain.append((x, y))
        ring += chain[:-1]
    return ring


def _side(corners: Sequence[IntPair]) -> IntPair | None:
    """Return the side of a rectangle that runs most nearly to the right, or None if that is straight on."""
    if len(corners) != 4:
        return None
    sides = [(x - corners[i - 1][0], y - corners[i - 1][1]) for i, (x, y) in enumerate(corners)]
    for (ax, ay), (bx, by) in zip(sides, sides[1:] + sides[:1], strict=True):
        if abs(ax * bx + ay * by) > 2 * _STRAIGHT * hypot(ax, ay) * hypot(bx, by):
            return None
    dx, dy = max(sides, key=lambda side: side[0] / hypot(*side))
    return (dx, dy) if abs(dy) > _STRAIGHT * hypot(dx, dy) else None


def _along(drawing: Drawing, side: IntPair) -> int:
    """Return how many creases run along a direction or across it."""
    dx, dy = float(side[0]), float(side[1])
    length, count = hypot(dx, dy), 0
    for (one, two), label in zip(drawing.ends, drawing.labels, strict=True):
        if label == "B":
            continue
        x, y = drawing.xs[two] - drawing.xs[one], drawing.ys[two] - drawing.ys[one]
        least = _STRAIGHT * length * hypot(x, y)
        count += abs(x * dy - y * dx) <= least or abs(x * dx + y * dy) <= least
    return count
