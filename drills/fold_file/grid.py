"""Finding the square grid of a drawing, so that points rounded in the file become exact again.

A grid is so many squares across the paper, from its lower left corner. It fits if every
coordinate, in squares, is within a tolerance of a fraction with a small denominator. The tolerance
is 1/10,000 of a square, below half the least gap between fractions with denominators up to 60, so
there is never more than one to choose. A coarsely rounded file has a wider tolerance, smaller
denominators, and must have points on a good part of the grid's lines. Broken fractions may not lie
further off than four times what whole ones do, or than the file rounds: else it is no grid but chance.
Where no grid fits as closely as the file rounds, its points may all have been set by hand: then one
more try allows that, if they are all off by about the same.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from fractions import Fraction
from math import gcd, isqrt, lcm
from typing import Final, NamedTuple

from drills.geometry import IntPair

MOST_SQUARES: Final = 256
LARGEST_DENOMINATOR: Final = 60
TOLERANCE: Final = Fraction(1, 10_000)

_COARSEST = Fraction(1, 30)
_COARSEST_BY_HAND = Fraction(1, 64)
_BY_HAND = 6
"""How many times the middle one of all distances the farthest may be, where points were set by hand."""
_FINEST = Fraction(1, 1_000_000)
_SAMPLE = 128
_LEAST_WHOLE, _NEARLY_BEST = 0.5, 0.7


class Grid(NamedTuple):
    """The file's units in a square's side, and the place of (0, 0) in the file."""

    scale: Fraction
    left: Fraction
    bottom: Fraction


class GridFit(NamedTuple):
    """The given points in parts of a square, ``parts`` of them to a side, and how far they had to move.

    ``moved`` counts the points moved by more than a millionth of a square, ``farthest`` is in squares,
    and so is ``off``: how far from where it was meant a point may lie all the same. That is more than
    it was moved where the file's own last decimal makes the grid, and few of its lines are met.
    """

    squares: int
    parts: int
    points: tuple[IntPair, ...]
    moved: int
    farthest: Fraction
    off: Fraction


class _NearestFraction(NamedTuple):
    """The fraction nearest to a coordinate, and how far it is, in squares."""

    value: Fraction
    distance: Fraction


class _Paper(NamedTuple):
    """How wide the paper is and how far apart the file's numbers are at the least, in units."""

    width: int
    rounding: int
    by_hand: bool

    def tolerance(self, squares: int) -> Fraction:
        """Return how far off a fraction may lie: a coordinate is four roundings (of 1/2 each) off at most."""
        if self.by_hand:
            return _COARSEST_BY_HAND
        return min(max(TOLERANCE, self.rounded(squares)), _COARSEST)

    def rounded(self, squares: int) -> Fraction:
        """Return how far off the file's rounding may put a coordinate, in squares."""
        return Fraction(2 * squares * self.rounding, self.width)


def grid_fit(points: Sequence[IntPair], width: int, one: int, rounding: int = 1) -> GridFit | None:
    """Return the points on the smallest grid that fits well, or None.

    Points are from the paper's lower left corner, in units of which the file's numbers are ``rounding``
    apart; the paper is ``width`` of them wide, and the number 1 in the file is ``one`` of them. A file of
    whole numbers is on the widest grid that has all its points on crossings.
    """
    step = gcd(width, *(number for point in points for number in point))
    if rounding == 1 and step % one == 0 and width // step <= MOST_SQUARES:
        return _fit_to(points, _Paper(width, rounding, False), width // step)
    for paper in (_Paper(width, rounding, False), _Paper(width, rounding, True)):
        best = 0.0
        for squares, share in _promising(points, paper):
            if share > best:
                best = share
                found = _fit_to(points, paper, squares)
                if found is not None:
                    return found
    return None


def _promising(points: Sequence[IntPair], paper: _Paper) -> list[tuple[int, float]]:
    """Return the numbers of squares that put most points of a sample on crossings, with their shares."""
    width = paper.width
    places = list(dict.fromkeys(points))
    sample = [(x / width, y / width) for x, y in places[:: len(places) // _SAMPLE + 1]]
    shares = []
    for squares in range(1, MOST_SQUARES + 1):
        tolerance = float(paper.tolerance(squares))
        whole = sum(
            abs(x * squares - round(x * squares)) <= tolerance
            and abs(y * squares - round(y * squares)) <= tolerance
            for x, y in sample
        )
        shares.append((squares, whole / len(sample)))
    enough = max(_LEAST_WHOLE, _NEARLY_BEST * max(share for _, share in shares))
    return [(squares, share) for squares, share in shares if share >= enough]


def _fit_to(points: Sequence[IntPair], paper: _Paper, squares: int) -> GridFit | None:
    width, tolerance = paper.width, paper.tolerance(squares)
    found: dict[int, _NearestFraction] = {}
    for number in {number for point in points for number in point}:
        fraction = _nearest(number * squares, width, tolerance)
        if fraction is None:
            return None
        found[number] = fraction
    if not _is_of_one_precision(found.values(), paper.rounded(squares), paper.by_hand):
        return None
    farthest = max(each.distance for each in found.values())
    is_sparse = 2 * _lines_met(points, found) < squares
    if farthest and tolerance > TOLERANCE and is_sparse:
        return None
    is_rounded = is_sparse and gcd(width, *found) <= paper.rounding
    parts = lcm(*(each.value.denominator for each in found.values()))
    whole = {number: int(each.value * parts) for number, each in found.items()}
    moved = {number for number, each in found.items() if each.distance > _FINEST}
    return GridFit(
        squares,
        parts,
        tuple((whole[x], whole[y]) for x, y in points),
        sum(x in moved or y in moved for x, y in points) if moved else 0,
        farthest,
        max(farthest, paper.rounded(squares) / 4) if is_rounded else farthest,
    )


def _nearest(top: int, bottom: int, tolerance: Fraction) -> _NearestFraction | None:
    """Return the fraction of the smallest denominator within the tolerance of top / bottom, or None.

    Denominators that are too large for a coarse file must be met exactly.
    """
    largest = LARGEST_DENOMINATOR if tolerance == TOLERANCE else isqrt(int(Fraction(3, 25) / tolerance))
    for denominator in range(1, LARGEST_DENOMINATOR + 1):
        nearest = (2 * top * denominator + bottom) // (2 * bottom)
        distance = abs(top * denominator - nearest * bottom)
        is_near = distance * tolerance.denominator <= tolerance.numerator * denominator * bottom
        if distance == 0 or (is_near and denominator <= largest):
            return _NearestFraction(Fraction(nearest, denominator), Fraction(distance, denominator * bottom))
    return None


def _lines_met(points: Sequence[IntPair], found: Mapping[int, _NearestFraction]) -> int:
    """Return on how many lines of the grid there are points."""
    return sum(
        found[number].value.denominator == 1
        for numbers in ({x for x, _ in points}, {y for _, y in points})
        for number in numbers
    )


def _is_of_one_precision(found: Collection[_NearestFraction], rounding: Fraction, by_hand: bool) -> bool:
    """Whether broken fractions are met about as closely as whole numbers are, and by hand all alike."""
    whole, broken = Fraction(0), Fraction(0)
    for each in found:
        if each.value.denominator == 1:
            whole = max(whole, each.distance)
        else:
            broken = max(broken, each.distance)
    distances = sorted(each.distance for each in found)
    if by_hand and distances[-1] > _BY_HAND * distances[len(distances) // 2]:
        return False
    return broken <= max(4 * whole, rounding, _FINEST)
