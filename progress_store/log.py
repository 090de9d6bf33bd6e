"""The log of a data folder: read, mended, added to, and repaired."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import partial
from io import FileIO
from itertools import chain
from pathlib import Path
from shutil import copyfileobj
from typing import BinaryIO, Final

from progress_store.attempt import Attempt
from progress_store.files import (
    StoreError,
    free_name,
    opened,
    private,
    reason,
    replacing,
    shown,
    sync,
    sync_folder,
)
from progress_store.line import LONGEST_LINE, written
from progress_store.reading import Reading, new_digest, read_log

NAME: Final = "attempts.jsonl"
_BLOCK: Final = 1 << 20


class Log:
    """The log of one data folder; `read` first, then the rest if this program holds the lock."""

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
                self._write([b"\n"])
        except OSError as error:
            raise self._unwritable(error) from None

    def append(self, attempts: Iterable[Attempt]) -> None:
        """Write a line for each of them, one at least: all are on the disk then, or it raises StoreError."""
        lines = map(written, attempts)
        first = next(lines)  # refused before a file is made for it
        try:
            # a program that keeps the folder in step may have put a log without its last line end here
            end = [b"\n"] if _is_open_ended(self.path) else []
            self._write(chain(end, [first], lines))
        except OSError as error:
            raise self._unwritable(error) from None

    def repair(self, unreadable: Mapping[int, str]) -> Path:
        """Move the lines of these numbers to a file beside the log, each under why, and return its path.

        All others keep their bytes. Raises StoreError, with the log as it was.
        """
        aside = free_name(self.path, "unreadable", ".txt")
        try:
            with opened(self.path) as log, replacing(self.path) as kept:
                with open(aside, "xb", opener=private) as file:
                    digest, length = self._sort(log, kept, file, unreadable)
                    file.flush()
                    sync(file.fileno())
                sync_folder(aside.parent)
        except (OSError, StoreError) as error:
            with suppress(OSError):
                aside.unlink(missing_ok=True)
            raise (self._unwritable(error) if isinstance(error, OSError) else error) from None
        self.digest, self.length = digest, length
        return aside

    def _sort(
        self, log: BinaryIO, kept: BinaryIO, aside: BinaryIO, unreadable: Mapping[int, str]
    ) -> tuple[hashlib.blake2b, int]:
        """Write each line where it belongs and return hash and length of what is kept."""
        seen, digest, length = new_digest(), new_digest(), 0
        for number, piece, is_first in _pieces(log):
            seen.update(piece)
            if number not in unreadable:
                kept.write(piece)
                digest.update(piece)
                length += len(piece)
                continue
            if is_first:
                aside.write(f"Line {number}: {unreadable[number]}.\n".encode())
            aside.write(piece)
        if seen.digest() != self.digest.digest():
            raise StoreError(f"{shown(self.path)} was changed by another program meanwhile; start once more.")
        return digest, length

    def _write(self, content: Iterable[bytes]) -> None:
        is_first = not self.path.exists()
        digest, length = self.digest.copy(), self.length
        with open(self.path, "ab", buffering=0, opener=private) as file, _whole_or_nothing(file):
            for block in _blocks(content):
                rest = memoryview(block)
                while rest:
                    rest = rest[file.write(rest) :]
                digest.update(block)
                length += len(block)
            sync(file.fileno())
        if is_first:
            sync_folder(self.path.parent)
        self.digest, self.length = digest, length

    def _put_torn_end_aside(self) -> None:
        """Copy the torn end to a file named for its bytes and cut it off; a crash between adds no file."""
        with self.path.open("r+b") as log:
            log.seek(self.length)
            name = hashlib.file_digest(log, partial(hashlib.blake2b, digest_size=4)).hexdigest()
            aside = self.path.with_name(f"{self.path.stem}.torn-{name}.txt")
            log.seek(self.length)
            with replacing(aside) as file:
                copyfileobj(log, file)
            log.truncate(self.length)
            sync(log.fileno())

    def _unwritable(self, error: OSError) -> StoreError:
        return StoreError(
            f"{shown(self.path)} cannot be written ({reason(error)});"
            " make room for it or give another folder with --data."
        )


@contextmanager
def _whole_or_nothing(file: FileIO) -> Iterator[None]:
    """On any failure cut a file down to what it was."""
    before = file.seek(0, 2)
    try:
        yield
    except BaseException:
        with suppress(OSError):
            file.truncate(before)
        raise


def _blocks(lines: Iterable[bytes]) -> Iterator[bytes]:
    """Yield lines laid together, so that many are written without being held in memory at once."""
    block = bytearray()
    for line in lines:
        block += line
        if len(block) >= _BLOCK:
            yield bytes(block)
            block.clear()
    yield bytes(block)


def _pieces(log: BinaryIO) -> Iterator[tuple[int, bytes, bool]]:
    """Yield the bytes of a log with the number of their line and whether the line begins with them."""
    number, is_first = 1, True
    for piece in iter(partial(log.readline, LONGEST_LINE), b""):
        yield number, piece, is_first
        is_first = piece.endswith(b"\n")
        number += is_first


def _is_open_ended(path: Path) -> bool:
    """Whether a log ends in the middle of a line; raises OSError."""
    if not path.exists():
        return False
    with path.open("rb", buffering=0) as file:
        size = file.seek(0, 2)
        file.seek(max(0, size - 1))
        return file.read(1) not in (b"", b"\n")
