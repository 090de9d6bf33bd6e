"""Sheets by where the paper ends: pleats alone beside a structure, or an edge that cuts into some."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import TypeAlias

from drills.geometry import SYMMETRIES, Chance, Direction, Exact, Point, move_between
from drills.pattern import Paper
from drills.structures.block import DOWN, LEFT, RIGHT, UP, Outline
from drills.structures.composing import folds
from drills.structures.finder import find_stretches
from drills.structures.roof import Roof
from drills.structures.sheets import Sheet, creases_of

LEAST = 6
"""The least squares of a plain sheet's sides."""
TRIES = 8
MOST_LOST = Fraction(1, 3)

Crop: TypeAlias = tuple[int, int, int, int]
"""What is cut off at the left, bottom, right and top."""

_Place: TypeAlias = tuple[int, int, int]
"""The roof's height, the pleats around it, and how far above their lowest line the paper begins."""

_SHOWN = 2
_UPRIGHT, _LYING = (0, 2, 4, 6), (1, 3, 5, 7)
_SIDES = (LEFT, DOWN, RIGHT, UP)
_AXES = Direction(1, 0), Direction(0, 1)


def pleats_only(chance: Chance, width: int, height: int) -> Sheet:
    """Return a sheet of this size in squares with nothing but pleats and one or two 45-degree ridges.

    It lies beside a roof, from its short side outward, so that nothing of the roof shows.
    ValueError where it is less than 6 squares wide or high.
    """
    across, along = min(width, height), max(width, height)
    if across < LEAST:
        raise ValueError(f"A plain sheet is at least {LEAST} by {LEAST} squares, not {width} by {height}.")
    high, pleats, low = (_with_two_ridges if chance.one_in(2) else _with_one)(chance, across, along)
    roof = Roof(high + 1, high, ("up", "down"))
    crop = (pleats - across, low, roof.width + pleats, 2 * pleats + high - low - along)
    facing = chance.pick(_LYING if width > height else _UPRIGHT)
    return Sheet(roof, pleats, facing, chance.one_in(2), _turned(crop, facing))


def _with_two_ridges(chance: Chance, across: int, along: int) -> _Place:
    """Return a place where both ridges from the roof's short side show, two squares of each at least."""
    high = 2 + 2 * chance.below((along - 2 * _SHOWN) // 2)
    pleats = max(across, (along - high + 1) // 2) + chance.below(3)
    least, most = pleats + high + _SHOWN - along, 2 * pleats + high - along
    return high, pleats, _between(chance, max(0, least), min(pleats - _SHOWN, most))


def _with_one(chance: Chance, across: int, along: int) -> _Place:
    """Return a place where only the lower ridge shows, two squares of it at least."""
    pleats = across + chance.below(3)
    return (
        along + along % 2,
        pleats,
        _between(chance, max(0, pleats - across + _SHOWN - along), pleats - _SHOWN),
    )


def _between(chance: Chance, least: int, most: int) -> int:
    return least + chance.below(most - least + 1)


def _turned(crop: Crop, facing: int) -> Crop:
    """Return what is cut off at the left, bottom, right and top once the sheet is turned."""
    at = {SYMMETRIES[facing].of(Point(*way)): cut for way, cut in zip(_SIDES, crop, strict=True)}
    left, bottom, right, top = (at[Point(*way)] for way in _SIDES)
    return left, bottom, right, top


def cut(chance: Chance, sheet: Sheet, clear_edge: bool = False) -> Sheet:
    """Return the sheet with the paper's edge through one or more of its structures.

    A stretch loses at most a third of its width and of its height, or all; so each on the paper is
    found there, and one is where there was one. With ``clear_edge`` the edge runs through no turning
    point. The sheet itself where nothing can be cut.
    """
    whole = on_paper(sheet)
    crops = chance.shuffled([crop for crop in _crops(*sheet.size) if _is_fair(sheet.size, whole, crop)])
    for crop in crops[:TRIES]:
        smaller = _cropped(sheet, crop)
        if clear_edge and cuts_a_turning_point(smaller):
            continue
        if len(find_stretches(creases_of(smaller))) == len(on_paper(smaller)) and folds(smaller):
            return smaller
    return sheet


def cuts_a_turning_point(sheet: Sheet) -> bool:
    """Whether the paper's edge runs through a turning point: an inside line meets one side there, not two."""
    pattern = creases_of(sheet)
    on_edge = set(range(len(pattern.vertices))) - set(pattern.interior)
    meeting = ([pattern.edges[edge].role for edge in pattern.around[vertex]] for vertex in on_edge)
    return any("inside" in roles and roles.count("outline") == 1 for roles in meeting)


def on_paper(sheet: Sheet) -> tuple[Outline, ...]:
    """Return the corners S, A, T, B of each slanted stretch of which any part is on the paper."""
    paper = Paper(0, 0, *sheet.size)
    return tuple(outline for outline in sheet.outlines() if _shows(outline, paper))


def _cropped(sheet: Sheet, crop: Crop) -> Sheet:
    left, bottom, right, top = (old + new for old, new in zip(sheet.crop, crop, strict=True))
    return replace(sheet, crop=(left, bottom, right, top))


def _crops(width: int, height: int) -> Iterator[Crop]:
    """Yield what may be cut off: two squares to a third of the paper, from one side or two that meet."""
    for (left, right), (bottom, top) in product(_cuts(width), _cuts(height)):
        if left or bottom or right or top:
            yield left, bottom, right, top


def _cuts(size: int) -> list[tuple[int, int]]:
    depths = range(2, size // 3 + 1)
    return [(0, 0), *((depth, 0) for depth in depths), *((0, depth) for depth in depths)]


def _is_fair(size: tuple[int, int], whole: Sequence[Outline], crop: Crop) -> bool:
    """Whether a crop of a sheet cuts into a stretch, and leaves most of each that it leaves at all.

    Where there is no stretch, whether it takes a quarter of the paper's width or height.
    """
    left, bottom, right, top = crop
    width, height = size
    paper = Paper(left, bottom, width - right, height - top)
    lost = [_lost(outline, paper) for outline in whole if _shows(outline, paper)]
    if not whole:
        return 4 * (left + right) >= width or 4 * (bottom + top) >= height
    return bool(lost) and 0 < max(lost) <= MOST_LOST


def _lost(outline: Outline, paper: Paper) -> Fraction:
    """Return how much of its width or height, whichever is more, a stretch loses to the paper's edge."""
    shares = []
    for axis in _AXES:
        low, high = _reach(outline, axis)
        least, most = _reach(paper.corners, axis)
        shares.append(1 - Fraction(min(high, most) - max(low, least)) / (high - low))
    return max(shares)


def _shows(outline: Outline, paper: Paper) -> bool:
    """Whether some of what the outline encloses is on the paper: no line along a side keeps them apart."""
    s, a, _, b = outline
    across = [Direction(-int(side.dy), int(side.dx)) for side in (move_between(s, a), move_between(s, b))]
    reaches = ((_reach(outline, way), _reach(paper.corners, way)) for way in (*_AXES, *across))
    return all(max(low, least) < min(high, most) for (low, high), (least, most) in reaches)


def _reach(corners: Sequence[Point], way: Direction) -> tuple[Exact, Exact]:
    """Return how far corners reach along a direction, from least to most, in lengths of its own."""
    places = [way.dx * x + way.dy * y for x, y in corners]
    return min(places), max(places)
