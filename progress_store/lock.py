"""One writing program at a time in a data folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from progress_store.errors import StoreError, reason, shown

if TYPE_CHECKING:
    from filelock import BaseFileLock

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
