"""Composing sheets by seeded chance: a row of structures of one height, some with their mirror image."""

from __future__ import annotations

from collections.abc import Iterator

from drills.exact.chance import Chance
from drills.exact.symmetry import SYMMETRIES
from drills.structures.block import LEFT, RIGHT, turned_block
from drills.structures.choices import Kind, Triangles
from drills.structures.parts import Mirrored, Part, Turned, block_of
from drills.structures.rows import Free, Wish, drawn_row, least_rows
from drills.structures.sheets import Sheet, draw_sheet
from drills.structures.triangle import TRIANGLE_345

MOST_STRUCTURES = 6
DRAWS = 12
LARGE = 500

_QUARTER, _BACK = 1, 3
_LYING, _UPRIGHT = (0, 2, 4, 6), (1, 3, 5, 7)


def compose(
    chance: Chance,
    width: int,
    height: int,
    structures: int,
    *,
    needed: tuple[Kind, ...] = ("stretch",),
    allowed: tuple[Kind, ...] = ("stretch", "roof", "diamond"),
    triangles: Triangles = (TRIANGLE_345,),
) -> Sheet:
    """Return a sheet of this size in squares with one to six structures in a row along its longer side.

    Each kind needed occurs, none but those allowed does; slanted stretches are of these triangles. It
    folds flat, layers included. ValueError where so many do not fit, or no such sheet is found.
    """
    _check_kinds(structures, needed, allowed)
    wish = Wish(structures, needed, allowed, triangles)
    room = _room(wish, width, height)
    for part, facing in _parts(chance, wish, room, _LYING if width >= height else _UPRIGHT):
        sheet = _fitted(chance, part, width, height, facing)
        if folds(sheet):
            return sheet
    raise ValueError(
        f"No sheet of {width} by {height} squares with {structures} such structures was found that folds "
        "flat; take another size."
    )


def folds(sheet: Sheet) -> bool:
    """Whether labels with a layer order are found for the sheet."""
    try:
        draw_sheet(sheet)
    except ValueError:
        return False
    return True


def _check_kinds(structures: int, needed: tuple[Kind, ...], allowed: tuple[Kind, ...]) -> None:
    if not 1 <= structures <= MOST_STRUCTURES or len(needed) > structures:
        raise ValueError(
            f"{structures} structures do not fit: take 1 to {MOST_STRUCTURES}, one at least for each "
            f"of the {len(needed)} needed."
        )
    if not allowed or not set(needed) <= set(allowed):
        raise ValueError(f"Allow the kinds that are needed ({', '.join(needed)}), and one at least.")


def _room(wish: Wish, width: int, height: int) -> tuple[int, int]:
    """Return the squares along and across that a row may fill; at its ends pleats stay, at one if need be.

    ValueError where no such row fits.
    """
    along, across = max(width, height), min(width, height)
    for room in ((along - 2, across - 2), (along - 1, across - 2)):
        if wish.heights(*room):
            return room
    names = ", ".join(wish.needed) or "any"
    raise ValueError(
        f"{wish.structures} structures ({names} among them) do not fit {width} by {height} squares: "
        "take a larger sheet or fewer of them."
    )


def _parts(
    chance: Chance, wish: Wish, room: tuple[int, int], facings: tuple[int, ...]
) -> Iterator[tuple[Part, int]]:
    """Yield drawn rows with a facing each, at last the simplest ones.

    The first may have structures that ranks do not label, unless so large that labels take long to find.
    """
    is_small = room[0] * room[1] <= LARGE
    for draw in range(DRAWS):
        yield _drawn(chance, wish, room, is_small and draw == 0), chance.pick(facings)
    for part in least_rows(wish, room):
        yield part, facings[0]


def _drawn(chance: Chance, wish: Wish, room: tuple[int, int], is_any: bool) -> Part:
    """Return a row of structures; or of half as many with its mirror image; or one and its image above."""
    (width, height), ends = room, Free((LEFT, RIGHT), is_any)
    half = wish._replace(structures=wish.structures // 2)
    if not wish.structures % 2 and len(wish.needed) <= half.structures and chance.one_in(3):
        if is_any and wish.structures == 2 and half.heights(width, height // 2):
            single = drawn_row(chance, half, (width, height // 2), ends)
            return Turned(Mirrored(Turned(single, _BACK)), _QUARTER)
        if half.heights(width // 2, height):
            return Mirrored(drawn_row(chance, half, (width // 2, height), Free((LEFT,), is_any)))
    return drawn_row(chance, wish, room, ends)


def _fitted(chance: Chance, part: Part, width: int, height: int, facing: int) -> Sheet:
    """Return the sheet of exactly this size with the part on it: pleats around, the surplus cropped."""
    block = turned_block(block_of(part), SYMMETRIES[facing])
    more_across, more_up = width - int(block.width), height - int(block.height)
    pleats = (max(more_across, more_up) + 1) // 2
    left, right = _shares(chance, 2 * pleats - more_across, pleats)
    bottom, top = _shares(chance, 2 * pleats - more_up, pleats)
    return Sheet(part, pleats, facing, chance.one_in(2), (left, bottom, right, top))


def _shares(chance: Chance, surplus: int, pleats: int) -> tuple[int, int]:
    """Return how much of the surplus is cropped at either end; where it can be, a pleat is left at both."""
    most = pleats - 1 if surplus <= 2 * pleats - 2 else pleats
    least = max(0, surplus - most)
    first = least + chance.below(min(surplus, most) - least + 1)
    return first, surplus - first
