"""The full test of one point by crimping, and the number of labellings by the same reduction.

A run of equal angles with larger ones on both sides folds into a stack of its own: its creases must
be as many mountains as valleys (one more of one kind if their number is odd), and then the run can
be folded away. What is left when all angles are equal needs two more of one kind than of the other.
Crimping: M. Bern, B. Hayes, SODA 1996 (from memory); the recursion for the number of labellings:
T. C. Hull, Ars Combinatoria 67 (2003) 175-188, arXiv:1410.5022.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import comb
from typing import NamedTuple, Protocol, Self, TypeVar


class Angle(Protocol):
    """What an angle must offer to be crimped."""

    def is_below(self, other: Self, /) -> bool:
        """Whether this angle is the smaller one."""

    def plus_minus(self, more: Self, less: Self, /) -> Self:
        """Return self + more - less."""


AnyAngle = TypeVar("AnyAngle", bound=Angle)
Item = TypeVar("Item")


class Degrees(NamedTuple):
    """An angle as an exact number of degrees, or of any other unit."""

    size: Fraction

    def is_below(self, other: Degrees) -> bool:
        """Whether this angle is the smaller one."""
        return self.size < other.size

    def plus_minus(self, more: Degrees, less: Degrees) -> Degrees:
        """Return self + more - less."""
        return Degrees(self.size + more.size - less.size)


class Run(NamedTuple):
    """A run of equal angles, both neighbours larger: where it begins and how many angles it has."""

    start: int
    length: int


def smallest_run(angles: Sequence[AnyAngle]) -> Run | None:
    """Return a run of the smallest angles, from its first to its last; None where all are equal."""
    count = len(angles)
    lowest = angles[0]
    for angle in angles:
        lowest = angle if angle.is_below(lowest) else lowest
    starts = [i for i in range(count) if angles[i] == lowest and angles[i - 1] != lowest]
    if not starts:
        return None
    length = 1
    while angles[(starts[0] + length) % count] == lowest:
        length += 1
    return Run(starts[0], length)


def folds_flat(angles: Sequence[AnyAngle], mountains: Sequence[bool]) -> bool:
    """Whether a point that meets the angle condition folds flat with these labels.

    ``mountains[i]`` is the crease before ``angles[i]``, counterclockwise.
    """
    while (run := smallest_run(angles)) is not None:
        angles, mountains = _turned(angles, run.start), _turned(mountains, run.start)
        folded = mountains[: run.length + 1]
        surplus = 2 * sum(folded) - len(folded)
        if abs(surplus) > 1:
            return False
        angles = without_run(angles, run.length)
        mountains = ([surplus > 0] if len(folded) % 2 else []) + list(mountains[run.length + 1 :])
    return abs(2 * sum(mountains) - len(mountains)) == 2


def count_labellings(angles: Sequence[AnyAngle]) -> int:
    """Return the number of labellings with which a point that meets the angle condition folds flat."""
    count = 1
    while (run := smallest_run(angles)) is not None:
        count *= comb(run.length + 1, (run.length + 1) // 2)
        angles = without_run(_turned(angles, run.start), run.length)
    half = len(angles) // 2
    return count * 2 * comb(2 * half, half - 1)


def count_of_degrees(angles: Sequence[int | Fraction]) -> int:
    """Return the number of labellings of a point given by its angles; 0 where it cannot fold flat."""
    if len(angles) % 2 or sum(angles[::2]) != sum(angles[1::2]):
        return 0
    return count_labellings([Degrees(Fraction(angle)) for angle in angles])


def without_run(angles: Sequence[AnyAngle], length: int) -> list[AnyAngle]:
    """Return the angles left when the run of equal angles at the front is folded away."""
    if length % 2 == 0:
        return list(angles[length:])
    joined = angles[-1].plus_minus(angles[length], angles[0])
    return [*angles[length + 1 : -1], joined]


def _turned(items: Sequence[Item], start: int) -> list[Item]:
    return [*items[start:], *items[:start]]
