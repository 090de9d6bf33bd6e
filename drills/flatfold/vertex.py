"""One vertex: the angle condition, the full test of its labels by crimping, counting M against V.

A run of equal angles with larger ones on both sides folds into a stack of its own: its creases must
be as many mountains as valleys (one more of one kind if their number is odd), and then the run can
be folded away. What is left when all angles are equal needs two more of one kind than of the other.
Crimping: M. Bern, B. Hayes, The complexity of flat origami, SODA 1996, 175-183 (from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import product
from typing import NamedTuple, Protocol, Self, TypeAlias, TypeVar

from drills.geometry import Direction, Turn, is_half_turn, turn_between
from drills.pattern import CreasePattern, Label


class Angle(Protocol):
    """What an angle must offer to be crimped."""

    def is_below(self, other: Self, /) -> bool:
        """Whether this angle is the smaller one."""

    def plus_minus(self, more: Self, less: Self, /) -> Self:
        """Return self + more - less."""


AnyAngle = TypeVar("AnyAngle", bound=Angle)
Item = TypeVar("Item")


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


def folds_flat(angles: Sequence[AnyAngle], labels: Sequence[Label]) -> bool:
    """Whether a point that meets the angle condition folds flat for some choice of the labels U.

    ``labels[i]`` is that of the crease before ``angles[i]``, counterclockwise. Runs are folded away one
    by one; as they share no crease, what one leaves open is open whatever the others choose.
    """
    while (run := smallest_run(angles)) is not None:
        angles, labels = _turned(angles, run.start), _turned(labels, run.start)
        surplus = _surplus(labels[: run.length + 1])
        left: list[Label] = []
        if run.length % 2 == 0:
            if 1 not in surplus and -1 not in surplus:
                return False
            left = ["V" if 1 not in surplus else "M" if -1 not in surplus else "U"]
        elif 0 not in surplus:
            return False
        angles = without_run(angles, run.length)
        labels = left + list(labels[run.length + 1 :])
    surplus = _surplus(labels)
    return 2 in surplus or -2 in surplus


def _surplus(labels: Sequence[Label]) -> range:
    """Return by how many the mountains may outnumber the valleys."""
    mountains, free = labels.count("M"), labels.count("U")
    sure = 2 * mountains + free - len(labels)
    return range(sure - free, sure + free + 1, 2)


def without_run(angles: Sequence[AnyAngle], length: int) -> list[AnyAngle]:
    """Return the angles left when the run of equal angles at the front is folded away."""
    if length % 2 == 0:
        return list(angles[length:])
    joined = angles[-1].plus_minus(angles[length], angles[0])
    return [*angles[length + 1 : -1], joined]


def _turned(items: Sequence[Item], start: int) -> list[Item]:
    return [*items[start:], *items[:start]]


def turns_around(directions: Sequence[Direction]) -> tuple[Turn, ...]:
    """Return the angles between neighbouring directions, which are given counterclockwise."""
    following = [*directions[1:], *directions[:1]]
    return tuple(turn_between(first, second) for first, second in zip(directions, following, strict=True))


def is_kawasaki(directions: Sequence[Direction]) -> bool:
    """Whether creases in these counterclockwise directions can fold flat under some labels."""
    if len(directions) % 2 or not directions:
        return False
    following = zip(directions[::2], directions[1::2], strict=True)
    return is_half_turn([turn_between(first, second) for first, second in following])


def check_angles(pattern: CreasePattern) -> tuple[int, ...]:
    """Return the interior vertices where the angle condition fails."""
    return tuple(vertex for vertex in pattern.interior if not is_kawasaki(pattern.directions[vertex]))


Rule: TypeAlias = Callable[[CreasePattern, Sequence[Label], int], bool]
"""A condition on a pattern's labels at one interior vertex, where the angle condition holds."""


def counts_at(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> tuple[int, int]:
    """Return the number of mountains and of valleys at a vertex."""
    meeting = [labels[edge] for edge in pattern.around[vertex]]
    return meeting.count("M"), meeting.count("V")


def balances(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
    """Whether mountains and valleys differ by 2 at the vertex, which is what a person counts."""
    mountains, valleys = counts_at(pattern, labels, vertex)
    return abs(mountains - valleys) == 2


def folds(pattern: CreasePattern, labels: Sequence[Label], vertex: int) -> bool:
    """Whether the vertex folds flat with these labels, by the full test; U may be either."""
    return _folds(pattern.directions[vertex], tuple(labels[edge] for edge in pattern.around[vertex]))


def failing(pattern: CreasePattern, labels: Sequence[Label], rule: Rule) -> tuple[int, ...]:
    """Return the interior vertices at which the labels break the rule."""
    return tuple(vertex for vertex in pattern.interior if not rule(pattern, labels, vertex))


_MV: tuple[Label, Label] = ("M", "V")


@lru_cache(maxsize=4096)
def valid_at(directions: tuple[Direction, ...]) -> tuple[tuple[bool, ...], ...]:
    """Return every valid set of labels of a vertex, True for a mountain, in the order of the directions."""
    return tuple(
        tuple(label == "M" for label in labels)
        for labels in product(_MV, repeat=len(directions))
        if _folds(directions, labels)
    )


@lru_cache(maxsize=65536)
def _folds(directions: tuple[Direction, ...], labels: tuple[Label, ...]) -> bool:
    surplus = _surplus(labels)
    return (2 in surplus or -2 in surplus) and folds_flat(turns_around(directions), labels)
