"""Reading a log: every whole line that is an attempt, and what else stands in it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO, Final, NamedTuple

from progress_store.attempt import SCHEMA, Attempt
from progress_store.errors import StoreError, reason, shown
from progress_store.gathered import Gathered

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

    attempts: Gathered = field(default_factory=Gathered)
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
            with path.open("rb") as file:
                _read_lines(file, reading)
    except OSError as error:
        raise StoreError(
            f"{shown(path)} cannot be read ({reason(error)});"
            " make it readable or give another folder with --data."
        ) from None
    return reading


def _refuse_other_things(path: Path) -> None:
    if not path.is_file():
        raise StoreError(f"{shown(path)} is not a file; move it away or give another folder with --data.")


def _read_lines(file: BinaryIO, reading: Reading) -> None:
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
            raise StoreError(f"{shown(Path(file.name))} is not a log; move it away.")
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
