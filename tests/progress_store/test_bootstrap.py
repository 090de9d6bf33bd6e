from itertools import product
from math import comb
from statistics import median

import pytest

from progress_store import RESAMPLES, median_interval, middle, ratio_interval

THIRTEEN = [float(value) for value in range(1, 14)]


def test_the_interval_of_thirteen_values_is_the_exact_one() -> None:
    """The chances are those of Efron (1979) for 13 values (from memory, to the last place): ends 4 and 10."""
    printed = {7: 0.2230, 6: 0.1936, 5: 0.1242, 4: 0.0550, 3: 0.0142, 2: 0.0015}
    for place, chance in printed.items():
        assert chance_of_median(place, 13) == pytest.approx(chance, abs=1e-4)
    below = [sum(chance_of_median(place, 13) for place in range(1, upto + 1)) for upto in (3, 4)]
    assert below[0] < 0.025 < below[1]
    assert median_interval(THIRTEEN) == (4.0, 10.0)


def chance_of_median(place: int, number: int) -> float:
    """Return how often the median of a resample of an odd number of values is that of a place, from 1.

    B. Efron, Annals of Statistics 7 (1979) 1-26, section 3: a difference of two binomial sums.
    """

    def at_most_half(share: float) -> float:
        return sum(
            comb(number, times) * share**times * (1 - share) ** (number - times)
            for times in range((number + 1) // 2)
        )

    return at_most_half((place - 1) / number) - at_most_half(place / number)


def exact_medians(values: list[float]) -> list[float]:
    """Return the medians of all resamples there are, in order."""
    return sorted(median(drawn) for drawn in product(values, repeat=len(values)))


def test_the_interval_of_six_values_is_that_of_all_resamples() -> None:
    """All 46656 of them, whose 2.5 % and 97.5 % points lie well inside a step of the distribution."""
    values = [1.0, 2.0, 4.0, 8.0, 16.0, 32.0]
    medians = exact_medians(values)
    ends = medians[round(0.025 * len(medians))], medians[round(0.975 * len(medians))]
    for slack in (0.02, 0.03):
        assert medians[round(slack * len(medians))] == ends[0]
        assert medians[round((1 - slack) * len(medians))] == ends[1]
    assert median_interval(values) == ends


def test_the_interval_of_a_ratio_is_near_that_of_all_pairs_of_resamples() -> None:
    """Of 46656 squared pairs, counted by their medians; 2000 draws stay within 1.5 to 3.5 % outside."""
    later, first = [2.0, 3.0, 5.0, 7.0, 11.0, 13.0], [10.0, 11.0, 13.0, 17.0, 19.0, 23.0]
    above, below = exact_medians(later), exact_medians(first)
    ratios = sorted(
        (one / other, above.count(one) * below.count(other)) for one in set(above) for other in set(below)
    )
    low, high = ratio_interval(later, first) or (0.0, 0.0)
    everything = len(above) * len(below)
    assert 0.015 < sum(count for ratio, count in ratios if ratio < low) / everything < 0.035
    assert 0.015 < sum(count for ratio, count in ratios if ratio > high) / everything < 0.035


def test_equal_values_give_equal_intervals() -> None:
    """Nothing is left to chance, and the number of resamples is stated."""
    assert median_interval(THIRTEEN) == median_interval(THIRTEEN)
    assert ratio_interval(THIRTEEN, THIRTEEN) == ratio_interval(THIRTEEN, THIRTEEN)
    assert RESAMPLES == 2000


def test_under_six_values_there_is_no_interval() -> None:
    """The span of n values holds the median with 1 - 2/2^n: 93.75 % for five, 96.875 % for six."""
    assert median_interval(THIRTEEN[:5]) is None
    assert median_interval(THIRTEEN[:6]) is not None
    assert ratio_interval(THIRTEEN[:5], THIRTEEN) is None
    assert ratio_interval(THIRTEEN, THIRTEEN[:5]) is None


@pytest.mark.parametrize(("values", "half"), [([3.0], 3), ([4.0, 1.0], 2.5), ([9.0, 1.0, 5.0], 5)])
def test_the_middle_of_some_values(values: list[float], half: float) -> None:
    """By hand, in any order."""
    assert middle(values) == half
