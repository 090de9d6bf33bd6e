"""The log of a data folder: read, mended, added to, and repaired."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import partial
from io import FileIO
from itertools import accumulate, chain
from mmap import ACCESS_READ, mmap
from os.path import samestat
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
from progress_store.fingerprint import BLOCK, LogHash, Stamp, hash_on, stamp_in, stamp_of
from progress_store.line import LONGEST_LINE, read, written
from progress_store.reading import Reading, read_log

NAME: Final = "attempts.jsonl"
_BLOCK: Final = 1 << 20


class Log:
    """The log of one data folder; `read` first, then the rest if this program holds the lock."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / NAME
        self.digest = LogHash()
        self._stamp: Stamp | None = None

    @property
    def length(self) -> int:
        """How many bytes of it are known, all of them whole lines."""
        return self.digest.length

    @property
    def stamp(self) -> Stamp | None:
        """What tells that nobody has touched it since, None where somebody else did since it was read."""
        return self._stamp

    def read(self) -> Reading:
        """Return what the log holds, nothing if there is none, and write nothing; raises StoreError."""
        self._stamp = stamp_of(self.path)
        reading = read_log(self.path)
        self.digest = reading.digest
        return reading

    def go_on(self, link: str, length: int, told: str, stamp: Stamp | None) -> bool:
        """Take up what was known of it; return whether it begins with so many bytes of that hash.

        Untouched by its stamp, only what follows the last link is hashed, else all. Raises OSError.
        """
        self._stamp = stamp_of(self.path)
        untouched = stamp is not None and stamp == self._stamp and stamp.size == length
        digest = LogHash(link, length - length % BLOCK) if untouched else LogHash()
        if self.path.exists():
            with opened(self.path) as file:
                hash_on(digest, file, length)
        if (digest.length, digest.hexdigest()) != (length, told):
            return False
        self.digest = digest
        return True

    def rest(self, most: int) -> list[tuple[int, Attempt]] | None:
        """Return the attempts after what is known, each with where its line begins; they are known then.

        None where any of it is no whole line of an attempt with a new id, or there are more than so many.
        Raises OSError.
        """
        if self._stamp is None or self._stamp.size == self.length:
            return []
        with opened(self.path) as file:
            file.seek(self.length)
            rest = file.read(most * LONGEST_LINE + 1)
        lines = rest.splitlines(keepends=True)
        if not rest.endswith(b"\n") or len(lines) > most:
            return None
        starts = accumulate(map(len, lines[:-1]), initial=self.length)
        attempts = [each for line in lines if isinstance(each := read(line), Attempt)]
        ids = {attempt.id for attempt in attempts}
        if len(ids) < len(lines) or any(map(self.mentions, ids)):
            return None
        self.digest.update(rest)
        return list(zip(starts, attempts, strict=True))

    def attempts_at(self, starts: Iterable[int]) -> list[Attempt]:
        """Return the attempts whose lines begin at these bytes; raises StoreError where none does."""
        found = []
        try:
            with opened(self.path) as file:
                for start in starts:
                    file.seek(start)
                    found.append(read(file.readline(LONGEST_LINE + 1)))
        except OSError as error:
            raise StoreError(
                f"{shown(self.path)} cannot be read ({reason(error)}); make it readable."
            ) from None
        attempts = [each for each in found if isinstance(each, Attempt)]
        if len(attempts) < len(found):
            raise StoreError(f"{shown(self.path)} was changed by another program; start once more.")
        return attempts

    def mentions(self, identity: str) -> bool:
        """Whether a line that is known may be the attempt of an id; raises OSError."""
        if not self.length:
            return False
        with opened(self.path) as file, mmap(file.fileno(), self.length, access=ACCESS_READ) as content:
            return content.find(json.dumps(identity).encode()) >= 0

    def is_untouched(self) -> bool:
        """Whether nobody else changed it since it was read; also if it is away, which writing will tell."""
        now = stamp_of(self.path)
        return now is None or now == self._stamp

    def mend(self, reading: Reading) -> None:
        """Put a torn end aside in a file of its own and close the last whole line; raises StoreError."""
        self.refuse_unwritable()
        try:
            if reading.torn:
                self._put_torn_end_aside()
            if reading.open_ended:
                self._write([b"\n"])
        except OSError as error:
            raise self._unwritable(error) from None

    def refuse_unwritable(self) -> None:
        """Raise StoreError now for what would refuse the first answer."""
        try:
            if self.path.exists():
                self.path.open("ab").close()
        except OSError as error:
            raise self._unwritable(error) from None

    def append(self, attempts: Iterable[Attempt]) -> list[int]:
        """Write a line for each of them, one at least: all are on the disk then, or it raises StoreError.

        Returns at which byte each line begins.
        """
        lines = map(written, attempts)
        first = next(lines)  # refused before a file is made for it
        starts = list[int]()
        try:
            # a program that keeps the folder in step may have put a log without its last line end here
            end = [b"\n"] if _is_open_ended(self.path) else []
            begin = self.length + len(end)
            self._write(chain(end, _noted(chain([first], lines), begin, starts)))
        except OSError as error:
            raise self._unwritable(error) from None
        return starts

    def repair(self, unreadable: Mapping[int, str]) -> Path:
        """Move the lines of these numbers to a file beside the log, each under why, and return its path.

        All others keep their bytes. Raises StoreError, and no line is in neither file then.
        """
        aside = free_name(self.path, "unreadable", ".txt")
        try:
            before = self.path.stat()
        except OSError as error:
            raise self._unwritable(error) from None
        try:
            with opened(self.path) as log, replacing(self.path) as kept:
                with open(aside, "xb", opener=private) as file:
                    digest = self._sort(log, kept, file, unreadable)
                    file.flush()
                    sync(file.fileno())
                sync_folder(aside.parent)
        except (OSError, StoreError) as error:
            with suppress(OSError):
                if samestat(before, self.path.stat()):  # else the lines are nowhere but there
                    aside.unlink(missing_ok=True)
            raise (self._unwritable(error) if isinstance(error, OSError) else error) from None
        self.digest, self._stamp = digest, stamp_of(self.path)
        return aside

    def _sort(self, log: BinaryIO, kept: BinaryIO, aside: BinaryIO, unreadable: Mapping[int, str]) -> LogHash:
        """Write each line where it belongs and return the hash of what is kept."""
        seen, digest = LogHash(), LogHash()
        for number, piece, is_first in _pieces(log):
            seen.update(piece)
            if number not in unreadable:
                kept.write(piece)
                digest.update(piece)
                continue
            if is_first:
                aside.write(f"Line {number}: {unreadable[number]}.\n".encode())
            aside.write(piece)
        if seen.hexdigest() != self.digest.hexdigest():
            raise StoreError(f"{shown(self.path)} was changed by another program meanwhile; start once more.")
        return digest

    def _write(self, content: Iterable[bytes]) -> None:
        is_first = not self.path.exists()
        digest = self.digest.copy()
        with open(self.path, "ab", buffering=0, opener=private) as file, _whole_or_nothing(file):
            untouched = stamp_in(os.fstat(file.fileno())) == self._stamp or (is_first and not self.length)
            for block in _blocks(content):
                rest = memoryview(block)
                while rest:
                    rest = rest[file.write(rest) :]
                digest.update(block)
            sync(file.fileno())
            stamp = stamp_in(os.fstat(file.fileno()))
        if is_first:
            sync_folder(self.path.parent)
        self.digest, self._stamp = digest, stamp if untouched else None

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
        self._stamp = stamp_of(self.path)

    def _unwritable(self, error: OSError) -> StoreError:
        return StoreError(
            f"{shown(self.path)} cannot be written ({reason(error)});"
            " make room for it or give another folder with --data."
        )


def _noted(lines: Iterable[bytes], start: int, starts: list[int]) -> Iterator[bytes]:
    """Yield lines that will stand from a byte on, and note where each begins."""
    for line in lines:
        starts.append(start)
        start += len(line)
        yield line


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
