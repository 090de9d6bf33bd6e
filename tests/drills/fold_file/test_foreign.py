"""Correct sheets as drawing programs and geometry libraries write them: none is accused."""

from __future__ import annotations

import pytest

from drills.flatfold import Report, check_pattern
from drills.fold_file import read_sheet
from tests.drills.fold_file.foreign import FOLDING, OFF_THE_GRID, base
from tests.drills.fold_file.writing import plain_fold, read, rescaled


def report_on(text: bytes) -> Report:
    """Return the report on a file."""
    sheet = read_sheet(text)
    return check_pattern(sheet.pattern, sheet.exact, off=sheet.off)


@pytest.mark.parametrize("name", FOLDING)
def test_a_correct_sheet_on_a_grid_folds(name: str) -> None:
    """However it was written; it folds by construction."""
    assert report_on(FOLDING[name]()).ok


@pytest.mark.parametrize("name", OFF_THE_GRID)
def test_a_correct_sheet_on_no_grid_is_left_open(name: str) -> None:
    """Nothing is wrong with it, and its layers are not decided."""
    assert report_on(OFF_THE_GRID[name]()) == Report(False)


@pytest.mark.parametrize("places", [4, 6, 12])
def test_a_fault_off_the_grid_is_still_seen(places: int) -> None:
    """One label switched fails at the crease's ends."""
    for crease in base().creases:
        wrong = read(rescaled(plain_fold(base().switched([crease])), 1, places=places))
        report = check_pattern(wrong.pattern, wrong.exact, off=wrong.off)
        assert len(report.labels) == len(base().interior_ends[crease])
        assert report.angles == ()
