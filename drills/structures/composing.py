"""Rows of structures, each in a strip of its own and brought to the row's height by pleats around it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from typing import NamedTuple

from drills.geometry import SYMMETRIES, Chance, Direction
from drills.structures.block import DOWN, LEFT, RIGHT, UP, turned_block
from drills.structures.designs import Beside, BlockDesign, Mirrored, Turned, block_of
from drills.structures.sheets import Sheet, draw_sheet
from drills.structures.tiles import StructureKind, Tile, Triangles, fitting, narrowest
from drills.structures.triangle import TRIANGLE_345

LOWEST = 4
VARIED_ONE_IN = 8


class HingeFreedom(NamedTuple):
    """The ends at which hinges may leave a row, and whether its structures may need a search for labels."""

    ends: tuple[Direction, ...]
    is_any: bool


class RowRequest(NamedTuple):
    """How many structures a row has, the kinds it needs and may have, and its stretches' triangles."""

    structures: int
    needed: tuple[StructureKind, ...]
    allowed: tuple[StructureKind, ...]
    triangles: Triangles

    def heights(self, width: int, height: int) -> list[int]:
        """Return the heights, up to the one given, at which such a row fits a width."""
        rows = ((high, self.least(high)) for high in range(LOWEST, height + 1))
        return [high for high, row in rows if row and sum(choice.width for choice in row) <= width]

    def least(self, height: int) -> list[Tile]:
        """Return the narrowest row of a height, those needed first; an empty one where there is none."""
        kinds: list[tuple[StructureKind, ...]] = [(kind,) for kind in self.needed]
        kinds += [self.allowed] * (self.structures - len(kinds))
        row = [self._narrowest(height, among) for among in kinds]
        return [choice for choice in row if choice] if all(row) else []

    def _narrowest(self, height: int, kinds: Sequence[StructureKind]) -> Tile | None:
        found = (narrowest(height, kind, self.triangles) for kind in kinds)
        return min((choice for choice in found if choice), key=lambda choice: choice.width, default=None)


def least_rows(wish: RowRequest, room: tuple[int, int]) -> Iterator[BlockDesign]:
    """Yield the narrowest row of each height that fits, the lowest first."""
    for high in wish.heights(*room):
        yield reduce(Beside, [choice.part for choice in wish.least(high)])


def drawn_row(chance: Chance, wish: RowRequest, room: tuple[int, int], free: HingeFreedom) -> BlockDesign:
    """Return a row of structures, at most so wide and high; there must be a height at which it fits."""
    width, height = room
    heights = wish.heights(width, height)
    high = max(chance.pick(heights), chance.pick(heights))
    row = _drawn_tiles(chance, wish, (width, high), free)
    spare = min((width - sum(choice.width for choice in row)) // 2, height - high)
    return _joined(chance, [choice.part for choice in row], spare)


def _drawn_tiles(chance: Chance, wish: RowRequest, size: tuple[int, int], free: HingeFreedom) -> list[Tile]:
    """Return the structures of a row from left to right, those needed drawn first.

    Each may take its share of the width that is left, or what the narrowest of its kind needs.
    """
    left, high = size
    least = [choice.width for choice in wish.least(high)]
    drawn: dict[int, Tile] = {}
    for turn, place in enumerate(chance.shuffled(range(wish.structures))):
        kinds = wish.needed[turn : turn + 1] or wish.allowed
        share = max(least[turn], left // (wish.structures - turn))
        room = min(share, left - sum(least[turn + 1 :]))
        ways = _free_ways(place, wish.structures, free.ends)
        choices = fitting(high, room, ways, kinds, wish.triangles)
        drawn[place] = _picked(chance, [c for c in choices if c.is_by_rank or free.is_any])
        left -= drawn[place].width
    return [drawn[place] for place in range(wish.structures)]


def _free_ways(place: int, structures: int, open_ends: Sequence[Direction]) -> set[Direction]:
    ends = {LEFT} if place == 0 else set()
    ends |= {RIGHT} if place == structures - 1 else set()
    return {UP, DOWN} | ends.intersection(open_ends)


def _picked(chance: Chance, choices: Sequence[Tile]) -> Tile:
    """Return one of the structures, each kind equally likely and slanted ones twice as much."""
    kinds = sorted({choice.kind for choice in choices})
    kind = chance.pick([*kinds, "stretch"] if "stretch" in kinds else kinds)
    sizes = sorted({(c.width, c.height) for c in choices if c.kind == kind})
    size = chance.pick(sizes)
    alike = [c for c in choices if c.kind == kind and (c.width, c.height) == size]
    varied = [c for c in alike if c.is_varied]
    if varied and chance.one_in(VARIED_ONE_IN):
        return chance.pick(varied)
    return chance.pick([c for c in alike if not c.is_varied])


def _joined(chance: Chance, parts: Sequence[BlockDesign], spare: int) -> BlockDesign:
    """Return the parts in a row, with a gap somewhere where so many squares are to spare."""
    if len(parts) == 1:
        return parts[0]
    gap = 2 * chance.below(min(spare, 4) // 2 + 1)
    place = 1 + chance.below(len(parts) - 1)
    return Beside(reduce(Beside, parts[:place]), reduce(Beside, parts[place:]), gap)


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
    needed: tuple[StructureKind, ...] = ("stretch",),
    allowed: tuple[StructureKind, ...] = ("stretch", "roof", "diamond"),
    triangles: Triangles = (TRIANGLE_345,),
) -> Sheet:
    """Return a sheet of this size in squares with one to six structures in a row along its longer side.

    Each kind needed occurs, none but those allowed does; slanted stretches are of these triangles. It
    folds flat, layers included. ValueError where so many do not fit, or no such sheet is found.
    """
    _check_kinds(structures, needed, allowed)
    wish = RowRequest(structures, needed, allowed, triangles)
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


def _check_kinds(
    structures: int, needed: tuple[StructureKind, ...], allowed: tuple[StructureKind, ...]
) -> None:
    if not 1 <= structures <= MOST_STRUCTURES or len(needed) > structures:
        raise ValueError(
            f"{structures} structures do not fit: take 1 to {MOST_STRUCTURES}, one at least for each "
            f"of the {len(needed)} needed."
        )
    if not allowed or not set(needed) <= set(allowed):
        raise ValueError(f"Allow the kinds that are needed ({', '.join(needed)}), and one at least.")


def _room(wish: RowRequest, width: int, height: int) -> tuple[int, int]:
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
    chance: Chance, wish: RowRequest, room: tuple[int, int], facings: tuple[int, ...]
) -> Iterator[tuple[BlockDesign, int]]:
    """Yield drawn rows with a facing each, at last the simplest ones.

    The first may have structures that ranks do not label, unless so large that labels take long to find.
    """
    is_small = room[0] * room[1] <= LARGE
    for draw in range(DRAWS):
        yield _drawn(chance, wish, room, is_small and draw == 0), chance.pick(facings)
    for part in least_rows(wish, room):
        yield part, facings[0]


def _drawn(chance: Chance, wish: RowRequest, room: tuple[int, int], is_any: bool) -> BlockDesign:
    """Return a row of structures; or of half as many with its mirror image; or one and its image above."""
    (width, height), ends = room, HingeFreedom((LEFT, RIGHT), is_any)
    half = wish._replace(structures=wish.structures // 2)
    if not wish.structures % 2 and len(wish.needed) <= half.structures and chance.one_in(3):
        if is_any and wish.structures == 2 and half.heights(width, height // 2):
            single = drawn_row(chance, half, (width, height // 2), ends)
            return Turned(Mirrored(Turned(single, _BACK)), _QUARTER)
        if half.heights(width // 2, height):
            return Mirrored(drawn_row(chance, half, (width // 2, height), HingeFreedom((LEFT,), is_any)))
    return drawn_row(chance, wish, room, ends)


def _fitted(chance: Chance, part: BlockDesign, width: int, height: int, facing: int) -> Sheet:
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
