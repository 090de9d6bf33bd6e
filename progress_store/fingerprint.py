"""What tells whether a log is as it was left: a hash that grows with it, and what its file says of itself."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path
from typing import BinaryIO, Final, NamedTuple

BLOCK: Final = 1 << 20
"""How much of a log is hashed at a time."""


class LogHash:
    """The hash of a log, which can go on from its last whole MiB without what is before.

    Of each whole MiB the hash is a link that goes into the next one. `length` is in bytes.
    """

    def __init__(self, link: str = "", length: int = 0) -> None:
        self.link, self.length = link, length
        self._hash = _begun(link)

    def update(self, content: bytes) -> None:
        """Take in what follows."""
        rest = memoryview(content)
        while rest:
            part = rest[: BLOCK - self.length % BLOCK]
            rest = rest[len(part) :]
            self._hash.update(part)
            self.length += len(part)
            if self.length % BLOCK == 0:
                self.link = self._hash.hexdigest()
                self._hash = _begun(self.link)

    def hexdigest(self) -> str:
        """Return the hash of all so far."""
        return self._hash.hexdigest()

    def copy(self) -> LogHash:
        """Return one that goes on by itself."""
        other = LogHash(self.link, self.length)
        other._hash = self._hash.copy()
        return other


def _begun(link: str) -> hashlib.blake2b:
    return hashlib.blake2b(bytes.fromhex(link), digest_size=16)


def hash_on(digest: LogHash, file: BinaryIO, length: int) -> None:
    """Take into a hash what a file has from where it stands up to a length in bytes."""
    file.seek(digest.length)
    while digest.length < length and (block := file.read(min(length - digest.length, BLOCK))):
        digest.update(block)


class Stamp(NamedTuple):
    """What a file system says of a file whose content nobody has changed since."""

    size: int
    changed_ns: int
    number: int


def stamp_in(found: os.stat_result) -> Stamp:
    """Return the stamp in what the file system says of a file."""
    return Stamp(found.st_size, found.st_mtime_ns, found.st_ino)


def stamp_of(path: Path) -> Stamp | None:
    """Return the stamp of a file, None for one that is not there or cannot be reached."""
    try:
        return stamp_in(path.stat())
    except OSError:
        return None
