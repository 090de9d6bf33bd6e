"""Reading a log: every whole line that is an attempt, and what else stands in it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from io import FileIO
from pathlib import Path
from typing import BinaryIO, Final, NamedTuple

from progress_store.attempt import SCHEMA, Attempt, AttemptSet
from progress_store.files import StoreError, free_name, opened, reason, shown, sync, sync_folder

LONGEST_LINE: Final = 64 * 1024
MOST_UNREADABLE: Final = 100_000
_BLOCK: Final = 1 << 20


def new_digest() -> hashlib.blake2b:
    """Return the hash of an empty log."""
    return hashlib.blake2b(digest_size=16)


@dataclass(slots=True)
class Reading:
    """What a log holds: attempts, each id once; lines that were not counted by number, from 1.

    `length` and `digest` cover the whole lines, in bytes; `torn`: more bytes follow that are no whole line;
    `open_ended`: the last whole line lacks its line end.
    """

    attempts: AttemptSet = field(default_factory=AttemptSet)
    unreadable: list[int] = field(default_factory=list)
    newer: list[int] = field(default_factory=list)
    length: int = 0
    digest: hashlib.blake2b = field(default_factory=new_digest)
    torn: bool = False
    open_ended: bool = False


def read_log(path: Path) -> Reading:
    """Return what a log holds, nothing if there is none; raises StoreError if it is no file or unreadable.

    Unreadable is also what has more than 100,000 lines that are no attempts.
    """
    reading = Reading()
    try:
        if path.exists():
            _refuse_other_things(path)
            with opened(path) as file:
                _read_lines(file, path, reading)
    except OSError as error:
        raise StoreError(
            f"{shown(path)} cannot be read ({reason(error)});"
            " make it readable or give another folder with --data."
        ) from None
    return reading


def _refuse_other_things(path: Path) -> None:
    if not path.is_file():
        raise StoreError(f"{shown(path)} is not a file; move it away or give another folder with --data.")


def _read_lines(file: BinaryIO, path: Path, reading: Reading) -> None:
    lines = _lines(file)
    following = next(lines, None)
    number = 0
    while (line := following) is not None:
        following = next(lines, None)
        number += 1
        fields = _fields(line.head)
        if fields is None and following is None:
            reading.torn = True
            break
        reading.length += line.size
        reading.open_ended = not line.ended
        _count(fields, number, reading)
        if len(reading.unreadable) > MOST_UNREADABLE:
            raise StoreError(f"{shown(path)} is not a log; move it away.")
    reading.digest = _digest(file, reading.length)


class _Line(NamedTuple):
    head: bytes
    size: int
    ended: bool


def _lines(file: BinaryIO) -> Iterator[_Line]:
    """Yield each line; of one that is too long only the head is kept, which `_fields` refuses."""
    while head := file.readline(LONGEST_LINE + 1):
        size, piece = len(head), head
        while not piece.endswith(b"\n") and (more := file.readline(LONGEST_LINE)):
            size, piece = size + len(more), more
        yield _Line(head, size, piece.endswith(b"\n"))


def _digest(file: BinaryIO, length: int) -> hashlib.blake2b:
    digest = new_digest()
    file.seek(0)
    while length > 0 and (block := file.read(min(length, _BLOCK))):
        digest.update(block)
        length -= len(block)
    return digest


def _fields(line: bytes) -> dict[str, object] | None:
    if len(line) > LONGEST_LINE:
        return None
    try:
        fields = json.loads(line)
    except (ValueError, RecursionError):
        return None
    return fields if isinstance(fields, dict) else None


def _count(fields: dict[str, object] | None, number: int, reading: Reading) -> None:
    schema = fields.get("schema") if fields is not None else None
    if type(schema) is int and schema > SCHEMA:
        reading.newer.append(number)
        return
    try:
        reading.attempts.add(Attempt.from_json(fields or {}))
    except StoreError:
        reading.unreadable.append(number)


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
