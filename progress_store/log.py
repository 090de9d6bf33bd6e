"""The log: one answered drill a line, only ever added to."""

from __future__ import annotations

import json
from collections.abc import Iterable
from contextlib import suppress
from io import FileIO
from pathlib import Path
from typing import Final

from progress_store.attempt import Attempt
from progress_store.errors import StoreError, reason, shown
from progress_store.files import free_name, sync, sync_folder
from progress_store.reading import LONGEST_LINE, Reading, new_digest, read_log

NAME: Final = "attempts.jsonl"


class Log:
    """The log of one data folder; `read` first, then `mend` and `append` if this program holds the lock."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / NAME
        self.length = 0
        self.digest = new_digest()

    def read(self) -> Reading:
        """Return what the log holds, nothing if there is none, and write nothing; raises StoreError."""
        reading = read_log(self.path)
        self.length, self.digest = reading.length, reading.digest
        return reading

    def mend(self, reading: Reading) -> None:
        """Put a torn end aside in a file of its own and close the last whole line; raises StoreError."""
        try:
            if self.path.exists():
                self.path.open("ab").close()  # refuses now what would refuse the first answer
            if reading.torn:
                self._put_torn_end_aside()
            if reading.open_ended:
                self._write(b"\n")
        except OSError as error:
            raise self._unwritable(error) from None

    def append(self, attempts: Iterable[Attempt]) -> None:
        """Write a line each; after this all are on the disk, or StoreError is raised and none is."""
        lines = [_line(attempt) for attempt in attempts]
        if any(len(line) > LONGEST_LINE for line in lines):
            raise StoreError("An attempt is too long for one line of the log; leave this attempt out.")
        try:
            # a program that keeps the folder in step may have put a log without its last line end here
            self._write(b"".join([b"\n" if _is_open_ended(self.path) else b"", *lines]))
        except OSError as error:
            raise self._unwritable(error) from None

    def _write(self, content: bytes) -> None:
        is_first = not self.path.exists()
        with self.path.open("ab", buffering=0) as file:
            _write_whole(file, content)
        if is_first:
            sync_folder(self.path.parent)
        self.digest.update(content)
        self.length += len(content)

    def _put_torn_end_aside(self) -> None:
        aside = free_name(self.path, "torn", ".txt")
        with self.path.open("r+b") as log:
            log.seek(self.length)
            with aside.open("xb") as file:
                while part := log.read(LONGEST_LINE):
                    file.write(part)
                file.flush()
                sync(file.fileno())
            sync_folder(aside.parent)
            log.truncate(self.length)
            sync(log.fileno())

    def _unwritable(self, error: OSError) -> StoreError:
        return StoreError(
            f"{shown(self.path)} cannot be written ({reason(error)});"
            " make room for it or give another folder with --data."
        )


def _write_whole(file: FileIO, content: bytes) -> None:
    """Write all of it to the disk or, on any failure, none of it."""
    before = file.seek(0, 2)
    try:
        rest = memoryview(content)
        while rest:
            rest = rest[file.write(rest) :]
        sync(file.fileno())
    except BaseException:
        with suppress(OSError):
            file.truncate(before)
        raise


def is_writable(attempt: Attempt) -> bool:
    """Whether an attempt fits into one line of a log."""
    return len(_line(attempt)) <= LONGEST_LINE


def _is_open_ended(path: Path) -> bool:
    """Whether a log ends in the middle of a line; raises OSError."""
    if not path.exists():
        return False
    with path.open("rb", buffering=0) as file:
        size = file.seek(0, 2)
        file.seek(max(0, size - 1))
        return file.read(1) not in (b"", b"\n")


def _line(attempt: Attempt) -> bytes:
    return json.dumps(attempt.to_json(), separators=(",", ":")).encode() + b"\n"
