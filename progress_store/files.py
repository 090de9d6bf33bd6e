"""Writing that survives a power cut: bytes and names reach the disk before a call returns."""

import os
import sys
from contextlib import suppress
from pathlib import Path


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
