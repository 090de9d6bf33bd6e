from collections import Counter
from itertools import accumulate, product
from math import comb
from random import Random
from statistics import median

import pytest

from progress_store import median_interval, middle, ratio_interval
from progress_store.statistics import _medians

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


@pytest.mark.parametrize("number", [2, 3, 4, 5, 6, 7])
def test_the_medians_of_all_resamples_are_weighed(number: int) -> None:
    """How often each median comes, against all resamples drawn one by one; some values are equal."""
    values = [1.0, 2.0, 2.0, 7.0, 11.0, 16.0, 17.0][:number]
    medians, found = exact_medians(values), _medians(values)
    assert found.values.tolist() == sorted(set(medians))
    for value, upto in zip(found.values, found.upto, strict=True):
        assert upto == pytest.approx(sum(each <= value for each in medians) / len(medians))


@pytest.mark.parametrize("number", [40, 41, 300, pytest.param(2001, marks=pytest.mark.long)])
def test_many_values_have_the_interval_of_many_draws(number: int) -> None:
    """About 2.5 in 100 of 4000 resamples drawn by chance lie outside each end."""
    chance = Random(number)
    values = [chance.lognormvariate(8, 0.5) for _ in range(number)]
    low, high = median_interval(values) or (0.0, 0.0)
    drawn = [middle(chance.choices(values, k=number)) for _ in range(4000)]
    assert 0.015 < sum(value < low for value in drawn) / 4000 <= sum(value <= low for value in drawn) / 4000
    assert sum(value < low for value in drawn) / 4000 < 0.035
    assert 0.015 < sum(value > high for value in drawn) / 4000 < 0.035
    assert _medians(values).upto[-1] == pytest.approx(1, abs=1e-6)


def test_the_interval_of_a_ratio_is_that_of_all_pairs_of_resamples() -> None:
    """Of 46656 squared pairs, counted by their medians: the first ratios that pass 2.5 and 97.5 in 100."""
    later, first = [2.0, 3.0, 5.0, 7.0, 11.0, 13.0], [10.0, 11.0, 13.0, 17.0, 19.0, 23.0]
    above, below = Counter(exact_medians(later)), Counter(exact_medians(first))
    pairs = sorted((one / other, above[one] * below[other]) for one in above for other in below)
    everything = sum(count for _, count in pairs)
    upto = list(accumulate(count for _, count in pairs))
    ends = [
        next(pairs[n][0] for n, some in enumerate(upto) if some > share * everything)
        for share in (0.025, 0.975)
    ]
    assert ratio_interval(later, first) == pytest.approx(ends, rel=1e-12)


def test_equal_values_give_equal_intervals() -> None:
    """Nothing is left to chance, and the order of the values tells nothing."""
    assert median_interval(THIRTEEN) == median_interval(THIRTEEN[::-1])
    assert ratio_interval(THIRTEEN, THIRTEEN) == ratio_interval(THIRTEEN[::-1], THIRTEEN)


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
