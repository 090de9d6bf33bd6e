"""What the person is told of a log that could not be read in full."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from progress_store.attempt import Attempt, AttemptSet
from progress_store.copies import AHEAD, Copy, copies_beside, read_copy, set_all_aside
from progress_store.files import StoreError, reason, shown
from progress_store.log import NAME, Log, Reading, is_writable

_LINES_NAMED = 5


def refuse_newer(reading: Reading, path: Path) -> None:
    """Raise StoreError if a newer program wrote any line of a log: we must not add to it."""
    if reading.newer:
        raise StoreError(
            f"{shown(path)} was written by a newer Slantwise;"
            " update this one, or give another folder with --data."
        )


def told(reading: Reading, path: Path, *, writable: bool) -> list[str]:
    """Return a sentence for each thing in a log that is not counted."""
    notices = []
    if reading.torn:
        put = "was put aside in a file next to it" if writable else "is left as it is"
        notices.append(f"The last line of {shown(path)} was torn; it {put} and is not counted.")
    if reading.unreadable:
        lines = _numbered(reading.unreadable)
        notices.append(f"{shown(path)} is unreadable in {lines}; that stays in place and is not counted.")
    if reading.newer:
        lines = _numbered(reading.newer)
        notices.append(f"A newer Slantwise wrote {lines} of {shown(path)}; update this one to count it.")
    notices.extend(told_of_clashes(len(reading.attempts.clashing), path))
    return notices


def told_of_clashes(how_many: int, path: Path) -> list[str]:
    """Return a sentence if different answers share an id in a log, or in it and another."""
    if not how_many:
        return []
    return [f"{shown(path)} has different answers under one id ({how_many} in all); the earlier one counts."]


def _numbered(numbers: Sequence[int]) -> str:
    named = ", ".join(str(number) for number in numbers[:_LINES_NAMED])
    more = len(numbers) - _LINES_NAMED
    return f"{'line' if len(numbers) == 1 else 'lines'} {named}" + (f" and {more} more" if more > 0 else "")


Tell = Callable[[str], None]


class MergeResult(NamedTuple):
    """How many attempts came in, of how many that the other folder has."""

    new: int
    found: int


def all_of(copies: Iterable[Copy], tell: Tell) -> AttemptSet:
    """Return the attempts of all the logs, and tell what in them is not counted."""
    gathered = AttemptSet()
    for path, reading in copies:
        for notice in told(reading, path, writable=False):
            tell(notice)
        gathered.add_all(reading.attempts)
    return gathered


def missing_of(others: AttemptSet, known: AttemptSet, place: Path, tell: Tell) -> list[Attempt]:
    """Return the attempts that are not known yet and fit into a log, and tell of what else there is."""
    missing = [attempt for attempt in others if known.lacks(attempt)]
    fitting = [attempt for attempt in missing if is_writable(attempt)]
    if left := len(missing) - len(fitting):
        tell(f"{shown(place)} has {_answers(left)} too long for one line of the log; keep the file.")
    between = sum(known.clashes(attempt) for attempt in others)
    for notice in told_of_clashes(between, place):
        tell(notice)
    return fitting


def log_of_other(folder: Path, own: Path, tell: Tell) -> AttemptSet:
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


def take_in_copies(copies: Sequence[Copy], known: AttemptSet, log: Log, tell: Tell) -> None:
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


def count_copies(copies: Sequence[Copy], known: AttemptSet, log: Log, tell: Tell) -> bool:
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
