"""The precreasing plan in words, in the order of work, with the sheet and its pencil dots drawn."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence

from drills.geometry import Exact, Step
from drills.pattern import CreasePattern, number_of, place_of, step_with_directions
from drills.plan import Crease, Dot, DotKind, RepeatedStep, StretchPlan
from trainer.board import (
    RULER_COLUMNS,
    RULER_ROWS,
    Look,
    TooSmall,
    draw_board,
    points_at,
    scale_for,
    with_rulers,
)
from trainer.given import PatternSource

COLUMNS, ROWS = 78, 44
ROOM = COLUMNS - RULER_COLUMNS, ROWS - RULER_ROWS
NOTHING = "There is no slanted stretch on this sheet, so there is nothing to plan."
CAUTION = (
    "A pencil dot or a blunt scoring tool presses through thin paper: put a mat under it.",
    "Score, or cut, away from the hand that holds the paper.",
)
_FINER = {2: "squares halved", 3: "squares in thirds"}
_GIVEN, _FOUND = "labels of the sheet", "labels found for you; others may fold flat too"


def plan_in_text(plans: Sequence[StretchPlan], source: PatternSource, found: Container[int]) -> Iterator[str]:
    """Yield the lines of a sheet's plan, stretch by stretch; ``found`` are edges whose labels were found."""
    yield from source.notices
    if not plans:
        yield NOTHING
        return
    yield from _drawn(plans, source.pattern)
    yield "Places are counted in squares across and down from the top left corner."
    yield from CAUTION
    for number, planned in enumerate(plans, 1):
        yield ""
        count = f" {number} of {len(plans)}" if len(plans) > 1 else ""
        yield f"Slanted stretch{count}, triangle {planned.triangle.name}"
        yield from _marking(planned, source.pattern)
        yield from _creasing(planned, source.pattern)
        yield from _switching(planned, source.pattern, found)
        yield f"Last, let it collapse: {_collapsing(planned)}."


def _drawn(plans: Iterable[StretchPlan], pattern: CreasePattern) -> Iterator[str]:
    scale = scale_for(pattern, *ROOM)
    if isinstance(scale, TooSmall):
        yield f"The sheet is too large to be drawn in {COLUMNS} columns."
        return
    dots = (dot.vertex for planned in plans for dot in _to_mark(planned))
    for line in with_rulers(draw_board(pattern, Look(points=points_at(pattern, dots)), scale)):
        yield "".join(span.text for span in line).rstrip()


def _to_mark(planned: StretchPlan) -> list[Dot]:
    """Return the dots but for ends at the paper's edge, which are marked only where a crease starts there."""
    starts = {crease.vertices[0] for crease in planned.creases}
    return [dot for dot in planned.dots if dot.kind != "edge" or dot.vertex in starts]


def _marking(planned: StretchPlan, pattern: CreasePattern) -> Iterator[str]:
    yield "1. Mark with a pencil dot:"
    dots = _to_mark(planned)
    headings: dict[DotKind, str] = {
        "corner": "corners",
        "turning point": "turning points",
        "edge": "at the paper's edge",
    }
    for kind, heading in headings.items():
        yield from _listed(heading, [dot for dot in dots if dot.kind == kind], pattern)
    yield from _off_the_paper(planned)
    yield from _between_crossings(planned, dots, pattern)


def _off_the_paper(planned: StretchPlan) -> Iterator[str]:
    off = planned.corners.count(None)
    if off:
        corners = number_of(off, "corner")
        yield f"   Beyond the paper's edge, so not to mark: {corners}, and any turning points there."


def _between_crossings(planned: StretchPlan, dots: Iterable[Dot], pattern: CreasePattern) -> Iterator[str]:
    """Yield which dots need a finer grid, and how else they are found."""
    between = [dot for dot in dots if dot.grid > 1]
    if not between:
        yield "   All of these are crossings of the grid."
        return
    yield "   Those between crossings need a finer grid there:"
    for grid in sorted({dot.grid for dot in between}):
        finer = _FINER.get(grid, f"squares in {grid} parts")
        yield from _listed(
            f"{grid} times finer, {finer}", [dot for dot in between if dot.grid == grid], pattern
        )
    if all(planned.is_crossed(dot) for dot in between):
        yield "   Or dot them after the outline: each is where a side crosses a line of the grid."


def _listed(heading: str, dots: Iterable[Dot], pattern: CreasePattern) -> Iterator[str]:
    """Yield the places of the dots in lines that fit, if there are any."""
    line = f"   {heading}:"
    places = [place_of(pattern, dot.vertex) for dot in dots]
    for left, where in enumerate(places):
        end = "," if left < len(places) - 1 else ""
        if len(f"{line} {where}{end}") > COLUMNS:
            yield line
            line = "     "
        line = f"{line} {where}{end}"
    if places:
        yield line


def _creasing(planned: StretchPlan, pattern: CreasePattern) -> Iterator[str]:
    yield "2. Crease the outline, all of it as mountains:"
    yield from (f"   {_crease(crease, planned, pattern)}" for crease in planned.outline)
    if planned.inside:
        count = number_of(len(planned.inside), "inside line")
        yield f"3. Crease {count} from point to point, as mountains too:"
    else:
        yield "3. No inside line is on the paper."
    for place, crease in enumerate(planned.inside):
        middle = " (the middle line)" if planned.has_middle and not place else ""
        yield f"   {_crease(crease, planned, pattern)}{middle}"


def _crease(crease: Crease, planned: StretchPlan, pattern: CreasePattern) -> str:
    edge = {dot.vertex for dot in planned.dots if dot.kind == "edge"}
    start, end = (
        f"{'the edge at ' * (vertex in edge)}{place_of(pattern, vertex)}"
        for vertex in (crease.vertices[0], crease.vertices[-1])
    )
    across, down, times = crease.step
    step = step_with_directions(Step(across, down, int(times) if crease.is_counted else 1))
    return f"from {start} to {end}: {'' if crease.is_counted else 'along '}{step}"


def _switching(planned: StretchPlan, pattern: CreasePattern, found: Container[int]) -> Iterator[str]:
    """Yield the valleys where the labels are known."""
    if not planned.is_labelled:
        return
    is_found = any(edge in found for crease in planned.creases for edge in crease.edges)
    yield f"4. Switch to valleys ({_FOUND if is_found else _GIVEN}):"
    for row in planned.valleys():
        start, end = (place_of(pattern, vertex) for vertex in (row[0], row[-1]))
        yield f"   from {start} to {end}"


def _collapsing(planned: StretchPlan) -> str:
    if planned.has_middle:
        return "two parts go in, one on each side of the middle line"
    if planned.is_equal is False:
        return "two parts go in, one on each side of the strip between"
    return "the inside goes in, as far as it is on the paper"


def plan_to_json(
    plans: Sequence[StretchPlan], source: PatternSource, found: Container[int]
) -> dict[str, object]:
    """Return a sheet's plan as JSON values; numbers that are not whole are fractions in text.

    ``found`` are the edges whose labels were not given but found.
    """
    planned = {edge for each in plans for crease in each.creases for edge in crease.edges}
    return {
        "stretches": [_stretch(each, source) for each in plans],
        "found": sorted(source.edges[edge] for edge in planned if edge in found),
        "caution": " ".join(CAUTION),
        "pieces": {str(piece): whole for piece, whole in source.pieces.items()},
        "notices": list(source.notices),
    }


def _stretch(planned: StretchPlan, source: PatternSource) -> dict[str, object]:
    corners = planned.corners
    return {
        "triangle": planned.triangle.name,
        "corners": [None if corner is None else source.vertices[corner] for corner in corners],
        "sides": [None if side is None else _way(side) for side in planned.sides],
        "equal": planned.is_equal,
        "dots": [_dot(dot, source) for dot in planned.dots],
        "outline": [_crease_to_json(crease, source) for crease in planned.outline],
        "inside": [_crease_to_json(crease, source) for crease in planned.inside],
        "middle": planned.has_middle,
    }


def _dot(dot: Dot, source: PatternSource) -> dict[str, object]:
    return {
        "vertex": source.vertices[dot.vertex],
        "kind": dot.kind,
        "at": [_number(dot.across), _number(dot.down)],
        "grid": dot.grid,
    }


def _crease_to_json(crease: Crease, source: PatternSource) -> dict[str, object]:
    return {
        "from": source.vertices[crease.vertices[0]],
        "to": source.vertices[crease.vertices[-1]],
        **_way(crease.step),
        "edges": [source.edges[edge] for edge in crease.edges],
        "labels": list(crease.labels),
    }


def _way(way: RepeatedStep) -> dict[str, object]:
    return {"across": way.across, "down": way.down, "times": _number(way.times)}


def _number(number: Exact) -> int | str:
    return int(number) if number.denominator == 1 else str(number)
