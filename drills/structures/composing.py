"""Rows of structures, each in a strip of its own and brought to the row's height by pleats around it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from typing import NamedTuple

from drills.geometry import SYMMETRIES, Chance, Direction
from drills.structures.block import DOWN, LEFT, RIGHT, UP, turned_block
from drills.structures.designs import Beside, BlockDesign, Mirrored, StructureKind, Tile, Turned, block_of
from drills.structures.sheets import Sheet, draw
from drills.structures.tiles import STRUCTURES, Triangles, fitting, narrowest, stands_in_row
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
        return [high for high, row in rows if row and sum(tile.width for tile in row) <= width]

    def least(self, height: int) -> list[Tile]:
        """Return the narrowest row of a height, those needed first; an empty one where there is none."""
        kinds: list[tuple[StructureKind, ...]] = [(kind,) for kind in self.needed]
        kinds += [self.allowed] * (self.structures - len(kinds))
        row = [self._narrowest(height, among) for among in kinds]
        return [tile for tile in row if tile] if all(row) else []

    def _narrowest(self, height: int, kinds: Sequence[StructureKind]) -> Tile | None:
        found = (narrowest(height, kind, self.triangles) for kind in kinds)
        return min((tile for tile in found if tile), key=lambda tile: tile.width, default=None)


def least_rows(request: RowRequest, room: tuple[int, int]) -> Iterator[BlockDesign]:
    """Yield the narrowest row of each height that fits, the lowest first."""
    for high in request.heights(*room):
        yield reduce(Beside, [tile.part for tile in request.least(high)])


def drawn_row(chance: Chance, request: RowRequest, room: tuple[int, int], free: HingeFreedom) -> BlockDesign:
    """Return a row of structures, at most so wide and high; there must be a height at which it fits."""
    width, height = room
    heights = request.heights(width, height)
    high = max(chance.pick(heights), chance.pick(heights))
    row = _drawn_tiles(chance, request, (width, high), free)
    spare = min((width - sum(tile.width for tile in row)) // 2, height - high)
    return _joined(chance, [tile.part for tile in row], spare)


def _drawn_tiles(
    chance: Chance, request: RowRequest, size: tuple[int, int], free: HingeFreedom
) -> list[Tile]:
    """Return the structures of a row from left to right, those needed drawn first.

    Each may take its share of the width that is left, or what the narrowest of its kind needs.
    """
    left, high = size
    least = [tile.width for tile in request.least(high)]
    drawn: dict[int, Tile] = {}
    for turn, place in enumerate(chance.shuffled(range(request.structures))):
        kinds = request.needed[turn : turn + 1] or request.allowed
        share = max(least[turn], left // (request.structures - turn))
        room = min(share, left - sum(least[turn + 1 :]))
        directions = _free_directions(place, request.structures, free.ends)
        tiles = fitting(high, room, directions, kinds, request.triangles)
        drawn[place] = _picked(chance, [tile for tile in tiles if tile.is_by_rank or free.is_any])
        left -= drawn[place].width
    return [drawn[place] for place in range(request.structures)]


def _free_directions(place: int, structures: int, open_ends: Sequence[Direction]) -> set[Direction]:
    ends = {LEFT} if place == 0 else set()
    ends |= {RIGHT} if place == structures - 1 else set()
    return {UP, DOWN} | ends.intersection(open_ends)


def _picked(chance: Chance, tiles: Sequence[Tile]) -> Tile:
    """Return one of the structures, each kind equally likely and slanted ones twice as much."""
    kinds = sorted({tile.kind for tile in tiles})
    kind = chance.pick([*kinds, *(kind for kind in kinds if STRUCTURES[kind].is_slanted)])
    sizes = sorted({(tile.width, tile.height) for tile in tiles if tile.kind == kind})
    size = chance.pick(sizes)
    alike = [tile for tile in tiles if tile.kind == kind and (tile.width, tile.height) == size]
    varied = [tile for tile in alike if tile.is_varied]
    if varied and chance.one_in(VARIED_ONE_IN):
        return chance.pick(varied)
    return chance.pick([tile for tile in alike if not tile.is_varied])


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
    request = RowRequest(structures, needed, allowed, triangles)
    room = _room(request, width, height)
    for part, facing in _parts(chance, request, room, _LYING if width >= height else _UPRIGHT):
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
        draw(sheet)
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
    unknown = sorted({*needed, *allowed} - STRUCTURES.keys())
    if unknown:
        raise ValueError(f"There is no structure named {', '.join(unknown)}; take {', '.join(STRUCTURES)}.")
    if not allowed or not set(needed) <= set(allowed):
        raise ValueError(f"Allow the kinds that are needed ({', '.join(needed)}), and one at least.")


def _room(request: RowRequest, width: int, height: int) -> tuple[int, int]:
    """Return the squares along and across that a row may fill; at its ends pleats stay, at one if need be.

    ValueError where no such row fits.
    """
    along, across = max(width, height), min(width, height)
    for room in ((along - 2, across - 2), (along - 1, across - 2)):
        if request.heights(*room):
            return room
    if unfit := [kind for kind in request.needed if not stands_in_row(kind, request.triangles)]:
        raise ValueError(
            f"No {unfit[0]} can stand in a row: it has no tile with hinges up and down only that labels by "
            "rank fold."
        )
    names = ", ".join(request.needed) or "any"
    raise ValueError(
        f"{request.structures} structures ({names} among them) do not fit {width} by {height} squares: "
        "take a larger sheet or fewer of them."
    )


def _parts(
    chance: Chance, request: RowRequest, room: tuple[int, int], facings: tuple[int, ...]
) -> Iterator[tuple[BlockDesign, int]]:
    """Yield drawn rows with a facing each, at last the simplest ones.

    The first may have structures that ranks do not label, unless so large that labels take long to find.
    """
    is_small = room[0] * room[1] <= LARGE
    for attempt in range(DRAWS):
        yield _drawn(chance, request, room, is_small and attempt == 0), chance.pick(facings)
    for part in least_rows(request, room):
        yield part, facings[0]


def _drawn(chance: Chance, request: RowRequest, room: tuple[int, int], is_any: bool) -> BlockDesign:
    """Return a row of structures; or of half as many with its mirror image; or one and its image above."""
    (width, height), ends = room, HingeFreedom((LEFT, RIGHT), is_any)
    half = request._replace(structures=request.structures // 2)
    if not request.structures % 2 and len(request.needed) <= half.structures and chance.one_in(3):
        if is_any and request.structures == 2 and half.heights(width, height // 2):
            single = drawn_row(chance, half, (width, height // 2), ends)
            return Turned(Mirrored(Turned(single, _BACK)), _QUARTER)
        if half.heights(width // 2, height):
            return Mirrored(drawn_row(chance, half, (width // 2, height), HingeFreedom((LEFT,), is_any)))
    return drawn_row(chance, request, room, ends)


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
