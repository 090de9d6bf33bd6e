"""Sheets of all sorts to fold, and the same sheets as the independent solver takes them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import count

from drills.flatfold import LayerSolution, bits, completions, fold
from drills.fold_file import to_fold
from drills.geometry import Chance
from drills.pattern import CreasePattern, Label
from drills.structures import Stretch, draw
from tests.drills.flatfold.test_counting import strip
from tests.drills.sheets import HINGES, map_sheet, miura, square_twist
from tests.independent.layers import does_fold, stacking
from tests.independent.sheet import Sheet, sheet_of

KINDS: tuple[Label, Label] = ("M", "V")


def plain(pattern: CreasePattern) -> Sheet:
    """Return a pattern as plain data."""
    return sheet_of(to_fold(pattern))


@lru_cache(maxsize=4096)
def folds_anew(pattern: CreasePattern) -> bool:
    """Whether the pattern folds flat as the independent solver finds it."""
    return does_fold(plain(pattern))


def faults_of_order(pattern: CreasePattern, found: LayerSolution) -> list[str]:
    """Return what the independent solver finds wrong with an order and its labels."""
    again = stacking(plain(pattern))
    ours = fold(pattern)
    number = again.folded.numbered(ours.faces)
    # the two may have laid the sheet down with different sides up
    is_seen_from_behind = ours.over[0] != again.folded.upside_down[number[0]]
    below = [0] * len(number)
    for face, under in enumerate(found.below):
        for other in bits(under):
            upper, lower = (other, face) if is_seen_from_behind else (face, other)
            below[number[upper]] |= 1 << number[lower]
    return again.broken(below, found.labels)


def assorted(most: int, name: str = "assorted") -> Iterator[CreasePattern]:
    """Yield so many labelled sheets, one sort after the other, some of which fold."""
    for number in range(most):
        sort = SORTS[number % len(SORTS)]
        yield sort(Chance(f"{name} {number}"))


def any_stretch(chance: Chance) -> CreasePattern:
    """Return a stretch as it should be labelled, one in two of them cropped."""
    units, pleats = (1 + chance.below(3), 1 + chance.below(3)), chance.below(4)
    deepest = chance.pick((1, 2 + pleats))
    crop = chance.below(deepest), chance.below(deepest), chance.below(deepest), chance.below(deepest)
    hinges, facing, exchanged = chance.pick(HINGES), chance.below(4), chance.one_in(2)
    return draw(Stretch(units, hinges, pleats, facing, exchanged, crop))


def small_stretch(chance: Chance) -> CreasePattern:
    """Return a small stretch labelled by chance so that each point folds."""
    units, pleats = chance.pick((((1, 1), 0), ((2, 1), 0), ((1, 2), 1), ((2, 2), 0), ((2, 2), 1)))
    return completed(draw(Stretch(units, chance.pick(HINGES), pleats, chance.below(4))), chance)


def smallest_stretch(chance: Chance) -> CreasePattern:
    """Return the stretch of one pleat a side and one around, labelled by chance so that each point folds."""
    return completed(draw(Stretch((1, 1), chance.pick(HINGES), 1, chance.below(4))), chance)


def switched_stretch(chance: Chance) -> CreasePattern:
    """Return a stretch with one to three labels switched."""
    pattern = any_stretch(chance)
    return pattern.switched(chance.shuffled(pattern.creases)[: 1 + chance.below(3)])


def any_map(chance: Chance) -> CreasePattern:
    """Return a map labelled by chance so that each point folds."""
    return completed(map_sheet(*chance.pick(((2, 4), (2, 5), (2, 6), (3, 3), (3, 4), (4, 4)))), chance)


def any_miura(chance: Chance) -> CreasePattern:
    """Return a Miura pattern labelled by chance so that each point folds."""
    return completed(miura(*chance.pick(((2, 4), (3, 3), (3, 4), (4, 4)))), chance)


def any_strip(chance: Chance) -> CreasePattern:
    """Return a strip or a square twist with labels by chance."""
    if chance.one_in(4):
        return completed(square_twist(), chance)
    widths = [1 + chance.below(3) for _ in range(3 + chance.below(5))]
    return strip(*widths, labels="".join(chance.pick("MV") for _ in widths[1:]))


SORTS: tuple[Callable[[Chance], CreasePattern], ...] = (
    any_stretch,
    smallest_stretch,
    switched_stretch,
    any_map,
    small_stretch,
    any_strip,
    smallest_stretch,
    any_miura,
)


def completed(pattern: CreasePattern, chance: Chance) -> CreasePattern:
    """Return the pattern with labels by chance, crease by crease, such that each point folds."""
    known = list(pattern.unlabelled().labels())
    for edge in chance.shuffled(pattern.creases):
        known[edge] = chance.pick(KINDS)
        if next(completions(pattern, known), None) is None:
            known[edge] = "V" if known[edge] == "M" else "M"
    return pattern.with_labels(known)


def without_layers(most: int) -> Iterator[CreasePattern]:
    """Yield so many sheets that fold at each point and have no layers, as the independent solver finds."""
    found = (sort(Chance(f"without layers {n}")) for n in count() for sort in (smallest_stretch, any_map))
    failing = (pattern for pattern in found if not folds_anew(pattern))
    yield from (pattern for pattern, _ in zip(failing, range(most), strict=False))
