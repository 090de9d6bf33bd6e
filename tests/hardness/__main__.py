"""The table of what was tried, lost and crashed: python -m tests.hardness, with --long for all of it."""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.hardness.rows import ROWS
from tests.hardness.tally import NotHereError, Trials, heading, row

LONGEST_ROW = 20 * 60
"""Seconds after which a row ends, however many tries it came to."""


def main(*, long: bool) -> int:
    """Print the table; return 1 where anything was lost or crashed."""
    print(heading())
    ended_well = True
    for hardship in ROWS:
        if hardship.only_long and not long:
            continue
        with TemporaryDirectory() as folder:
            Path(folder).chmod(0o755)
            trials = Trials(Path(folder), long=long, seconds=LONGEST_ROW)
            try:
                hardship.work(trials)
            except NotHereError as why:
                print(f"{hardship.name:44}not tried here: {why}", flush=True)
                continue
        print(row(hardship.name, trials), flush=True)
        for fault in trials.faults:
            print(f"  {fault}", flush=True)
        ended_well &= not trials.faults
    return 0 if ended_well else 1


if __name__ == "__main__":
    sys.exit(main(long="--long" in sys.argv[1:]))
