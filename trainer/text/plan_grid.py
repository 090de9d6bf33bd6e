"""The grid of a plan in words: how a square is divided, how wide its squares are, what of it stays flat."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from drills.pattern import CreasePattern, across_down, mixed, number_of, place_of, times
from drills.plan import GridPlan, Reference, SheetPlan, halvings

_OFF = Fraction(1, 2)
"""How far a corner may be put off by hand, in millimetres; common practice, no source."""
_MOST_FOLDS_TOLD = 12


def grid_in_words(grid: GridPlan, size: Fraction | None) -> Iterator[str]:
    """Yield how the grid is folded; ``size`` is the longer side of the sheet in millimetres."""
    width = size / Fraction(max(grid.across, grid.down)) if size else None
    yield "Printed side down, each fold towards you: from the printed side all of it is mountains."
    if grid.is_cut:
        yield f"Begin with a square of {grid.squares} by {grid.squares} squares. {_cut(grid)}"
    if width:
        begin = decimal(width * grid.squares)
        yield f"A square is {decimal(width)} mm wide; the paper to begin with is {begin} mm a side."
    if grid.reference:
        yield from _by_reference(grid.reference, width and width * grid.squares)
    if grid.halved:
        what = "each part" if grid.reference else "the square"
        squares = number_of(grid.squares, "square")
        yield f"Halve {what} {times(grid.halved)} in both directions: {squares} a side."
    if grid.reference:
        spare = grid.next_power - grid.squares
        yield f"Or fold {grid.next_power} squares a side by halving alone, and cut off {spare} at two sides."


def _cut(grid: GridPlan) -> str:
    sheet = f"{mixed(grid.across)} across and {mixed(grid.down)} down"
    return (
        f"The sheet is {sheet}; cut off the rest after the grid, seen from the printed side right and below."
    )


def _by_reference(reference: Reference, side: Fraction | None) -> Iterator[str]:
    parts, mark = reference.parts, int(reference.mark * reference.parts)
    off = (
        f"; {decimal(_OFF)} mm off there is {decimal(_OFF * reference.gain)} mm off at the mark"
        if side
        else ""
    )
    corner = f" ({decimal(reference.corner * side)} mm)" if side else ""
    yield (
        f"{parts} parts by Haga's theorem, exact but for the hand: lay the lower right corner on the upper "
        f"edge, {reference.corner} of it{corner} from the right end{off}."
    )
    yield (
        f"The lower edge now crosses the left edge {reference.mark} from the top: "
        f"pinch there, it is line {mark} of {parts}."
    )
    folds = [f"{one} on {other} gives {new}" for one, other, new in halvings(reference)]
    if folds and len(folds) <= _MOST_FOLDS_TOLD:
        yield f"Lay line on line, counted from the top, edges included: {'; '.join(folds)}."
    elif folds:
        yield "Lay line on line, two with an even number of parts between, until every part has its line."
    yield "Then divide the other direction in the same way."


def left_flat(sheet: SheetPlan, pattern: CreasePattern) -> Iterator[str]:
    """Yield for each stretch which lines of the grid are no creases inside its outline."""
    if sheet.stretches:
        yield "No crease runs along the grid inside an outline; there fold its lines lightly, or not at all:"
    for number, stretch in enumerate(sheet.stretches, 1):
        dots = [dot.vertex for dot in stretch.dots]
        places = [across_down(pattern, pattern.vertices[vertex]) for vertex in dots]
        upright, level = (_lines(values) for values in zip(*places, strict=True))
        name = f"stretch {number}" if len(sheet.stretches) > 1 else "the stretch"
        corners = ", ".join(place_of(pattern, c) for c in stretch.corners if c is not None)
        of = f"within {corners}" if corners else "within its outline"
        yield f"{name}: upright lines {upright}, level lines {level}, {of}"


def _lines(values: tuple[Fraction, ...]) -> str:
    """Return the lines of the grid strictly between the least and the greatest value."""
    first, last = floor(min(values)) + 1, ceil(max(values)) - 1
    if first > last:
        return "none"
    return str(first) if first == last else f"{first} to {last}"


def decimal(length: Fraction) -> str:
    """Return a length to a tenth of a millimetre, without a needless end."""
    return f"{float(length):.1f}".removesuffix(".0")
