"""95 % intervals over learners: of a mean, and of the ratio of two means of the same learners."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from random import Random
from statistics import mean, stdev

RESAMPLES = 2000
STUDENT_T = {3: 4.303, 8: 2.365, 12: 2.201, 16: 2.131, 40: 2.023}
"""The 97.5 % points of Student's t for so many learners (any table); between two, the higher one holds."""


def within(values: Sequence[float]) -> float:
    """Return the half width of the interval of a mean, by Student's t."""
    times = STUDENT_T[max(number for number in STUDENT_T if number <= len(values))]
    return times * stdev(values) / sqrt(len(values))


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
