"""How long the next drill takes, certificate included: with nothing remembered, and with certificates.

And, in processor time, the drills of the two highest levels, which show the largest sheets.
"""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median, quantiles
from time import perf_counter, process_time

from drills.flatfold import vertex
from drills.questions import KINDS, Code, certificate, checked, make, newest
from drills.structures import sheets

EACH = 25
REMEMBERED = (make, sheets.draw, certificate._fold_faults, vertex.valid_at, vertex._folds)
WITH_CERTIFICATES = (make, sheets.draw)
HIGHEST = (6, 7)
LARGE_EACH, LARGE_FROM = 20, 70_000


def main() -> None:
    """Print the table, milliseconds a drill over every kind, form and level."""
    codes = list(_codes())
    for proof_of in codes:
        make(proof_of)
    rows = (
        ("nothing remembered", _times(codes, REMEMBERED), 50, 120),
        ("certificates remembered", _times(codes, WITH_CERTIFICATES), 15, 40),
    )
    print(f"next drill, {len(codes)} codes   median ms  (at most)   95th ms  (at most)")
    for name, times, most, most_95 in rows:
        print(f"{name:<28}{median(times):10.1f}{most:10}{quantiles(times, n=20)[-1]:11.1f}{most_95:10}")

    _print_highest()


def _print_highest() -> None:
    """Print what a drill of the highest levels takes, in processor time, forms in turn."""
    print("\nlevels 6 and 7        drills  median ms  (at most)   95th ms  (at most)  worst ms")
    times: list[float] = []
    for kind, entry in KINDS.items():
        forms = [*entry.forms]
        here = []
        for level in HIGHEST:
            for number in range(LARGE_EACH):
                form = forms[number % len(forms)]
                code = newest(checked(Code(kind, level, LARGE_FROM + number, form=form)))
                start = process_time()
                make(code)
                here.append(1000 * (process_time() - start))
        _print_row(kind, here)
        times += here
    _print_row("all", times)


def _print_row(name: str, times: list[float]) -> None:
    most_95 = quantiles(times, n=20)[-1]
    print(f"{name:<22}{len(times):6}{median(times):11.1f}{15:10}{most_95:10.1f}{80:10}{max(times):10.1f}")


def _codes() -> Iterator[Code]:
    for kind, entry in KINDS.items():
        for form in entry.forms:
            for level in entry.levels:
                yield from (newest(checked(Code(kind, level, 500 + seed, form=form))) for seed in range(EACH))


def _times(codes: list[Code], forgotten: tuple[object, ...]) -> list[float]:
    times = []
    for code in codes:
        for remembered in forgotten:
            remembered.cache_clear()  # type: ignore[attr-defined]
        start = perf_counter()
        make(code)
        times.append(1000 * (perf_counter() - start))
    return times


if __name__ == "__main__":
    main()
