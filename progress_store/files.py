"""Files of a data folder, written so that nothing is lost: replaced whole, put aside when damaged."""

from __future__ import annotations

import errno
import json
import os
import stat
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from math import isfinite
from pathlib import Path
from typing import BinaryIO, Final, TypeVar

LARGEST_JSON_FILE: Final = 4 << 20

T = TypeVar("T")

DAMAGED: Final = (ValueError, TypeError, LookupError, AttributeError, ArithmeticError, RecursionError)
"""What the fields of a file may raise where they are not what was written."""


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


def opened(path: Path) -> BinaryIO:
    """Open a file to be read; raises OSError, also for what would never end, such as a pipe."""
    # without waiting: a pipe that nobody writes to would hold the program for ever
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise OSError(errno.EINVAL, "not a file")
    return open(handle, "rb")


def _finite(text: str) -> float:
    """Return a number of JSON; ValueError for what Python would read as infinite or as no number."""
    number = float(text)
    if not isfinite(number):
        raise ValueError("not a finite number")
    return number


def private(path: str, flags: int) -> int:
    """Open a file, made readable by nobody else if it is made: the `opener` of what is written."""
    return os.open(path, flags, 0o600)


@contextmanager
def replacing(path: Path) -> Iterator[BinaryIO]:
    """Give a file to be written that replaces this one at the end, in full and with its rights.

    On any failure the old one stays as it was; raises OSError. Of a link the file it leads to is replaced.
    """
    path = Path(os.path.realpath(path))
    part = path.with_name(path.name + ".part")
    try:
        with open(part, "wb", opener=private) as file:
            yield file
            file.flush()
            if path.exists() and os.name != "nt":
                part.chmod(stat.S_IMODE(path.stat().st_mode))
            sync(file.fileno())
        part.replace(path)
    except BaseException:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise
    sync_folder(path.parent)


def replace_file(path: Path, content: bytes) -> None:
    """Replace a file so that a reader sees the old or the new and nothing between; raises OSError."""
    with replacing(path) as file:
        file.write(content)


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


class JsonFile:
    """One JSON file; what is wrong with it is told as a sentence through `tell`.

    A file of a newer schema is left as it is; a damaged one is moved aside if this program may write.
    """

    def __init__(self, path: Path, schema: int, tell: Callable[[str], None], *, writable: bool) -> None:
        self._path, self._schema, self._tell, self._writable = path, schema, tell, writable

    @property
    def is_writable(self) -> bool:
        """Whether it is ours to write."""
        return self._writable

    def read(self, made: Callable[[dict[str, object]], T]) -> T | None:
        """Return what `made` makes of the fields; None if there is no file or none that can be used.

        `made` says with one of DAMAGED that the fields are.
        """
        try:
            fields = self._fields()
            if fields is None:
                return None
            if self._is_newer(fields):
                self._leave()
                return None
            return made(fields)
        except DAMAGED:
            self._put_aside()
        except OSError as error:
            self._tell(f"{shown(self._path)} cannot be read ({reason(error)}); make it readable.")
            self._writable = False
        return None

    def write(self, fields: Mapping[str, object]) -> None:
        """Replace the file by the fields under our schema, unless it is not ours to write; raises OSError."""
        if self._writable:
            replace_file(self._path, json.dumps({**fields, "schema": self._schema}).encode() + b"\n")

    def _fields(self) -> dict[str, object] | None:
        if not self._path.exists():
            return None
        with opened(self._path) as file:
            content = file.read(LARGEST_JSON_FILE + 1)
        if len(content) > LARGEST_JSON_FILE:
            raise ValueError("too large")
        fields = json.loads(content, parse_float=_finite, parse_constant=_finite)
        if not isinstance(fields, dict) or type(fields.get("schema")) is not int:
            raise ValueError("not an object with a schema")
        return fields

    def _is_newer(self, fields: dict[str, object]) -> bool:
        schema = fields["schema"]
        return isinstance(schema, int) and schema > self._schema

    def _leave(self) -> None:
        self._writable = False
        self._tell(
            f"{shown(self._path)} was written by a newer Slantwise and is left as it is; update this one."
        )

    def _put_aside(self) -> None:
        if not self._writable:
            return
        try:
            aside = move_aside(self._path)
        except OSError as error:
            self._writable = False
            self._tell(f"{shown(self._path)} is damaged ({reason(error)}); move it away yourself.")
        else:
            kept = shown(Path(aside.name))
            self._tell(f"{shown(self._path)} was damaged; it is kept as {kept} and is made anew.")
