"""A verdict: right or not, how far off, in which words, and what is lit on the board for it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from drills.geometry import Point

Slip: TypeAlias = Literal["", "exchanged", "not smallest", "more than needed"]


@dataclass(frozen=True)
class Highlights:
    """What the board shows with a verdict: edges and vertices by index, faces as vertex cycles."""

    staircase: tuple[Point, ...] = ()
    right: frozenset[int] = frozenset()
    missed: frozenset[int] = frozenset()
    extra: frozenset[int] = frozenset()
    right_points: frozenset[Point] = frozenset()
    missed_points: frozenset[Point] = frozenset()
    extra_points: frozenset[Point] = frozenset()
    going_in: tuple[tuple[int, ...], ...] = ()
    faults: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Verdict:
    """What came of an answer; a slip is right all the same, but counts as slow."""

    right: bool
    answered: str
    truth: str
    why: str
    misses: int = 0
    false_alarms: int = 0
    slip: Slip = ""
    lit: Highlights = field(default_factory=Highlights)
