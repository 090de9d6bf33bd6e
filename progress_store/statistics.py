"""95 % intervals: of shares by the score, of medians of times by the bootstrap, and that exactly.

The percentile bootstrap (B. Efron, "Bootstrap methods: another look at the jackknife", Annals of Statistics 7
(1979) 1-26) asks how the median of a resample is distributed. Chance need not be asked: of each rank, and of
each pair of ranks where the number is even, it is known how often the median of a resample falls there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from numpy import float64, signedinteger
    from numpy.typing import NDArray

    Floats = NDArray[float64]
    Ranks = NDArray[signedinteger]

LEAST: Final = 6
"""Under six values even the span of all of them covers the median less often than 95 times in 100."""
_OUTSIDE: Final = 0.025
_SPREADS: Final = 6
"""How many standard deviations of the rank to each side are looked at: beyond lie under 1e-8."""
_HALVINGS: Final = 40
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


def difference_interval(one: Share, other: Share) -> tuple[float, float]:
    """Return the 95 % interval of the share of one less that of another.

    R. G. Newcombe, Statistics in Medicine 17 (1998) 873-890, method 10: of the two score intervals.
    """
    (low, high), (other_low, other_high) = one.interval, other.interval
    share, other_share = one.count / one.drills, other.count / other.drills
    difference = share - other_share
    below = sqrt((share - low) ** 2 + (other_high - other_share) ** 2)
    above = sqrt((high - share) ** 2 + (other_share - other_low) ** 2)
    return difference - below, difference + above


def middle(values: Sequence[float]) -> float:
    """Return the median of some values, at least one."""
    return _middle_of_sorted(sorted(values))


def median_interval(values: Sequence[float]) -> tuple[float, float] | None:
    """Return the 95 % interval of a median, None under six values."""
    if len(values) < LEAST:
        return None
    medians = _medians(values)
    return medians.first_above(_OUTSIDE), medians.first_above(1 - _OUTSIDE)


def ratio_interval(later: Sequence[float], first: Sequence[float]) -> tuple[float, float] | None:
    """Return the 95 % interval of the median of one sample over that of another, both positive.

    None where one of them has under six values.
    """
    if min(len(later), len(first)) < LEAST:
        return None
    above, below = _medians(later), _medians(first)
    return _ratio_above(_OUTSIDE, above, below), _ratio_above(1 - _OUTSIDE, above, below)


def _middle_of_sorted(values: Sequence[float]) -> float:
    half = len(values) // 2
    return values[half] if len(values) % 2 else (values[half - 1] + values[half]) / 2


class _Medians(NamedTuple):
    """The medians that resamples have, in order, and the share of all resamples with that one or a lower."""

    values: Floats
    upto: Floats

    def first_above(self, share: float) -> float:
        """Return the lowest median that more than a share of the resamples do not pass."""
        place = int(self.upto.searchsorted(share, side="right"))
        return float(self.values[min(place, len(self.values) - 1)])


def _medians(values: Sequence[float]) -> _Medians:
    """Return how the median of a resample of some values is distributed (Efron 1979, section 3)."""
    import numpy as np

    ordered, number = np.sort(np.asarray(values, float)), len(values)
    reach = int(_SPREADS * sqrt(number) / 2) + 2
    ranks = np.arange(max(1, (number + 1) // 2 - reach), min(number, number // 2 + 1 + reach) + 1)
    sums, weights = _odd(ordered, ranks) if number % 2 else _even(ordered, ranks)
    found, place = np.unique(sums, return_inverse=True)
    return _Medians(found / 2, np.cumsum(np.bincount(place.ravel(), weights)))


def _odd(ordered: Floats, ranks: Ranks) -> tuple[Floats, Floats]:
    """Return twice the median for each rank, and the share of resamples that have it there."""
    return 2 * ordered[ranks - 1], _at_rank(len(ordered), len(ordered) // 2 + 1, ranks)


def _even(ordered: Floats, ranks: Ranks) -> tuple[Floats, Floats]:
    """Return the sum of the two middle values for each pair of ranks, and the share of resamples with it.

    The two are of different ranks i < j where half of the draws have i as their highest rank and the other
    half j as their lowest; else both are of one rank.
    """
    import numpy as np

    number, half = len(ordered), len(ordered) // 2
    ways = (_log_factorials(number)[number] - 2 * _log_factorials(half)[half]) / 2
    with np.errstate(divide="ignore"):  # rank 0 is never drawn
        shares = ranks / number
        highest = np.exp(ways + half * np.log(shares)) * (1 - ((ranks - 1) / ranks) ** half)
        left = (number - ranks + 1) / number
        lowest = np.exp(ways + half * np.log(left)) * (1 - ((number - ranks) / (number - ranks + 1)) ** half)
    low, high = np.triu_indices(len(ranks), 1)
    apart = highest[low] * lowest[high]
    same = _at_rank(number, half, ranks) - np.bincount(low, apart, len(ranks))
    sums = ordered[ranks[low] - 1] + ordered[ranks[high] - 1]
    return np.concatenate([2 * ordered[ranks - 1], sums]), np.concatenate([same, apart])


def _at_rank(number: int, place: int, ranks: Ranks) -> Floats:
    """Return in what share of resamples the value of a place, from 1, is that of each of the ranks."""
    import numpy as np

    shares = np.append(ranks[0] - 1, ranks) / number
    draws = np.arange(place, min(number, place + 4 * len(ranks)) + 1)  # more are hardly ever drawn
    logs = _log_factorials(number)
    ways = (logs[number] - logs[draws] - logs[number - draws])[:, None]
    with np.errstate(divide="ignore", invalid="ignore"):
        each = ways + draws[:, None] * np.log(shares) + (number - draws)[:, None] * np.log1p(-shares)
    at_most = np.where(shares == 1, 1.0, np.exp(each).sum(axis=0))
    return np.diff(at_most)


def _log_factorials(number: int) -> Floats:
    import numpy as np

    return np.append(0.0, np.cumsum(np.log(np.arange(1, number + 1))))


def _ratio_above(share: float, above: _Medians, below: _Medians) -> float:
    """Return the lowest ratio of two medians that more than a share of all pairs of resamples do not pass."""
    import numpy as np

    weights = np.diff(below.upto, prepend=0.0)
    upto = np.append(0.0, above.upto)
    low, high = 0.0, float(above.values[-1] / below.values[0])
    for _ in range(_HALVINGS):
        tried = (low + high) / 2
        places = above.values.searchsorted(tried * below.values, side="right")
        low, high = (low, tried) if weights @ upto[places] > share else (tried, high)
    places = above.values.searchsorted(low * below.values, side="right")
    fitting = places < len(above.values)
    return float(np.min(above.values[places[fitting]] / below.values[fitting]))
