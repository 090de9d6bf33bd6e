"""Logs of several machines taken in: copies beside a log, another data folder, and what the person is told.

Programs that keep a folder in step on two machines leave such copies, under many names.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple

from progress_store.attempt import Attempt, AttemptSet
from progress_store.files import StoreError, reason, shown, sync_folder
from progress_store.line import is_writable
from progress_store.log import NAME, Log
from progress_store.reading import (
    ForeignLogError,
    Reading,
    read_log,
    refuse_newer,
    told,
    told_of_clashes,
    told_of_unreadable,
)

LARGEST_COPY: Final = 128 << 20
AHEAD: Final = "taken-in-"

Tell = Callable[[str], None]


class Copy(NamedTuple):
    """A copy and what it holds."""

    path: Path
    reading: Reading


def is_copy(name: str, log: Path) -> bool:
    """Whether a file beside a log is a copy by its name: that of the log with something put in or added."""
    return name != log.name and name.startswith(log.stem) and name.endswith(log.suffix)


def copies_beside(log: Path, tell: Tell) -> Iterator[Copy]:
    """Yield the copies beside a log in order of name, read one by one and 128 MiB of them at most.

    One that cannot be read is told and left out. Links, folders, empty files and files without a line
    of ours are no copies.
    """
    left, waiting = LARGEST_COPY, 0
    for path, size in sorted(_named_as_copies(log)):
        if left < size <= LARGEST_COPY:
            waiting += 1
            continue
        try:
            reading = read_copy(path)
        except ForeignLogError:
            continue
        except StoreError as error:
            tell(str(error))
            continue
        if reading.ours:
            left -= size
            yield Copy(path, reading)
    if waiting:
        tell(f"Left for the next start: {_copies(waiting)} of the log.")


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


def set_all_aside(copies: Iterable[Path], tell: Tell) -> int:
    """Rename copies that were taken in so that they are none by their names; return how many were renamed."""
    renamed = 0
    for path in copies:
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


def may_have_copies(log: Path) -> bool:
    """Whether anything beside a log has the name of a copy."""
    return any(True for _ in _named_as_copies(log))


def _named_as_copies(log: Path) -> Iterator[tuple[Path, int]]:
    """Yield the files beside a log that are copies by their names and not empty, with their sizes."""
    try:
        with os.scandir(log.parent) as entries:
            named = ((Path(entry), _size(entry)) for entry in entries if is_copy(entry.name, log))
            yield from ((path, size) for path, size in named if size)
    except OSError:
        return  # no folder yet, or one that may not be listed


def _size(entry: os.DirEntry[str]) -> int:
    """Return the size of a file, 0 for what is none."""
    try:
        is_file = entry.is_file(follow_symlinks=False)
        return entry.stat(follow_symlinks=False).st_size if is_file else 0
    except OSError:
        return 0


def _free(path: Path, ending: str) -> Path:
    """Return the first name that is not taken: taken-in-ENDING, taken-in-2-ENDING, ..."""
    number, aside = 1, path.with_name(AHEAD + ending)
    while os.path.lexists(aside):
        number += 1
        aside = path.with_name(f"{AHEAD}{number}-{ending}")
    return aside


class MergeResult(NamedTuple):
    """How many attempts came in, of how many that the other folder has."""

    new: int
    found: int


def missing_of(others: AttemptSet, known: AttemptSet, place: Path, tell: Tell) -> list[Attempt]:
    """Return the attempts that are not known yet and fit into a log, and tell of what else there is."""
    missing = [attempt for attempt in others if known.lacks(attempt)]
    fitting = [attempt for attempt in missing if is_writable(attempt)]
    if left := len(missing) - len(fitting):
        tell(f"{shown(place)} has {answers(left)} too long for one line of the log; keep the file.")
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
    found, copies = beside(folder / NAME, tell)
    if has_log:
        reading = read_copy(folder / NAME)
        refuse_newer(reading, folder / NAME)
        _add(Copy(folder / NAME, reading), found, tell)
    elif not copies:
        raise StoreError(f"{shown(folder)} has no {NAME}; give the data folder of the other machine.")
    return found


def beside(log: Path, tell: Tell) -> tuple[AttemptSet, int]:
    """Return the attempts of the copies beside a log and how many there are; tell what is not counted."""
    found, copies = AttemptSet(), 0
    for copy in copies_beside(log, tell):
        _add(copy, found, tell)
        copies += 1
    return found, copies


def _add(copy: Copy, found: AttemptSet, tell: Tell) -> None:
    _tell_of(copy, tell)
    found.add_all(copy.reading.attempts)


def _tell_of(copy: Copy, tell: Tell) -> None:
    notices = told_of_unreadable(copy.reading.unreadable, copy.path, own=False)
    for notice in (*told(copy.reading, copy.path, writable=False), *notices):
        tell(notice)


def take_in_copies(known: AttemptSet, log: Log, tell: Tell) -> None:
    """Add to a log what the copies beside it have, and only then rename them; raises StoreError.

    A copy with answers of a newer program stays as it is, to be read in full by that one.
    """
    copies, came, done = 0, 0, list[Path]()
    for copy in copies_beside(log.path, tell):
        _tell_of(copy, tell)
        missing = missing_of(copy.reading.attempts, known, copy.path, tell)
        if missing:
            log.append(missing)
            known.add_all(missing)
        copies, came = copies + 1, came + len(missing)
        if not copy.reading.newer:
            done.append(copy.path)
    renamed = set_all_aside(done, tell)
    if came or renamed:
        took = f"Took in {answers(came)} from" if came else "Nothing was new in"
        kept = f'; what is taken in is kept with "{AHEAD}" before its name.' if renamed else "."
        tell(f"{took} {_copies(copies)} of the log{kept}")


def count_copies(found: AttemptSet, copies: int, known: AttemptSet, log: Path, tell: Tell) -> bool:
    """Add to what is known what copies beside a log have, return whether anything; write nothing."""
    missing = missing_of(found, known, log, tell)
    known.add_all(missing)
    if missing:
        tell(f"Counted too: {answers(len(missing))} from {_copies(copies)} of the log beside it.")
    return bool(missing)


def answers(how_many: int) -> str:
    """Return so many answers in words."""
    return "1 answer" if how_many == 1 else f"{how_many} answers"


def _copies(how_many: int) -> str:
    return "1 copy" if how_many == 1 else f"{how_many} copies"
