"""The data folder: made where there is none, and locked by the one program that writes to it."""

from __future__ import annotations

import errno
import os
import stat
from contextlib import suppress
from itertools import takewhile
from pathlib import Path
from typing import TYPE_CHECKING, Final

from progress_store.files import StoreError, private, reason, shown, sync_folder

if TYPE_CHECKING:
    from filelock import BaseFileLock

LOCK_NAME: Final = "slantwise.lock"


def made(folder: Path) -> Path:
    """Make a data folder if need be, for this person alone, and return it; raises StoreError."""
    refuse_other_things(folder)
    try:
        missing = list(takewhile(lambda each: not each.exists(), (folder, *folder.parents)))
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"The folder {shown(folder)} cannot be made ({reason(error)}); give another one with --data."
        ) from None
    for new in reversed(missing):
        with suppress(OSError):  # one that may be passed through and not be listed
            sync_folder(new.parent)
    return folder


def refuse_other_things(folder: Path) -> None:
    """Raise StoreError if what has the name of the data folder is none, or cannot be reached."""
    try:
        if not folder.exists() or folder.is_dir():
            return
    except OSError as error:
        raise StoreError(
            f"The folder {shown(folder)} cannot be read ({reason(error)}); give another one with --data."
        ) from None
    raise StoreError(f"{shown(folder)} is not a folder; give another one with --data.")


class FolderLock:
    """The lock of a data folder, held from making until `release`.

    Raises StoreError if another program still holds it after so many seconds.
    """

    def __init__(self, folder: Path, seconds: float = 0) -> None:
        self._lock = _held(folder, seconds)

    def release(self) -> None:
        """Let another program in; a second call does nothing.

        What was kept is kept even if a network disk refuses this; the lock ends with the program then.
        """
        with suppress(OSError):
            self._lock.release()


def _held(folder: Path, seconds: float) -> BaseFileLock:
    from filelock import FileLock, Timeout

    try:
        rights = _rights_of_lock_file(folder / LOCK_NAME)
        # not bound to a thread: a worker may close what the main thread opened
        lock = FileLock(folder / LOCK_NAME, timeout=seconds, mode=rights, thread_local=False)
        lock.acquire()
    except Timeout:
        raise StoreError(
            "Slantwise is already open in another window; close it there first,"
            " or give another folder with --data."
        ) from None
    except (OSError, NotImplementedError) as error:
        raise StoreError(
            f"The folder {shown(folder)} cannot be written to ({_why(error)}); give another one with --data."
        ) from None
    return lock


def _rights_of_lock_file(path: Path) -> int:
    """Make the file if need be and return the rights it has; raises OSError where none can be made."""
    handle = private(str(path), os.O_RDWR | os.O_CREAT)
    try:
        return stat.S_IMODE(os.fstat(handle).st_mode)
    finally:
        os.close(handle)


def _why(error: OSError | NotImplementedError) -> str:
    if not isinstance(error, OSError):
        return "no locks there"
    # the folder is there, so it is the file that the system does not let in
    return "no files can be made there" if error.errno == errno.ENOENT else reason(error)
