"""95 % intervals: of shares by the score, of medians of times by resampling.

Resamples are drawn with a fixed seed, so that equal drills give equal figures: the percentile bootstrap of
B. Efron, "Bootstrap methods: another look at the jackknife", Annals of Statistics 7 (1979) 1-26.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt
from random import Random
from typing import Final

RESAMPLES: Final = 2000
LEAST: Final = 6
"""Under six values even the span of all of them covers the median less often than 95 times in 100."""
_OUTSIDE: Final = RESAMPLES * 25 // 1000
_SEED: Final = 1979
_Z_95: Final = 1.959963984540054


def wilson(right: int, tries: int) -> tuple[float, float]:
    """Return the 95 % score interval of a share, tries positive (E. B. Wilson, JASA 22 (1927) 209-212)."""
    share, square = right / tries, _Z_95**2
    centre = (share + square / (2 * tries)) / (1 + square / tries)
    half = _Z_95 * sqrt(share * (1 - share) / tries + square / (4 * tries**2)) / (1 + square / tries)
    return max(0.0, centre - half), min(1.0, centre + half)


@dataclass(frozen=True, slots=True)
class Share:
    """How many of some drills, at least one."""

    count: int
    drills: int

    @property
    def interval(self) -> tuple[float, float]:
        """Where the true share lies, 95 times in 100."""
        return wilson(self.count, self.drills)


def middle(values: Sequence[float]) -> float:
    """Return the median of some values, at least one."""
    return _middle_of_sorted(sorted(values))


def median_interval(values: Sequence[float]) -> tuple[float, float] | None:
    """Return the 95 % interval of a median, None under six values."""
    if len(values) < LEAST:
        return None
    return _ends(_medians(values, Random(_SEED)))


def ratio_interval(later: Sequence[float], first: Sequence[float]) -> tuple[float, float] | None:
    """Return the 95 % interval of the median of one sample over that of another, both positive.

    None where one of them has under six values.
    """
    if min(len(later), len(first)) < LEAST:
        return None
    chance = Random(_SEED)
    pairs = zip(_medians(later, chance), _medians(first, chance), strict=True)
    return _ends(above / below for above, below in pairs)


def _medians(values: Sequence[float], chance: Random) -> Iterator[float]:
    # random() alone is promised to stay the same from one Python to the next
    draw, number = chance.random, len(values)
    for _ in range(RESAMPLES):
        yield _middle_of_sorted(sorted(values[int(draw() * number)] for _ in range(number)))


def _middle_of_sorted(values: Sequence[float]) -> float:
    half = len(values) // 2
    return values[half] if len(values) % 2 else (values[half - 1] + values[half]) / 2


def _ends(resampled: Iterator[float]) -> tuple[float, float]:
    found = sorted(resampled)
    return found[_OUTSIDE - 1], found[-_OUTSIDE]
