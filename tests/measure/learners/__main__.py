"""The tables of simulated learners: python -m tests.measure.learners [LEARNERS LEARNERS_OF_A_VARIANT]."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from statistics import mean
from time import perf_counter

from tests.measure.learners.comparing import CEILING, RULES, compared
from tests.measure.learners.intervals import ratio, within
from tests.measure.learners.numbers import NUMBERS, VARIANTS, Numbers
from tests.measure.learners.numbers_b import NUMBERS_B, VARIANTS_B, NumbersB
from tests.measure.learners.practising import Outcome

LEARNERS, OF_A_VARIANT, OF_THE_CEILING = 40, 16, 12
MODELS: Mapping[str, tuple[Numbers | NumbersB, Mapping[str, Numbers | NumbersB]]] = {
    "A": (NUMBERS, VARIANTS),
    "B": (NUMBERS_B, VARIANTS_B),
}
LAST = NUMBERS.tested_on[-1]
OURS, CHANCE = "present rule", "at random"
OF_VARIANTS = {name: RULES[name] for name in (OURS, "former rule", CHANCE)}


def main() -> None:
    """Print the tables of both models, and the ratios under other assumptions."""
    learners, of_a_variant = map(int, sys.argv[1:]) if sys.argv[1:] else (LEARNERS, OF_A_VARIANT)
    start = perf_counter()
    with ProcessPoolExecutor() as pool:
        for model, (numbers, _) in MODELS.items():
            found = compared(RULES, numbers, learners, pool)
            seen = compared(CEILING, numbers, min(learners, OF_THE_CEILING), pool)
            minutes = f"{numbers.days} days of {numbers.seconds_a_day / 60:g} minutes"
            print(f"model {model}, {learners} learners, {minutes}")
            _print_outcomes({**found, **seen}, numbers)
            _print_ratios({**found, **seen}, numbers)
        print(f"\nday {LAST}, {of_a_variant} learners each             present to chance      to former")
        for model, (_, variants) in MODELS.items():
            for words, numbers in variants.items():
                found = compared(OF_VARIANTS, numbers, of_a_variant, pool)
                ratios = (_ratio(found, other, LAST) for other in (CHANCE, "former rule"))
                print(f"{model} {words:<40}" + "   ".join(ratios), flush=True)
    print(f"\n{perf_counter() - start:.0f} s")


def _print_outcomes(found: Mapping[str, Sequence[Outcome]], numbers: Numbers | NumbersB) -> None:
    days = "".join(f"{f'day {day}':>13}" for day in numbers.tested_on)
    print(f"{'right a minute':<25}{days}  well placed   right  drills  skills  level  unfilled")
    for name, outcomes in found.items():
        tests = [[each.right_a_minute[day] for each in outcomes] for day in numbers.tested_on]
        row = "".join(f"{mean(test):7.2f} ±{within(test):5.2f}" for test in tests)
        row += f"{_mean(outcomes, lambda o: 100 * o.well_placed):11.0f} %"
        row += f"{_mean(outcomes, lambda o: 100 * o.right):6.0f} %{_mean(outcomes, lambda o: o.drills):8.0f}"
        row += f"{_mean(outcomes, lambda o: o.skills_met):8.1f}{_mean(outcomes, lambda o: o.levels):7.1f}"
        print(f"{name:<25}{row}{_mean(outcomes, lambda o: o.minutes_unfilled):6.1f} min", flush=True)


def _mean(outcomes: Sequence[Outcome], what: Callable[[Outcome], float]) -> float:
    return mean(what(each) for each in outcomes)


def _print_ratios(found: Mapping[str, Sequence[Outcome]], numbers: Numbers | NumbersB) -> None:
    print(f"\n{OURS} to")
    for other in list(found)[1:]:
        print(f"{other:<25}" + "   ".join(_ratio(found, other, day) for day in numbers.tested_on))
    print(flush=True)


def _ratio(found: Mapping[str, Sequence[Outcome]], other: str, day: int) -> str:
    """Return our rule against another, over the learners that both had."""
    pairs = list(zip(found[OURS], found[other], strict=False))
    ours, theirs = ([each.right_a_minute[day] for each in side] for side in zip(*pairs, strict=True))
    middle, low, high = ratio(ours, theirs)
    return f"{middle:.2f} ({low:.2f} to {high:.2f})"


if __name__ == "__main__":
    main()
