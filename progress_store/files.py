"""What the store says when it cannot do what was asked."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from filelock import BaseFileLock


class StoreError(Exception):
    """One sentence that tells the person what to do."""


def shown(path: Path) -> str:
    """Return the path as text without control characters, fit for a terminal."""
    return "".join(sign if sign.isprintable() else "?" for sign in str(path))


def reason(error: OSError) -> str:
    """Return the system's short reason, such as "No space left on device"."""
    return error.strerror or type(error).__name__


def sync(handle: int) -> None:
    """Return once the bytes of an open file are on the disk; raises OSError."""
    if sys.platform == "darwin":
        import fcntl

        # fsync on macOS leaves the bytes in the drive's own cache
        with suppress(OSError):
            fcntl.fcntl(handle, fcntl.F_FULLFSYNC)
            return
    os.fsync(handle)


def sync_folder(folder: Path) -> None:
    """Return once the names in a folder are on the disk; raises OSError."""
    if os.name == "nt":  # there a folder cannot be opened, and need not be
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def replace_file(path: Path, content: bytes) -> None:
    """Replace a file so that a reader sees the old or the new and nothing between; raises OSError."""
    part = path.with_name(path.name + ".part")
    try:
        with part.open("wb") as file:
            file.write(content)
            file.flush()
            sync(file.fileno())
        part.replace(path)
    except OSError:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise
    sync_folder(path.parent)


def free_name(path: Path, word: str, ending: str) -> Path:
    """Return the first of STEM.WORD-1ENDING, STEM.WORD-2ENDING, ... beside a file that is not taken."""
    number = 1
    while (aside := path.with_name(f"{path.stem}.{word}-{number}{ending}")).exists():
        number += 1
    return aside


def move_aside(path: Path) -> Path:
    """Rename a damaged file beside itself and return its new path; raises OSError."""
    aside = free_name(path, "damaged", path.suffix)
    path.rename(aside)
    sync_folder(path.parent)
    return aside


NAME = "slantwise.lock"


class FolderLock:
    """The lock of a data folder, held from making until `release`; raises StoreError if another holds it."""

    def __init__(self, folder: Path) -> None:
        self._lock = _held(folder)

    def release(self) -> None:
        """Let another program in; a second call does nothing."""
        self._lock.release()


def _held(folder: Path) -> BaseFileLock:
    from filelock import FileLock, Timeout

    # not bound to a thread: a worker may close what the main thread opened
    lock = FileLock(folder / NAME, timeout=0, thread_local=False)
    try:
        lock.acquire()
    except Timeout:
        raise StoreError(
            "Slantwise is already open in another window; close it there first,"
            " or give another folder with --data."
        ) from None
    except (OSError, NotImplementedError) as error:
        why = reason(error) if isinstance(error, OSError) else "no locks there"
        raise StoreError(
            f"The folder {shown(folder)} cannot be written to ({why}); give another one with --data."
        ) from None
    return lock
