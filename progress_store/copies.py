"""Copies of a log beside it, as programs leave them that keep a folder in step on two machines."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple

from progress_store.files import StoreError, reason, shown, sync_folder
from progress_store.log import Reading, read_log

LARGEST_BYTES: Final = 128 << 20
AHEAD: Final = "taken-in-"


class Copy(NamedTuple):
    """A copy and what it holds."""

    path: Path
    reading: Reading


def is_copy(name: str, log: Path) -> bool:
    """Whether a file beside a log is a copy by its name: that of the log with something put in or added."""
    return name != log.name and name.startswith(log.stem) and name.endswith(log.suffix)


def copies_beside(log: Path, tell: Callable[[str], None]) -> list[Copy]:
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
        is_too_large = path.stat().st_size > LARGEST_BYTES
    except OSError:
        is_too_large = False  # gone or not to be reached, of which the reading speaks
    if is_too_large:
        most = f"{LARGEST_BYTES >> 20} MB"
        raise StoreError(f"{shown(path)} is larger than {most} and is not taken in; move it away.")
    return read_log(path)


def set_all_aside(copies: Iterable[Copy], tell: Callable[[str], None]) -> int:
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
