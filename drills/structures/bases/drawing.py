"""Drawing a base by chance, of those that are known to fold."""

from __future__ import annotations

from collections.abc import Sequence

from drills.geometry import SYMMETRIES, Chance
from drills.structures.bases.base import Base, Plan
from drills.structures.bases.layout import Wanted
from drills.structures.bases.prepared import PREPARED, Style

CROPPED_ONE_IN = 6
LARGEST_CROP = 4
"""What is cropped of a side is less than one part in so many of the base."""


def plans_of(style: Style) -> list[Plan]:
    """Return the plans of a style that fold, in their order."""
    return [Plan(*style, seed, hinges) for seed, hinges in _numbers(PREPARED.get(style, ""))]


def _numbers(text: str) -> list[tuple[int, int]]:
    """Return the seeds and numbers of hinges written as in "3 5/2"; no number is 0."""
    pairs = (entry.partition("/") for entry in text.split())
    return [(int(seed), int(hinges or 0)) for seed, _, hinges in pairs]


def draw_base(chance: Chance, sizes: Sequence[tuple[int, int]], wanted: Wanted) -> Base:
    """Return a base of one of these sizes, with the blocks wanted, one in two with an axis.

    One in six is cropped, as a printed part would be. ValueError where none is prepared.
    """
    has_axis = chance.one_in(2)
    styles = [style for style in PREPARED if style[:2] in sizes and style.wanted == wanted]
    alike = [style for style in styles if style.has_axis == has_axis] or styles
    plan = chance.pick(plans_of(chance.pick(alike)))
    base = Base(plan, chance.below(len(SYMMETRIES)), chance.one_in(2))
    return cropped(chance, base) if chance.one_in(CROPPED_ONE_IN) else base


def cropped(chance: Chance, base: Base) -> Base:
    """Return the base without some squares at one side or two, everything slanted still on the paper.

    The paper's edge stays a square or more away from it where it is cut.
    """
    slanted = base.slanted_corners()
    room = (
        min((int(x) for x, _ in slanted), default=base.plan.width),
        min((int(y) for _, y in slanted), default=base.plan.height),
        min((base.plan.width - int(x) for x, _ in slanted), default=base.plan.width),
        min((base.plan.height - int(y) for _, y in slanted), default=base.plan.height),
    )
    most = [min(space - 1, base.plan.width // LARGEST_CROP - 1) for space in room]
    crop = [0, 0, 0, 0]
    for side in chance.shuffled([side for side in range(4) if most[side] > 0])[: 1 + chance.below(2)]:
        crop[side] = 1 + chance.below(most[side])
    left, bottom, right, top = crop
    return Base(base.plan, base.facing, base.exchanged, (left, bottom, right, top))
