"""Snapping a drawing to its grid: every point as whole numbers of one small unit."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import atan2, hypot, pi, tau
from typing import Final, NamedTuple

from drills.fold_file.border import is_simple, lines_of, neighbours, walk_round
from drills.fold_file.drawing import Drawing
from drills.fold_file.grid import MOST_SQUARES, Grid, GridFit, grid_fit
from drills.fold_file.read import Ends, FoldFileError, counted
from drills.geometry import Exact, IntPair, Point, scaled_to_integers
from drills.pattern import Label

_FINE: Final = 12
_BY_HAND: Final = 2_500
"""One part in so many of the sheet is how far apart points set by hand, meant to be one, may lie."""
_LONGEST_UNIT: Final = 10**80
_OWN_GRID: Final = Grid(Fraction(1), Fraction(0), Fraction(0))
"""The file's own coordinates, where points are taken as they are given."""


class Snapped(NamedTuple):
    """A drawing's points in units, so many to a square's side.

    Within ``tolerance`` units a point counts as on a line. Where ``exact`` it must then be on it
    exactly; else there is no grid, a square is a unit of the file, and near is good enough. ``off`` is
    how far from where it was meant a point may lie, in squares.
    """

    points: tuple[IntPair, ...]
    units: int
    grid: Grid
    exact: bool
    tolerance: Exact
    off: Fraction
    notices: tuple[str, ...]


def snapped_to_grid(drawing: Drawing) -> Snapped | None:
    """Return the points on the grid that is given or found, or None where none fits."""
    if drawing.exact is not None:
        return _from_exact_points(drawing.exact)
    paper = _paper(drawing)
    left, bottom = min(drawing.xs[v] for v in paper), min(drawing.ys[v] for v in paper)
    width = max(drawing.xs[v] for v in paper) - left
    used = sorted({vertex for pair in drawing.ends for vertex in pair})
    one = 10**drawing.places
    fit = (
        grid_fit([(drawing.xs[v] - left, drawing.ys[v] - bottom) for v in used], width, one, drawing.rounding)
        if width
        else None
    )
    if fit is None:
        return None
    grid = Grid(Fraction(width, fit.squares * one), Fraction(left, one), Fraction(bottom, one))
    points = [(0, 0)] * len(drawing.xs)
    for vertex, point in zip(used, fit.points, strict=True):
        points[vertex] = point
    # three points that were moved, and the line through two of them carries twice as far
    tolerance = 4 * fit.farthest * fit.parts
    return Snapped(tuple(points), fit.parts, grid, True, tolerance, fit.off, _moves(fit, len(used)))


def taken_as_written(drawing: Drawing, by_hand: bool = False) -> Snapped:
    """Return the points as their decimals say, for angles that are judged in floats.

    Points set by hand, each a little off, are joined from further away.
    """
    size = max(max(drawing.xs) - min(drawing.xs), max(drawing.ys) - min(drawing.ys), 1)
    finer = 10 ** max(_FINE + 1 - len(str(size)), 0)
    rounding = drawing.rounding * finer
    # what two programs make of one point: a few roundings, but no more than can be seen
    seen = size * finer // (_BY_HAND if by_hand else 10**4)
    tolerance = seen if by_hand else min(max(size * finer // 10**7, 2 * rounding), seen)
    points = tuple((x * finer, y * finer) for x, y in zip(drawing.xs, drawing.ys, strict=True))
    units = 10**drawing.places * finer
    said = f"No grid of up to {MOST_SQUARES} squares across fits, so points are taken as they are written."
    return Snapped(points, units, _OWN_GRID, False, tolerance, Fraction(rounding, units), (said,))


def _from_exact_points(points: Sequence[Point]) -> Snapped:
    try:
        units, whole = scaled_to_integers(points, _LONGEST_UNIT)
    except OverflowError:
        raise FoldFileError(
            "The exact points have too many different denominators; leave them out."
        ) from None
    return Snapped(whole, units, _OWN_GRID, True, 0, Fraction(0), ())


def _paper(drawing: Drawing) -> list[int]:
    """Return the vertices at the paper's edge, or all that are joined where no edge is labelled B."""
    pairs = list(zip(drawing.ends, drawing.labels, strict=True))
    border = {vertex for pair, label in pairs if label == "B" for vertex in pair}
    return sorted(border or {vertex for pair, _ in pairs for vertex in pair})


def _moves(fit: GridFit, points: int) -> tuple[str, ...]:
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


def tidied(drawing: Drawing, snapped: Snapped) -> Lines:
    """Return the lines without flat ones and those of no length, joined where points are the same.

    Where no line is labelled B, flat ones round the outside are kept: they are the paper's edge.
    """
    first = _first_at_place(snapped, {vertex for pair in drawing.ends for vertex in pair})
    lines = [(first[one], first[two]) for one, two in drawing.ends]
    long = {number for number, (one, two) in enumerate(lines) if one != two}
    flat = {number for number in long if drawing.labels[number] == "F"}
    flat -= _flat_outline(drawing, snapped, lines, sorted(long))
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
    return Lines([lines[number] for number in kept], [_label(drawing, number) for number in kept], kept, said)


def _label(drawing: Drawing, number: int) -> Label:
    label = drawing.labels[number]
    return "U" if label == "F" else label


def _flat_outline(drawing: Drawing, snapped: Snapped, lines: Sequence[Ends], long: Sequence[int]) -> set[int]:
    if "B" in drawing.labels or "F" not in drawing.labels or not long:
        return set()
    pairs = [lines[number] for number in long]
    ring = walk_round(snapped.points, neighbours(pairs))
    return {long[line] for line in lines_of(ring, pairs)} if is_simple(ring) else set()


def _first_at_place(snapped: Snapped, used: set[int]) -> dict[int, int]:
    """Return per vertex the first one in its place, within the tolerance where points are not exact."""
    # places are told apart by square boxes of side 2 * reach + 1: whatever lies within reach of a point
    # is in the box of one of the four corners of its own reach
    reach = 0 if snapped.exact else int(snapped.tolerance)
    size = 2 * reach + 1
    first: dict[int, int] = {}
    at: dict[Ends, int] = {}
    for vertex in sorted(used):
        x, y = snapped.points[vertex]
        keys = [((x + i) // size, (y + j) // size) for i in (-reach, reach) for j in (-reach, reach)]
        first[vertex] = next((at[key] for key in keys if key in at), vertex)
        if first[vertex] == vertex:
            at[x // size, y // size] = vertex
    return first


def has_near_miss(
    points: Sequence[IntPair], neighbours: Mapping[int, Sequence[int]], tolerance: Exact
) -> bool:
    """Whether some point lies within ``tolerance`` of the line between two neighbours, but not on it.

    ``neighbours`` are per point those that it is joined to.
    """
    return any(
        _is_near_miss(points, vertex, others, float(tolerance)) for vertex, others in neighbours.items()
    )


def _is_near_miss(points: Sequence[IntPair], vertex: int, others: Sequence[int], tolerance: float) -> bool:
    x, y = points[vertex]
    moves = [(points[other][0] - x, points[other][1] - y) for other in others]
    # only the most nearly opposite of the others can miss by so little: sorted by angle, it is found at once
    by_angle = sorted((atan2(dy, dx), dx, dy) for dx, dy in moves)
    angles = [angle for angle, _, _ in by_angle]
    for angle, dx, dy in by_angle:
        behind = angle - pi if angle > 0 else angle + pi
        place = bisect_left(angles, behind)
        beside = by_angle[place - 1], by_angle[place % len(by_angle)]
        opposite = min(beside, key=lambda move: _apart(move[0], behind))
        area = dx * opposite[2] - dy * opposite[1]
        if area and dx * opposite[1] + dy * opposite[2] < 0:
            length = hypot(dx - opposite[1], dy - opposite[2])
            if abs(area) <= tolerance * length:
                return True
    return False


def _apart(one: float, two: float) -> float:
    return min((one - two) % tau, (two - one) % tau)
