"""Nothing is lost and nothing crashes, whatever is done to the program; `long` tries all of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.hardness import power
from tests.hardness.rows import ROWS
from tests.hardness.tally import Hardship, LostError, NotHereError, Trials

SECONDS_EACH = 8
"""What a row takes at most here; `python -m tests.hardness --long` goes to the end."""
SHORT = [hardship for hardship in ROWS if not hardship.only_long]


@pytest.mark.parametrize("hardship", SHORT, ids=[each.name for each in SHORT])
def test_it_is_borne(tmp_path: Path, hardship: Hardship) -> None:
    """In the short run, a part of each."""
    assert tried(tmp_path, hardship, long=False).faults == []


def tried(folder: Path, hardship: Hardship, *, long: bool) -> Trials:
    """Return what was tried; a test that this machine cannot do is skipped."""
    trials = Trials(folder, long=long, seconds=SECONDS_EACH)
    try:
        hardship.work(trials)
    except NotHereError as why:
        pytest.skip(str(why))
    assert trials.tried
    return trials


@pytest.mark.long
@pytest.mark.parametrize("hardship", ROWS, ids=[each.name for each in ROWS])
def test_all_of_it_is_borne(tmp_path: Path, hardship: Hardship) -> None:
    """Every byte and every call, for as long as a row may take among the tests."""
    assert tried(tmp_path, hardship, long=True).faults == []


def test_what_goes_wrong_is_counted(tmp_path: Path) -> None:
    """A loss and a crash each, and the next try goes on."""
    trials = Trials(tmp_path, long=False)
    for error in (LostError("gone"), ZeroDivisionError("by zero"), None):
        with trials.one("a try") as folder:
            assert list(folder.iterdir()) == []
            if error is not None:
                raise error
    assert (trials.tried, len(trials.lost), len(trials.crashed)) == (3, 1, 1)
    assert trials.faults == ["lost at a try: gone", "crashed at a try: ZeroDivisionError: by zero"]


@pytest.mark.long
def test_a_store_that_does_not_wait_for_the_disk_is_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Answers are lost in the power cut then."""
    monkeypatch.setattr("progress_store.log.sync", lambda handle: None)
    trials = Trials(tmp_path, long=False)
    power.at_each_call(trials)
    assert trials.lost
