"""Whether a place lies in a slanted stretch."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from drills.exact.plane import Point, cross, move_between, plain
from drills.pattern.crease_pattern import CreasePattern


def lies_within(pattern: CreasePattern, outline: Iterable[int], place: Point) -> bool:
    """Whether a place of the paper lies within an outline, its sides included.

    ``outline`` are the edges that the paper shows of it; as it is convex, its middle lies on the
    inner hand of each, and so does whatever is inside.
    """
    edges = frozenset(outline)
    middle = middle_of(pattern, edges)
    return all(
        cross(way, move_between(start, place)) * cross(way, move_between(start, middle)) >= 0
        for start, way in ((start, move_between(start, end)) for start, end in map(pattern.ends, edges))
    )


def middle_of(pattern: CreasePattern, outline: Iterable[int]) -> Point:
    """Return the mean of the ends of an outline's edges, which lies inside it."""
    ends = [end for edge in outline for end in pattern.ends(edge)]
    x, y = (sum((Fraction(value) for value in values), Fraction()) for values in zip(*ends, strict=True))
    return Point(plain(x / len(ends)), plain(y / len(ends)))
