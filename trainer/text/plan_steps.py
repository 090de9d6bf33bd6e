"""The steps of a sheet's plan in words, from blank paper to the folded sheet, each with what it shows."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import NamedTuple, TypeAlias

from drills.geometry import Point, Step, move_between
from drills.pattern import CreasePattern, Run, number_of, place, place_of, step_with_directions
from drills.plan import Dot, DotKind, Fold, FoldKind, Marks, SheetPlan, StretchPlan
from trainer.text.plan_grid import grid_in_words, left_flat

_FINER = {2: "squares halved", 3: "squares in thirds"}
_GIVEN, _FOUND = "labels of the sheet", "labels found for you; others may fold flat too"
_TITLES: dict[FoldKind, str] = {
    "ridge": "Crease {} at 45 degrees, as mountains",
    "outline": "Crease the outline, all of it as mountains",
    "inside": "Crease {} from point to point, as mountains too",
    "slanted": "Crease {} off the 45 degrees and of no stretch, as mountains",
    "between": "Crease {} between those of the grid, as mountains",
    "grid": "Make {} of the grid sharp, hinges and pleats, as mountains",
}
_LINES: dict[FoldKind, str] = {"ridge": "ridge", "inside": "inside line"}
_HEADINGS: dict[DotKind, str] = {
    "corner": "corners",
    "turning point": "turning points",
    "edge": "at the paper's edge",
    "end": "ends",
}
TURN = "Turn the paper over, printed side up; so it stays to the end. Mountains are folded away from you now."


@dataclass(frozen=True)
class Line:
    """One line of a step: its words, the edges that it creases and the dots that it marks."""

    words: str
    edges: tuple[int, ...] = ()
    dots: tuple[int, ...] = ()


@dataclass(frozen=True)
class PlanStep:
    """A heading with its lines, and the number of the stretch it is of.

    ``is_by_line`` says that each line is an instruction of its own, done one after the other.
    """

    title: str
    lines: tuple[Line, ...]
    stretch: int | None = None
    is_by_line: bool = False


class Instruction(NamedTuple):
    """What a person is told at once: a heading, its words, and what of the board they are of."""

    title: str
    words: tuple[str, ...]
    edges: frozenset[int]
    dots: tuple[int, ...]


def instructions(steps: Iterable[PlanStep]) -> list[Instruction]:
    """Return steps as they are gone through: line by line where each line is a fold of its own."""
    told = []
    for step in steps:
        for lines in ([line] for line in step.lines) if step.is_by_line else [step.lines]:
            edges = frozenset(edge for line in lines for edge in line.edges)
            dots = tuple(dot for line in lines for dot in line.dots)
            told.append(Instruction(step.title, tuple(line.words for line in lines), edges, dots))
    return told


_Same: TypeAlias = list[Marks | Fold]


def steps_of(
    sheet: SheetPlan, pattern: CreasePattern, found: Container[int], size: Fraction | None = None
) -> list[PlanStep]:
    """Return the steps of a plan; ``found`` are edges whose labels were found, ``size`` is in mm."""
    steps = [PlanStep("Fold the grid", _plain(grid_in_words(sheet.grid, size)))]
    if flat := list(left_flat(sheet, pattern)):
        steps.append(PlanStep("Of the grid leave flat", _plain(flat)))
    steps.append(PlanStep("Turn the paper over", (Line(TURN),)))
    for same in _grouped(sheet.moves):
        steps += _creased(same, sheet, pattern)
    steps += _switched(sheet, pattern, found)
    steps.append(PlanStep("Let it collapse", _plain(_collapse(sheet, pattern))))
    return steps


def _plain(lines: Iterable[str]) -> tuple[Line, ...]:
    return tuple(map(Line, lines))


def _grouped(moves: Sequence[Marks | Fold]) -> Iterator[_Same]:
    """Yield the moves in rows with one heading: those of a kind and a stretch, dots by themselves."""
    same: _Same = []
    for move in moves:
        if same and _heading(same[-1]) != _heading(move):
            yield same
            same = []
        same.append(move)
    if same:
        yield same


def _heading(move: Marks | Fold) -> tuple[object, ...]:
    if isinstance(move, Marks) and any(dot.kind != "end" for dot in move.dots):
        return ("marks", move.stretch)
    return (move.of if isinstance(move, Marks) else move.kind, move.stretch)


def _creased(same: _Same, sheet: SheetPlan, pattern: CreasePattern) -> Iterator[PlanStep]:
    first = same[0]
    stretch = None if first.stretch is None else sheet.stretches[first.stretch]
    if _heading(first)[0] == "marks" and isinstance(first, Marks) and stretch:
        yield PlanStep("Mark with a pencil dot", tuple(_marking(first.dots, stretch, pattern)), first.stretch)
        return
    kind = first.of if isinstance(first, Marks) else first.kind
    folds = sum(isinstance(move, Fold) for move in same)
    title = _TITLES[kind].format(number_of(folds, _LINES.get(kind, "line")))
    by_line = kind in ("outline", "inside", "slanted", "between")
    lines = (line for move in same for line in _move(move, stretch, pattern))
    yield PlanStep(title, tuple(lines), first.stretch, by_line)


def _move(move: Marks | Fold, stretch: StretchPlan | None, pattern: CreasePattern) -> Iterator[Line]:
    if isinstance(move, Marks):
        for dot in move.dots:
            finer = _FINER.get(dot.grid, f"squares in {dot.grid} parts")
            yield Line(f"first mark {place_of(pattern, dot.vertex)}, {finer}", (), (dot.vertex,))
        return
    is_middle = bool(stretch and stretch.has_middle and move.edges == stretch.inside[0].edges)
    words = ", then ".join(_piece(piece, pattern, move.kind) for piece in move.pieces)
    yield Line(f"{words}{' (the middle line)' * is_middle}", move.edges)


def _piece(piece: Run, pattern: CreasePattern, kind: FoldKind) -> str:
    start, end = (pattern.vertices[vertex] for vertex in (piece.vertices[0], piece.vertices[-1]))
    words = f"from {_end(start, pattern)} to {_end(end, pattern)}"
    if kind in ("ridge", "grid", "between"):
        return words
    move = move_between(start, end)
    direction = pattern.direction(piece.edges[0], piece.vertices[0])
    counted = all(_is_crossing(point, pattern) for point in (start, end))
    times = gcd(int(move.dx), int(move.dy)) if counted else 1
    step = step_with_directions(Step(direction.dx, -direction.dy, times))
    return f"{words}: {'' if counted else 'along '}{step}"


def _is_crossing(point: Point, pattern: CreasePattern) -> bool:
    left, _, _, top = pattern.box
    return (point.x - left).denominator == 1 == (top - point.y).denominator


def _end(point: Point, pattern: CreasePattern) -> str:
    left, bottom, right, top = pattern.box
    at_edge = point.x in (left, right) or point.y in (bottom, top)
    return f"{'the edge at ' * (at_edge and not _is_crossing(point, pattern))}{place(pattern, point)}"


def _marking(dots: Sequence[Dot], stretch: StretchPlan, pattern: CreasePattern) -> Iterator[Line]:
    for kind, heading in _HEADINGS.items():
        some = [dot for dot in dots if dot.kind == kind]
        if some:
            yield Line(_listed(heading, some, pattern), (), tuple(dot.vertex for dot in some))
    if off := stretch.corners.count(None):
        yield Line(
            f"Beyond the paper's edge, so not to mark: {number_of(off, 'corner')}, "
            "and any turning points there."
        )
    yield from _plain(_between_crossings(dots, stretch, pattern))


def _between_crossings(dots: Sequence[Dot], stretch: StretchPlan, pattern: CreasePattern) -> Iterator[str]:
    """Yield which dots need a finer grid, and how else they are found."""
    between = [dot for dot in dots if dot.grid > 1]
    if not between:
        yield "All of these are crossings of the grid."
        return
    yield "Those between crossings need a finer grid there:"
    for grid in sorted({dot.grid for dot in between}):
        finer = _FINER.get(grid, f"squares in {grid} parts")
        yield _listed(f"{grid} times finer, {finer}", [d for d in between if d.grid == grid], pattern)
    if all(stretch.is_crossed(dot) for dot in between):
        yield "Or dot them after the outline: each is where a side crosses a line of the grid."


def _listed(heading: str, dots: Iterable[Dot], pattern: CreasePattern) -> str:
    return f"{heading}: {', '.join(place_of(pattern, dot.vertex) for dot in dots)}"


def _switched(sheet: SheetPlan, pattern: CreasePattern, found: Container[int]) -> Iterator[PlanStep]:
    """Yield the valleys, line by line, where every crease has a label."""
    folds = sheet.folds
    if not sheet.switches or any(pattern.edges[e].label == "U" for fold in folds for e in fold.edges):
        return
    is_found = any(edge in found for fold in folds for edge in fold.edges)
    lines = []
    for fold in sheet.switches:
        ends = (
            [place_of(pattern, v) for v in (piece.vertices[0], piece.vertices[-1])] for piece in fold.pieces
        )
        words = ", ".join(f"{start} to {end}" for start, end in ends)
        lines.append(Line(f"{_LINE_NAMES[fold.kind]} {words}", fold.edges))
    yield PlanStep(f"Switch to valleys ({_FOUND if is_found else _GIVEN})", tuple(lines))


_LINE_NAMES: dict[FoldKind, str] = {
    "ridge": "ridge",
    "outline": "outline side",
    "inside": "inside line",
    "slanted": "slanted line",
    "between": "line",
    "grid": "line",
}


def _collapse(sheet: SheetPlan, pattern: CreasePattern) -> Iterator[str]:
    """Yield the order in which it goes together; common practice, no source."""
    yield "Pinch the pleats from the paper's edge towards the ridges; do not press them flat yet."
    for number in _from_the_middle(sheet, pattern):
        stretch = sheet.stretches[number]
        name = f"Stretch {number + 1}" if len(sheet.stretches) > 1 else "The stretch"
        yield f"{name}: raise the sides that are mountains, push the inside lines down:"
        yield f"{_going_in(stretch, pattern)}."
    if sheet.stretches:
        yield "Then the ridges and hinges round it, the nearest first."
    yield "Last the pleats out to the paper's edge; press flat."


def _from_the_middle(sheet: SheetPlan, pattern: CreasePattern) -> list[int]:
    """Return the stretches by their distance from the middle of the sheet: the inner ones have least room."""
    left, bottom, right, top = pattern.box
    middle_x, middle_y = Fraction(left + right) / 2, Fraction(bottom + top) / 2

    def distance(number: int) -> Fraction:
        points = [pattern.vertices[dot.vertex] for dot in sheet.stretches[number].dots]
        x = Fraction(sum(point.x for point in points)) / len(points) - middle_x
        y = Fraction(sum(point.y for point in points)) / len(points) - middle_y
        return x * x + y * y

    return sorted(range(len(sheet.stretches)), key=distance)


def _going_in(stretch: StretchPlan, pattern: CreasePattern) -> str:
    if stretch.has_middle:
        places = [None if corner is None else place_of(pattern, corner) for corner in stretch.corners]
        if None in places:
            return "two parts go in, one on each side of the middle line"
        s, a, t, b = places
        return f"two parts go in, one on each side of the middle line, {s} {a} {t} and {s} {b} {t}"
    if stretch.is_equal is False:
        return "two parts go in, one on each side of the strip between"
    return "the inside goes in, as far as it is on the paper"
