"""What a sheet shows of its stretches, told from how it was put together and not from the creases."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Polygon, box  # type: ignore[import-untyped]

from drills.geometry import Point
from drills.structures import Outline, Sheet, outlines


def area_on_paper(outline: Sequence[Point], size: tuple[int, int]) -> float:
    """Return how much of what an outline encloses lies on the paper, 0 to 1; 0 for a touch."""
    whole = Polygon([(float(x), float(y)) for x, y in outline])
    share = whole.intersection(box(0, 0, *size)).area / whole.area
    return 0.0 if share < 1e-9 else float(share)


def shown(sheet: Sheet) -> list[Outline]:
    """Return the outlines of the stretches of which any part is on the paper."""
    return [outline for outline in outlines(sheet) if area_on_paper(outline, sheet.size)]


def corners_within(outline: Outline, size: tuple[int, int]) -> set[Point]:
    """Return the corners that lie on the paper and off its edge."""
    width, height = size
    return {corner for corner in outline if 0 < corner.x < width and 0 < corner.y < height}
