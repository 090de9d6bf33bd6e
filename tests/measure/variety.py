"""How various two thousand drills are: different sheets, and what of the family is met on them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import islice

from drills.questions import KINDS, Code, Drill, checked, make, newest
from drills.structures import (
    Around,
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
    find_stretches,
)
from tests.drills.sheets import figure

DRILLS = 2000


def main() -> None:
    """Print the counts."""
    counts, sheets, shown = Counter[str](), set[object](), set[object]()
    for drill in islice(drills(), DRILLS):
        sheets.add(figure(drill.truth.unlabelled()))
        shown.add((figure(drill.truth), figure(drill.pattern)))
        counts.update(met_on(drill))
    print(f"{DRILLS} drills on {len(sheets)} different sheets, {len(shown)} with labels true and shown")
    for name, number in sorted(counts.items()):
        print(f"{name:<44}{number:>6}")


def drills() -> Iterator[Drill]:
    """Yield drills of all kinds, forms and levels in turn."""
    places = [
        (kind, form, level) for kind, entry in KINDS.items() for form in entry.forms for level in entry.levels
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
    elif isinstance(sheet, FieldSheet):
        yield "paper's edge cuts in: False"
        yield "look-alike: 45-degree stretch"
    else:
        yield f"no row for {type(sheet).__name__}"


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
    main()
