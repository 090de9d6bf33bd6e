"""95 % intervals over learners: of a mean, and of the ratio of two means of the same learners."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from random import Random
from statistics import mean, stdev

RESAMPLES = 2000
STUDENT_T = 2.02
"""The 97.5 % point of Student's t at 39 degrees of freedom (any table), for 40 learners."""


def within(values: Sequence[float]) -> float:
    """Return the half width of the interval of a mean, by Student's t."""
    return STUDENT_T * stdev(values) / sqrt(len(values))


def ratio(ours: Sequence[float], theirs: Sequence[float]) -> tuple[float, float, float]:
    """Return the ratio of two means and its interval: learners drawn anew in pairs, percentiles.

    B. Efron, Annals of Statistics 7 (1979) 1-26.
    """
    chance, number = Random(1979), len(ours)
    found = []
    for _ in range(RESAMPLES):
        drawn = [int(chance.random() * number) for _ in range(number)]
        found.append(sum(ours[each] for each in drawn) / sum(theirs[each] for each in drawn))
    found.sort()
    return mean(ours) / mean(theirs), found[RESAMPLES * 25 // 1000 - 1], found[-RESAMPLES * 25 // 1000]
