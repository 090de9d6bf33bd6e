"""Laying a drawing on its grid: every point as whole numbers of one small unit."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm
from typing import Final, NamedTuple

from drills.fold_file.border import is_simple, lines_of, neighbours, walk_round
from drills.fold_file.drawing import Drawing
from drills.fold_file.grid import MOST_SQUARES, Fitted, Grid, fitted
from drills.fold_file.numbers import Ends, Whole
from drills.fold_file.refusals import FoldFileError, counted
from drills.geometry import Exact, Point
from drills.pattern import Label

_FINE: Final = 12
_LONGEST_UNIT: Final = 10**80


class Laid(NamedTuple):
    """A drawing's points in units, so many to a square's side.

    Within ``near`` units a point counts as on a line. Where ``exact`` it must then be on it
    exactly; else there is no grid, a square is a unit of the file, and near is good enough.
    """

    points: tuple[Whole, ...]
    units: int
    grid: Grid
    exact: bool
    near: Exact
    notices: tuple[str, ...]


def laid_on_grid(drawing: Drawing) -> Laid | None:
    """Return the points on the grid that is given or found, or None where none fits."""
    if drawing.exact is not None:
        return _as_given(drawing.exact)
    paper = _paper(drawing)
    left, bottom = min(drawing.xs[v] for v in paper), min(drawing.ys[v] for v in paper)
    width = max(drawing.xs[v] for v in paper) - left
    used = sorted({vertex for pair in drawing.ends for vertex in pair})
    one = 10**drawing.places
    fit = (
        fitted([(drawing.xs[v] - left, drawing.ys[v] - bottom) for v in used], width, one) if width else None
    )
    if fit is None:
        return None
    grid = Grid(Fraction(width, fit.squares * one), Fraction(left, one), Fraction(bottom, one))
    points = [(0, 0)] * len(drawing.xs)
    for vertex, point in zip(used, fit.points, strict=True):
        points[vertex] = point
    # three points that were moved, and the line through two of them carries twice as far
    near = 4 * fit.farthest * fit.parts
    return Laid(tuple(points), fit.parts, grid, True, near, _moves(fit, len(used)))


def laid_as_written(drawing: Drawing) -> Laid:
    """Return the points as their decimals say, for angles that are judged in floats."""
    size = max(max(drawing.xs) - min(drawing.xs), max(drawing.ys) - min(drawing.ys), 1)
    finer = 10 ** max(_FINE + 1 - len(str(size)), 0)
    # what two programs make of one point: a few roundings, but no more than can be seen
    near = min(max(size * finer // 10**7, 2 * finer), size * finer // 10**4)
    points = tuple((x * finer, y * finer) for x, y in zip(drawing.xs, drawing.ys, strict=True))
    said = f"No grid of up to {MOST_SQUARES} squares across fits, so points are taken as they are written."
    home = Grid(Fraction(1), Fraction(0), Fraction(0))
    return Laid(points, 10**drawing.places * finer, home, False, near, (said,))


def _as_given(points: Sequence[Point]) -> Laid:
    units = 1
    for denominator in {value.denominator for point in points for value in point}:
        units = lcm(units, denominator)
        if units > _LONGEST_UNIT:
            raise FoldFileError("The exact points have too many different denominators; leave them out.")
    whole = tuple((int(point.x * units), int(point.y * units)) for point in points)
    return Laid(whole, units, Grid(Fraction(1), Fraction(0), Fraction(0)), True, 0, ())


def _paper(drawing: Drawing) -> list[int]:
    """Return the vertices at the paper's edge, or all that are joined where no edge is labelled B."""
    pairs = list(zip(drawing.ends, drawing.labels, strict=True))
    border = {vertex for pair, label in pairs if label == "B" for vertex in pair}
    return sorted(border or {vertex for pair, _ in pairs for vertex in pair})


def _moves(fit: Fitted, points: int) -> tuple[str, ...]:
    if not fit.moved:
        return ()
    farthest = f"{float(fit.farthest):.6f}".rstrip("0")
    return (
        f"Moved onto a grid of {counted(fit.squares, 'square')} across: {fit.moved} of {points} points,"
        f" by at most {farthest} of a square.",
    )


class Lines(NamedTuple):
    """The lines to fold and the paper's edge, by their ends, with labels and numbers in the file."""

    ends: Sequence[Ends]
    labels: Sequence[Label]
    numbers: Sequence[int]
    notices: Sequence[str]


def tidied(drawing: Drawing, laid: Laid) -> Lines:
    """Return the lines without flat ones and those of no length, joined where points are the same.

    Where no line is labelled B, flat ones round the outside are kept: they are the paper's edge.
    """
    first = _first_at_place(laid, {vertex for pair in drawing.ends for vertex in pair})
    lines = [(first[one], first[two]) for one, two in drawing.ends]
    long = {number for number, (one, two) in enumerate(lines) if one != two}
    flat = {number for number in long if drawing.labels[number] == "F"}
    flat -= _flat_outline(drawing, laid, lines, sorted(long))
    kept = sorted(long - flat)
    if not kept:
        raise FoldFileError(
            "The file has no crease and no edge of the paper; save it with its lines labelled."
        )
    doubled = sum(vertex != other for vertex, other in first.items())
    unused = len(drawing.xs) - doubled - len({vertex for number in kept for vertex in lines[number]})
    counts = (
        ("Joined", doubled, "point", "in the place of another"),
        ("Left out", len(lines) - len(long), "line", "of no length"),
        ("Left out", len(flat), "flat line", "(F or J)"),
        ("Left out", unused, "point", "without a crease"),
    )
    said = [f"{did}: {counted(number, thing)} {which}." for did, number, thing, which in counts if number]
    return Lines([lines[it] for it in kept], [_label(drawing, it) for it in kept], kept, said)


def _label(drawing: Drawing, number: int) -> Label:
    label = drawing.labels[number]
    return "U" if label == "F" else label


def _flat_outline(drawing: Drawing, laid: Laid, lines: Sequence[Ends], long: Sequence[int]) -> set[int]:
    if "B" in drawing.labels or "F" not in drawing.labels or not long:
        return set()
    pairs = [lines[number] for number in long]
    ring = walk_round(laid.points, neighbours(pairs))
    return {long[line] for line in lines_of(ring, pairs)} if is_simple(ring) else set()


def _first_at_place(laid: Laid, used: set[int]) -> dict[int, int]:
    """Return per vertex the first one in its place, or within ``near`` of it where points are not exact."""
    reach = 0 if laid.exact else int(laid.near)
    size = 2 * reach + 1
    first: dict[int, int] = {}
    at: dict[Ends, int] = {}
    for vertex in sorted(used):
        x, y = laid.points[vertex]
        keys = [((x + i) // size, (y + j) // size) for i in (-reach, reach) for j in (-reach, reach)]
        first[vertex] = next((at[key] for key in keys if key in at), vertex)
        if first[vertex] == vertex:
            at[x // size, y // size] = vertex
    return first
