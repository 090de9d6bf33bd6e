"""Finding the square grid of a drawing, so that points rounded in the file become exact again.

A grid is so many squares across the paper, from its lower left corner. It fits if every
coordinate, in squares, is within a tolerance of a fraction with a small denominator. The tolerance
is 1/10,000 of a square, below half the least gap between fractions with denominators up to 60, so
there is never more than one to choose. A coarsely rounded file has a wider tolerance, smaller
denominators, and must have points on a good part of the grid's lines. Broken fractions may not lie
further off than four times what whole ones do, or than the file rounds: else it is no grid but chance.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from math import atan2, gcd, hypot, isqrt, lcm, pi, tau
from typing import Final, NamedTuple

from drills.fold_file.numbers import Whole
from drills.geometry import Exact

MOST_SQUARES: Final = 256
LARGEST_DENOMINATOR: Final = 60
TOLERANCE: Final = Fraction(1, 10_000)

_COARSEST = Fraction(1, 200)
_FINEST = Fraction(1, 1_000_000)
_SAMPLE = 128
_LEAST_WHOLE, _NEARLY_BEST = 0.5, 0.7


class Grid(NamedTuple):
    """The file's units in a square's side, and the place of (0, 0) in the file."""

    scale: Fraction
    left: Fraction
    bottom: Fraction


class Fitted(NamedTuple):
    """The given points in parts of a square, ``parts`` of them to a side, and how far they had to move.

    ``moved`` counts the points moved by more than a millionth of a square, ``farthest`` is in squares.
    """

    squares: int
    parts: int
    points: tuple[Whole, ...]
    moved: int
    farthest: Fraction


class _Found(NamedTuple):
    """The fraction nearest to a coordinate, and how far it is, in squares."""

    value: Fraction
    off: Fraction


def fitted(points: Sequence[Whole], width: int, one: int) -> Fitted | None:
    """Return the points on the smallest grid that fits well, or None.

    Points are from the paper's lower left corner, in units of the file's last decimal place; the
    paper is ``width`` of them wide, and the number 1 in the file is ``one`` of them. A file of whole
    numbers is on the widest grid that has all its points on crossings.
    """
    step = gcd(width, *(number for point in points for number in point))
    if step % one == 0 and width // step <= MOST_SQUARES:
        return _fitted_to(points, width, width // step)
    best = 0.0
    for squares, share in _promising(points, width):
        if share > best:
            best = share
            found = _fitted_to(points, width, squares)
            if found is not None:
                return found
    return None


def _promising(points: Sequence[Whole], width: int) -> list[tuple[int, float]]:
    """Return the numbers of squares that put most points of a sample on crossings, with their shares."""
    places = list(dict.fromkeys(points))
    sample = [(x / width, y / width) for x, y in places[:: len(places) // _SAMPLE + 1]]
    shares = []
    for squares in range(1, MOST_SQUARES + 1):
        near = float(_tolerance(width, squares))
        whole = sum(
            abs(x * squares - round(x * squares)) <= near and abs(y * squares - round(y * squares)) <= near
            for x, y in sample
        )
        shares.append((squares, whole / len(sample)))
    enough = max(_LEAST_WHOLE, _NEARLY_BEST * max(share for _, share in shares))
    return [(squares, share) for squares, share in shares if share >= enough]


def _tolerance(width: int, squares: int) -> Fraction:
    """Return how far off a fraction may lie: a coordinate is four roundings (of 1/2 each) off at most."""
    return min(max(TOLERANCE, Fraction(2 * squares, width)), _COARSEST)


def _fitted_to(points: Sequence[Whole], width: int, squares: int) -> Fitted | None:
    near = _tolerance(width, squares)
    found: dict[int, _Found] = {}
    for number in {number for point in points for number in point}:
        fraction = _nearest(number * squares, width, near)
        if fraction is None:
            return None
        found[number] = fraction
    if not _is_of_one_precision(found.values(), Fraction(2 * squares, width)):
        return None
    farthest = max(it.off for it in found.values())
    if farthest and near > TOLERANCE and 2 * _lines_met(points, found) < squares:
        return None
    parts = lcm(*(it.value.denominator for it in found.values()))
    whole = {number: int(it.value * parts) for number, it in found.items()}
    moved = {number for number, it in found.items() if it.off > _FINEST}
    return Fitted(
        squares,
        parts,
        tuple((whole[x], whole[y]) for x, y in points),
        sum(x in moved or y in moved for x, y in points) if moved else 0,
        farthest,
    )


def _nearest(top: int, bottom: int, near: Fraction) -> _Found | None:
    """Return the fraction of the smallest denominator within the tolerance of top / bottom, or None.

    Denominators that are too large for a coarse file must be met exactly.
    """
    largest = LARGEST_DENOMINATOR if near == TOLERANCE else isqrt(int(Fraction(3, 25) / near))
    for denominator in range(1, LARGEST_DENOMINATOR + 1):
        nearest = (2 * top * denominator + bottom) // (2 * bottom)
        off = abs(top * denominator - nearest * bottom)
        is_near = off * near.denominator <= near.numerator * denominator * bottom
        if off == 0 or (is_near and denominator <= largest):
            return _Found(Fraction(nearest, denominator), Fraction(off, denominator * bottom))
    return None


def _lines_met(points: Sequence[Whole], found: Mapping[int, _Found]) -> int:
    """Return on how many lines of the grid there are points."""
    return sum(
        found[number].value.denominator == 1
        for numbers in ({x for x, _ in points}, {y for _, y in points})
        for number in numbers
    )


def _is_of_one_precision(found: Iterable[_Found], rounding: Fraction) -> bool:
    """Whether broken fractions are met about as closely as whole numbers are."""
    whole, broken = Fraction(0), Fraction(0)
    for it in found:
        if it.value.denominator == 1:
            whole = max(whole, it.off)
        else:
            broken = max(broken, it.off)
    return broken <= max(4 * whole, rounding, _FINEST)


def is_kinked(points: Sequence[Whole], neighbours: Mapping[int, Sequence[int]], near: Exact) -> bool:
    """Whether some point lies within ``near`` of the line between two neighbours, but not on it.

    ``neighbours`` are per point those that it is joined to.
    """
    return any(_is_kink(points, vertex, others, float(near)) for vertex, others in neighbours.items())


def _is_kink(points: Sequence[Whole], vertex: int, others: Sequence[int], near: float) -> bool:
    x, y = points[vertex]
    moves = [(points[other][0] - x, points[other][1] - y) for other in others]
    ways = sorted((atan2(dy, dx), dx, dy) for dx, dy in moves)
    angles = [way[0] for way in ways]
    for angle, dx, dy in ways:
        behind = angle - pi if angle > 0 else angle + pi
        place = bisect_left(angles, behind)
        opposite = min((ways[place - 1], ways[place % len(ways)]), key=lambda way: _apart(way[0], behind))
        area = dx * opposite[2] - dy * opposite[1]
        if area and dx * opposite[1] + dy * opposite[2] < 0:
            length = hypot(dx - opposite[1], dy - opposite[2])
            if abs(area) <= near * length:
                return True
    return False


def _apart(one: float, two: float) -> float:
    return min((one - two) % tau, (two - one) % tau)
