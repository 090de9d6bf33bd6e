"""The table of simulated learners: python -m tests.measure.learners."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from statistics import mean
from time import perf_counter

from tests.measure.learners.comparing import CEILING, RULES, compared
from tests.measure.learners.intervals import ratio, within
from tests.measure.learners.numbers import NUMBERS, VARIANTS
from tests.measure.learners.practising import Outcome

LEARNERS = 40
LEARNERS_A_VARIANT = 12


def main() -> None:
    """Print the table, and the ratios under other assumptions."""
    start = perf_counter()
    with ProcessPoolExecutor() as pool:
        found = compared({**RULES, **CEILING}, NUMBERS, LEARNERS, pool)
        _print_outcomes(found)
        _print_ratios(found)
        print(f"\nour rule to the others, day {NUMBERS.tested_on[-1]}, {LEARNERS_A_VARIANT} learners each")
        for words, numbers in VARIANTS.items():
            varied = compared(RULES, numbers, LEARNERS_A_VARIANT, pool)
            ratios = (_ratio(varied, other, NUMBERS.tested_on[-1]) for other in list(RULES)[1:])
            print(f"{words:<40}" + "   ".join(ratios))
    print(f"\n{perf_counter() - start:.0f} s")


def _print_outcomes(found: Mapping[str, Sequence[Outcome]]) -> None:
    print(f"{LEARNERS} learners, {NUMBERS.days} days of {NUMBERS.seconds_a_day / 60:g} minutes; means, 95 %")
    days = "".join(f"{f'day {day}':>13}" for day in NUMBERS.tested_on)
    print(f"{'right a minute':<18}{days}  well placed   right  drills  skills  level  unfilled")
    for name, outcomes in found.items():
        tests = [[each.right_a_minute[day] for each in outcomes] for day in NUMBERS.tested_on]
        row = "".join(f"{mean(test):7.2f} ±{within(test):5.2f}" for test in tests)
        row += f"{_mean(outcomes, lambda o: 100 * o.well_placed):11.0f} %"
        row += f"{_mean(outcomes, lambda o: 100 * o.right):6.0f} %{_mean(outcomes, lambda o: o.drills):8.0f}"
        row += f"{_mean(outcomes, lambda o: o.skills_met):8.1f}{_mean(outcomes, lambda o: o.levels):7.1f}"
        print(f"{name:<18}{row}{_mean(outcomes, lambda o: o.minutes_unfilled):6.1f} min")


def _mean(outcomes: Sequence[Outcome], what: Callable[[Outcome], float]) -> float:
    return mean(what(each) for each in outcomes)


def _print_ratios(found: Mapping[str, Sequence[Outcome]]) -> None:
    print("\nour rule to")
    for other in list(found)[1:]:
        print(f"{other:<18}" + "   ".join(_ratio(found, other, day) for day in NUMBERS.tested_on))


def _ratio(found: Mapping[str, Sequence[Outcome]], other: str, day: int) -> str:
    ours, theirs = ([each.right_a_minute[day] for each in found[name]] for name in ("our rule", other))
    middle, low, high = ratio(ours, theirs)
    return f"{middle:.2f} ({low:.2f} to {high:.2f})"


if __name__ == "__main__":
    main()
