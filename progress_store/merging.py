"""What other logs have and this one has not: copies beside it, and the data folder of another machine."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from progress_store.attempt import Attempt
from progress_store.copies import AHEAD, Copy, copies_beside, read_copy, set_all_aside
from progress_store.errors import StoreError, reason, shown
from progress_store.gathered import Gathered
from progress_store.log import NAME, Log, is_writable
from progress_store.notices import refuse_newer, told, told_of_clashes

Tell = Callable[[str], None]


class TakenIn(NamedTuple):
    """How many attempts came in, of how many that the other folder has."""

    new: int
    found: int


def all_of(copies: Iterable[Copy], tell: Tell) -> Gathered:
    """Return the attempts of all the logs, and tell what in them is not counted."""
    gathered = Gathered()
    for path, reading in copies:
        for notice in told(reading, path, writable=False):
            tell(notice)
        gathered.add_all(reading.attempts)
    return gathered


def missing_of(others: Gathered, known: Gathered, place: Path, tell: Tell) -> list[Attempt]:
    """Return the attempts that are not known yet and fit into a log, and tell of what else there is."""
    missing = [attempt for attempt in others if known.lacks(attempt)]
    fitting = [attempt for attempt in missing if is_writable(attempt)]
    if left := len(missing) - len(fitting):
        tell(f"{shown(place)} has {_answers(left)} too long for one line of the log; keep the file.")
    between = sum(known.clashes(attempt) for attempt in others)
    for notice in told_of_clashes(between, place):
        tell(notice)
    return fitting


def log_of_other(folder: Path, own: Path, tell: Tell) -> Gathered:
    """Return the attempts of another machine's data folder; raises StoreError if it is none."""
    try:
        if not folder.is_dir():
            raise StoreError(f"{shown(folder)} is not a folder; give the data folder of the other machine.")
        if own.exists() and folder.samefile(own):
            raise StoreError("That is this data folder itself; give the one of the other machine.")
        has_log = (folder / NAME).exists()
    except OSError as error:
        raise StoreError(f"{shown(folder)} cannot be read ({reason(error)}); make it readable.") from None
    copies = copies_beside(folder / NAME, tell)
    if has_log:
        copies.insert(0, Copy(folder / NAME, read_copy(folder / NAME)))
        refuse_newer(copies[0].reading, folder / NAME)
    if not copies:
        raise StoreError(f"{shown(folder)} has no {NAME}; give the data folder of the other machine.")
    return all_of(copies, tell)


def take_in_copies(copies: Sequence[Copy], known: Gathered, log: Log, tell: Tell) -> None:
    """Add to a log what the copies beside it have, and only then rename them; raises StoreError."""
    missing = missing_of(all_of(copies, tell), known, log.path, tell)
    if missing:
        log.append(missing)
    known.add_all(missing)
    renamed = set_all_aside(copies, tell)
    if missing or renamed:
        came = f"Took in {_answers(len(missing))} from" if missing else "Nothing was new in"
        kept = f'; what is taken in is kept with "{AHEAD}" before its name.' if renamed else "."
        tell(f"{came} {_copies(len(copies))} of the log{kept}")


def count_copies(copies: Sequence[Copy], known: Gathered, log: Log, tell: Tell) -> bool:
    """Add to what is known what the copies beside a log have, return whether anything; write nothing."""
    missing = missing_of(all_of(copies, tell), known, log.path, tell)
    known.add_all(missing)
    if missing:
        tell(f"Counted too: {_answers(len(missing))} from {_copies(len(copies))} of the log beside it.")
    return bool(missing)


def _answers(how_many: int) -> str:
    return "1 answer" if how_many == 1 else f"{how_many} answers"


def _copies(how_many: int) -> str:
    return "1 copy" if how_many == 1 else f"{how_many} copies"
