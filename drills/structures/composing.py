"""Composing sheets by seeded chance: a row of structures of one height, some with their mirror image.

Every structure of a row stands in a strip of its own, brought to the row's height by pleats around it.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from drills.exact.chance import Chance
from drills.exact.plane import Direction
from drills.exact.symmetry import SYMMETRIES
from drills.structures.block import DOWN, LEFT, RIGHT, UP, turned_block
from drills.structures.choices import Choice, fitting
from drills.structures.parts import Beside, Mirrored, Part, Turned, block_of
from drills.structures.sheets import Sheet, draw_sheet

MOST_STRUCTURES = 6
DRAWS = 12

_STRAIGHT_OUT = frozenset((UP, DOWN))
_NARROWEST, _LOWEST = 3, 4
_QUARTER, _BACK = 1, 3
_LYING, _UPRIGHT = (0, 2, 4, 6), (1, 3, 5, 7)


def compose(chance: Chance, width: int, height: int, structures: int) -> Sheet:
    """Return a sheet of this size in squares with so many structures, one at least a slanted stretch.

    It folds flat, layers included. ValueError where so many do not fit: there are one to six, and
    they stand in a row along the longer side, which needs 3 squares for each and 2 more; the shorter
    needs 6.
    """
    along, across = max(width, height), min(width, height)
    if not 1 <= structures <= MOST_STRUCTURES or along < _NARROWEST * structures + 2 or across < _LOWEST + 2:
        raise ValueError(
            f"{structures} structures do not fit {width} by {height} squares: "
            f"take 1 to {MOST_STRUCTURES}, and 3 squares for each and 2 more by at least 6."
        )
    facings = _LYING if width >= height else _UPRIGHT
    for _ in range(DRAWS):
        part = _drawn(chance, along - 2, across - 2, structures)
        sheet = _fitted(chance, part, width, height, chance.pick(facings))
        if folds(sheet):
            return sheet
    return _fitted(chance, reduce(Beside, [_least()] * structures), width, height, facings[0])


def folds(sheet: Sheet) -> bool:
    """Whether labels with a layer order are found for the sheet."""
    try:
        draw_sheet(sheet)
    except ValueError:
        return False
    return True


def _drawn(chance: Chance, width: int, height: int, structures: int) -> Part:
    """Return a row of structures; or of half as many with its mirror image; or one and its image above."""
    if structures % 2 or not chance.one_in(3):
        return _row(chance, (width, height), structures, (LEFT, RIGHT))
    if structures == 2 and height >= 2 * _LOWEST:
        single = _row(chance, (width, height // 2), 1, (LEFT, RIGHT))
        return Turned(Mirrored(Turned(single, _BACK)), _QUARTER)
    return Mirrored(_row(chance, (width // 2, height), structures // 2, (LEFT,)))


def _row(chance: Chance, room: tuple[int, int], structures: int, open_ends: Sequence[Direction]) -> Part:
    """Return a row of structures, at most so wide and high, one at least a slanted stretch.

    Hinges leave the row upwards, downwards and at its open ends.
    """
    width, height = room
    strip = width // structures
    heights = _heights(strip, height)
    high = max(chance.pick(heights), chance.pick(heights))
    slanted = chance.below(structures)
    drawn: list[Choice] = []
    for place in range(structures):
        ends = {LEFT} if place == 0 else set()
        ends |= {RIGHT} if place == structures - 1 else set()
        choices = fitting(high, strip, _STRAIGHT_OUT | ends.intersection(open_ends))
        drawn.append(_picked(chance, [c for c in choices if place != slanted or c.kind == "stretch"]))
    spare = min((width - sum(choice.width for choice in drawn)) // 2, height - high)
    return _joined(chance, [choice.part for choice in drawn], spare)


def _heights(strip: int, height: int) -> list[int]:
    """Return the heights of a row at which a slanted stretch fits a strip."""
    heights = range(_LOWEST, height + 1)
    return [h for h in heights if any(c.kind == "stretch" for c in fitting(h, strip, _STRAIGHT_OUT))]


def _picked(chance: Chance, choices: Sequence[Choice]) -> Choice:
    """Return one of the structures, each kind equally likely and slanted ones twice as much."""
    kinds = sorted({choice.kind for choice in choices})
    kind = chance.pick([*kinds, "stretch"] if "stretch" in kinds else kinds)
    sizes = sorted({(c.width, c.height) for c in choices if c.kind == kind})
    size = chance.pick(sizes)
    return chance.pick([c for c in choices if c.kind == kind and (c.width, c.height) == size])


def _joined(chance: Chance, parts: Sequence[Part], spare: int) -> Part:
    """Return the parts in a row, with a gap somewhere where so many squares are to spare."""
    if len(parts) == 1:
        return parts[0]
    gap = 2 * chance.below(min(spare, 4) // 2 + 1)
    place = 1 + chance.below(len(parts) - 1)
    return Beside(reduce(Beside, parts[:place]), reduce(Beside, parts[place:]), gap)


def _least() -> Part:
    return fitting(_LOWEST, _NARROWEST, _STRAIGHT_OUT)[0].part


def _fitted(chance: Chance, part: Part, width: int, height: int, facing: int) -> Sheet:
    """Return the sheet of exactly this size with the part on it: pleats around, the surplus cropped."""
    block = turned_block(block_of(part), SYMMETRIES[facing])
    more_across, more_up = width - int(block.width), height - int(block.height)
    pleats = (max(more_across, more_up) + 1) // 2
    left, right = _shares(chance, 2 * pleats - more_across, pleats)
    bottom, top = _shares(chance, 2 * pleats - more_up, pleats)
    return Sheet(part, pleats, facing, chance.one_in(2), (left, bottom, right, top))


def _shares(chance: Chance, surplus: int, pleats: int) -> tuple[int, int]:
    """Return how much of the surplus is cropped at either end, so that a pleat is left at both."""
    least = max(0, surplus - pleats + 1)
    first = least + chance.below(min(surplus, pleats - 1) - least + 1)
    return first, surplus - first
