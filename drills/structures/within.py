"""Whether a place lies in a slanted stretch."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from drills.exact.plane import Point, cross, move_between
from drills.pattern.crease_pattern import CreasePattern


def lies_within(pattern: CreasePattern, outline: Iterable[int], place: Point) -> bool:
    """Whether a place of the paper lies within an outline, its sides included.

    ``outline`` are the edges that the paper shows of it; as it is convex, the mean of their ends
    lies on the inner hand of each, and so does whatever is inside.
    """
    sides = [pattern.ends(edge) for edge in outline]
    ends = [end for side in sides for end in side]
    middle = Point(
        sum((Fraction(end.x) for end in ends), Fraction()) / len(ends),
        sum((Fraction(end.y) for end in ends), Fraction()) / len(ends),
    )
    return all(
        cross(way, move_between(start, place)) * cross(way, move_between(start, middle)) >= 0
        for start, way in ((start, move_between(start, end)) for start, end in sides)
    )
