"""How various two thousand drills are: different sheets, and what of the family is met on them.

python -m tests.measure.variety [LOWEST]: those of all levels, or from a level on.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator
from itertools import islice

from drills.pattern import CreasePattern
from drills.questions import KINDS, SEVERAL, Code, Drill, checked, make, newest
from drills.structures import (
    Around,
    Band,
    Base,
    Beside,
    BlockDesign,
    FieldSheet,
    Framed,
    Mirrored,
    Roof,
    Sheet,
    SheetDesign,
    Stretch,
    Turned,
    Twist,
    draw,
    find_stretches,
)
from tests.drills.sheets import figure

DRILLS = 2000


def main(lowest: int) -> None:
    """Print the counts of drills from a level on."""
    counts, sheets, shown = Counter[str](), set[object](), set[object]()
    for drill in islice(drills(lowest), DRILLS):
        sheets.add(figure(drill.truth.unlabelled()))
        shown.add((figure(drill.truth), figure(drill.pattern)))
        counts.update(met_on(drill))
    print(f"{DRILLS} drills from level {lowest} on: {len(sheets)} sheets, {len(shown)} as labelled and shown")
    for name, number in sorted(counts.items()):
        print(f"{name:<44}{number:>6}")


def drills(lowest: int) -> Iterator[Drill]:
    """Yield drills of all kinds and forms, and of the levels from one on, in turn."""
    places = [
        (kind, form, level)
        for kind, entry in KINDS.items()
        for form in entry.forms
        for level in entry.levels
        if level >= lowest
    ]
    for number in range(DRILLS):
        kind, form, level = places[number % len(places)]
        yield make(newest(checked(Code(kind, level, 1 + number // len(places), form=form))))


def met_on(drill: Drill) -> Iterator[str]:
    """Yield what is met on a drill's sheet: as the finder sees it, and as it was put together."""
    found = find_stretches(drill.truth)
    yield f"stretches on the sheet: {len(found)}"
    for each in found:
        yield f"triangle {each.triangle.name}"
        yield f"facing {each.facing}"
    yield f"labels exchanged: {drill.design.exchanged}"
    if drill.level >= SEVERAL:
        yield f"from level {SEVERAL} on, square: {len(set(drill.design.size)) == 1}"
    yield from _made_of(drill.design)


def _made_of(sheet: SheetDesign) -> Iterator[str]:
    if isinstance(sheet, Stretch):
        yield f"paper's edge cuts in: {any(sheet.crop)}"
        yield f"lone, sides {'equal' if sheet.is_equal else 'unequal'}"
        yield f"hinges {' and '.join(sheet.hinges)}"
        yield f"pleat widths alike: {len(set(sheet.pleat_widths)) == 1}"
    elif isinstance(sheet, Sheet):
        yield f"paper's edge cuts in: {_is_cut(sheet)}"
        yield from _parts(sheet.part)
    elif isinstance(sheet, Base):
        yield f"paper's edge crops a base: {any(sheet.crop)}"
        yield from _on_base(sheet)
    elif isinstance(sheet, Band | Twist):
        yield f"look-alike: {type(sheet).__name__.lower()}{' below a stretch' * bool(sheet.outlines())}"
    elif isinstance(sheet, FieldSheet):
        yield "paper's edge cuts in: False"
        yield "look-alike: 45-degree stretch"
    else:
        yield f"no row for {type(sheet).__name__}"


def _on_base(base: Base) -> Iterator[str]:
    """Yield what a base is of: its size and axis, where its flap tips lie, how its hinges run."""
    layout = base.plan.layout()
    assert layout
    yield f"base of {base.plan.width:2} by {base.plan.height} squares"
    yield f"base with a mirror axis: {base.plan.has_axis}"
    whole = layout.with_image()
    inner = {(x, y) for x, y in whole.tips if 0 < x < whole.width and 0 < y < whole.height}
    yield from ["flap tip inside"] * len(inner)
    yield from ["flap tip on the paper's edge"] * len(whole.tips - inner)
    for kind in sorted({kind for kind, _ in base.look_alikes()}):
        yield f"look-alike on a base: {kind}"
    yield from (f"hinge of a base ends {where}" for where in _hinges(draw(base)))


def _hinges(pattern: CreasePattern) -> Iterator[str]:
    """Yield of each end of a hinge whether it lies inside or at the paper's edge; loops have none."""
    number = Counter(end for edge in pattern.edges if edge.role == "hinge" for end in edge[:2])
    inner = frozenset(pattern.interior)
    for vertex, meeting in number.items():
        if meeting % 2:
            yield "inside" if vertex in inner else "at the paper's edge"


def _is_cut(sheet: Sheet) -> bool:
    """Whether the paper's edge cuts into the part that the pleats lie around."""
    return any(cut > sheet.pleats for cut in sheet.crop)


def _parts(part: BlockDesign) -> Iterator[str]:
    match part:
        case Stretch():
            yield f"hinges {' and '.join(part.hinges)}"
        case Roof():
            yield "look-alike: 45-degree roof"
        case Framed():
            yield "look-alike: 45-degree stretch"
        case Around(inner, _) | Turned(inner, _):
            yield from _parts(inner)
        case Mirrored(inner, _):
            yield "mirror image across a shared edge"
            yield from (*_parts(inner), *_parts(inner))
        case Beside(first, second, _):
            yield from (*_parts(first), *_parts(second))
        case _:
            yield f"no row for {type(part).__name__}"


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else 1)
