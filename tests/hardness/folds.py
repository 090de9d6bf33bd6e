"""FOLD files changed by structure, without end, and the very large ones."""

from __future__ import annotations

from random import Random
from time import monotonic, process_time
from typing import Final

from drills.flatfold import Limit, check_pattern
from drills.fold_file import ImportedPattern
from tests.hardness.fold_mutants import Mutants, outcome_of
from tests.hardness.slow_files import measured
from tests.hardness.tally import Trials
from trainer.text.check import check_in_text

INPUTS, LONG_INPUTS = 2_000, 1_000_000
MOST_SECONDS: Final = 1.0
CHECKED: Final = 25
"""One in so many sheets that are read is checked and told as well."""


def mutants(trials: Trials) -> None:
    """Read files that were changed by structure: a sheet or one clean sentence comes of each, in a second."""
    made = Mutants(Random(trials.chance.random()))
    for number in range(LONG_INPUTS if trials.long else INPUTS):
        text = made.one()
        trials.tried += 1
        start = process_time()
        try:
            outcome, sheet = outcome_of(text)
            made.found(outcome)
            if sheet is not None and number % CHECKED == 0:
                _check(sheet)
        except Exception as error:
            trials.crashed.append(f"file {number}: {type(error).__name__}: {error}; {text[:2000]!r}")
        if process_time() - start > MOST_SECONDS:
            trials.crashed.append(f"file {number}: {process_time() - start:.1f} s; {text[:2000]!r}")
        if trials.is_time_over:
            return


def _check(sheet: ImportedPattern) -> None:
    report = check_pattern(sheet.pattern, sheet.exact, Limit(0.2, monotonic))
    for line in check_in_text(report, sheet):
        if not line.isprintable():
            raise ValueError(f"{line!r} is not printable")


def slow_files(trials: Trials) -> None:
    """Check files made to be slow: each in time and in memory."""
    for slow in measured():
        trials.tried += 1
        if not slow.is_within:
            trials.crashed.append(
                f"{slow.name}: status {slow.status}, {slow.seconds:.1f} s, {slow.megabytes:.0f} MB"
            )
