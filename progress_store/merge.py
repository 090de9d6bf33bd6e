"""Logs of several machines taken in: copies beside a log, another data folder, and what the person is told.

Programs that keep a folder in step on two machines leave such copies, under many names.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Final, NamedTuple

from progress_store.attempt import Attempt, AttemptSet
from progress_store.files import StoreError, reason, shown, sync_folder
from progress_store.log import NAME, Log, Reading, is_writable, read_log

LARGEST_COPY: Final = 128 << 20
AHEAD: Final = "taken-in-"
_LINES_NAMED: Final = 5

Tell = Callable[[str], None]


class Copy(NamedTuple):
    """A copy and what it holds."""

    path: Path
    reading: Reading


def is_copy(name: str, log: Path) -> bool:
    """Whether a file beside a log is a copy by its name: that of the log with something put in or added."""
    return name != log.name and name.startswith(log.stem) and name.endswith(log.suffix)


def copies_beside(log: Path, tell: Tell) -> list[Copy]:
    """Return the copies beside a log, in order of name; one that cannot be read is told and left out.

    Links, folders and empty files are no copies.
    """
    found = []
    for path in sorted(_named_as_copies(log)):
        try:
            found.append(Copy(path, read_copy(path)))
        except StoreError as error:
            tell(str(error))
    return found


def read_copy(path: Path) -> Reading:
    """Return what the log of another machine holds, at most 128 MiB; raises StoreError."""
    try:
        is_too_large = path.stat().st_size > LARGEST_COPY
    except OSError:
        is_too_large = False  # gone or not to be reached, of which the reading speaks
    if is_too_large:
        most = f"{LARGEST_COPY >> 20} MB"
        raise StoreError(f"{shown(path)} is larger than {most} and is not taken in; move it away.")
    return read_log(path)


def set_all_aside(copies: Iterable[Copy], tell: Tell) -> int:
    """Rename copies that were taken in so that they are none by their names; return how many were renamed.

    One with lines of a newer program stays as it is, to be read in full by that one.
    """
    renamed = 0
    for path, reading in copies:
        if reading.newer:
            continue
        try:
            _set_aside(path)
            renamed += 1
        except OSError as error:
            tell(f"{shown(path)} was taken in and cannot be renamed ({reason(error)}); move it away.")
    return renamed


def _set_aside(path: Path) -> None:
    try:
        path.rename(_free(path, path.name))
    except FileNotFoundError:
        return  # another machine has set it aside
    except OSError as error:
        if error.errno != errno.ENAMETOOLONG:
            raise
        path.rename(_free(path, path.suffix))
    sync_folder(path.parent)


def _named_as_copies(log: Path) -> Iterator[Path]:
    try:
        with os.scandir(log.parent) as entries:
            yield from (Path(entry) for entry in entries if is_copy(entry.name, log) and _is_filled(entry))
    except OSError:
        return  # no folder yet, or one that may not be listed


def _is_filled(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_file(follow_symlinks=False) and entry.stat(follow_symlinks=False).st_size > 0
    except OSError:
        return False


def _free(path: Path, ending: str) -> Path:
    """Return the first name that is not taken: taken-in-ENDING, taken-in-2-ENDING, ..."""
    number, aside = 1, path.with_name(AHEAD + ending)
    while os.path.lexists(aside):
        number += 1
        aside = path.with_name(f"{AHEAD}{number}-{ending}")
    return aside


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


class MergeResult(NamedTuple):
    """How many attempts came in, of how many that the other folder has."""

    new: int
    found: int


def all_of(copies: Iterable[Copy], tell: Tell) -> AttemptSet:
    """Return the attempts of all the logs, and tell what in them is not counted."""
    found = AttemptSet()
    for path, reading in copies:
        for notice in told(reading, path, writable=False):
            tell(notice)
        found.add_all(reading.attempts)
    return found


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
