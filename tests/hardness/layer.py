"""A layer over the file calls of this process: each call on one folder passes a watcher first."""

from __future__ import annotations

import builtins
import io
import os
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple
from unittest.mock import patch

try:
    import fcntl
except ImportError:  # a system with other locks
    fcntl = None  # type: ignore[assignment]


class Call(NamedTuple):
    """A call that changes the folder or sees to its being on the disk, not done yet.

    `path` and `target` are names in the folder, "" for the folder itself; `place` is a write's offset or a
    file's new length.
    """

    name: str
    path: str
    do: Callable[[], Any]
    target: str = ""
    place: int = 0
    data: bytes = b""


Watcher = Callable[[Call], Any]
"""Does the call, or something else in its place, and returns what the call returns."""


@contextmanager
def watched(folder: Path, watcher: Watcher) -> Iterator[None]:
    """Let the watcher see every call on the folder for a while."""
    layer = _Layer(folder, watcher)
    with (
        patch.object(os, "open", layer.open_handle),
        patch.object(os, "fsync", layer.fsync),
        patch.object(os, "rename", layer.over("rename", os.rename)),
        patch.object(os, "replace", layer.over("rename", os.replace)),
        patch.object(os, "unlink", layer.over("unlink", os.unlink)),
        patch.object(os, "mkdir", layer.over("mkdir", os.mkdir)),
        patch.object(os, "chmod", layer.over("chmod", os.chmod)),
        patch.object(builtins, "open", layer.open_file),
        patch.object(io, "open", layer.open_file),
        patch.object(fcntl, "flock", layer.flock) if fcntl else patch.object(os, "sep", os.sep),
    ):
        yield


class _Layer:
    def __init__(self, folder: Path, watcher: Watcher) -> None:
        self._folder, self.watcher = os.path.realpath(folder), watcher
        self._paths: dict[int, str] = {}
        self._open, self._open_file, self._fsync = os.open, builtins.open, os.fsync
        self._flock = fcntl.flock if fcntl else None

    def name_of(self, path: Any) -> str | None:
        """Return the name in the folder that a path leads to, None where it leads elsewhere."""
        text = path if isinstance(path, str) else os.fspath(path) if isinstance(path, Path) else ""
        if text == self._folder:
            return ""
        parent, name = os.path.split(text)
        return name if parent == self._folder else None

    def name_of_handle(self, handle: int) -> str | None:
        """Return the name of an open file in the folder; a handle may be of another file by now."""
        name = self._paths.get(handle)
        if name is None:
            return None
        is_folder = stat.S_ISDIR(os.fstat(handle).st_mode)
        return name if is_folder == (name == "") else None

    def over(self, name: str, call: Callable[..., Any]) -> Callable[..., Any]:
        def seen(path: Any, *more: Any, **named: Any) -> Any:
            known = self.name_of(path)
            if known is None:
                return call(path, *more, **named)
            target = (self.name_of(more[0]) or "") if name == "rename" else ""
            return self.watcher(Call(name, known, lambda: call(path, *more, **named), target))

        return seen

    def open_handle(self, path: Any, flags: int, *more: Any, **named: Any) -> int:
        known = self.name_of(path)
        if known is None:
            handle: int = self._open(path, flags, *more, **named)
            self._paths.pop(handle, None)
            return handle
        is_new = bool(flags & os.O_CREAT) and not os.path.lexists(path)
        kind = "create" if is_new else "empty" if flags & os.O_TRUNC else "open"
        handle = self.watcher(Call(kind, known, lambda: self._open(path, flags, *more, **named)))
        self._paths[handle] = known
        return handle

    def open_file(self, path: Any, mode: str = "r", buffering: int = -1, *more: Any, **named: Any) -> Any:
        known = None if isinstance(path, int) else self.name_of(path)
        if known is None or "b" not in mode or mode == "rb":
            return self._open_file(path, mode, buffering, *more, **named)
        raw = _Raw(self, known, os.fspath(path), mode.replace("b", ""), named.get("opener"))
        if buffering == 0:
            return raw
        return io.BufferedRandom(raw) if "+" in mode else io.BufferedWriter(raw)

    def fsync(self, handle: int) -> None:
        known = self.name_of_handle(handle)
        if known is None:
            return self._fsync(handle)
        name = "fsync" if known else "fsync folder"
        # to be on the disk takes long and is played here, not needed
        return self.watcher(Call(name, known, lambda: None))  # type: ignore[no-any-return]

    def flock(self, handle: int, how: int) -> None:
        known = self.name_of_handle(handle)
        if known is None or self._flock is None:
            return self._flock(handle, how) if self._flock else None
        real = self._flock
        return self.watcher(Call("flock", known, lambda: real(handle, how)))  # type: ignore[no-any-return]


class _Raw(io.FileIO):
    """An open file of the folder whose writes pass the watcher."""

    def __init__(self, layer: _Layer, known: str, path: str, mode: str, opener: Any) -> None:
        self._layer, self._known = layer, known
        super().__init__(path, mode, opener=opener or (lambda file, flags: os.open(file, flags, 0o666)))

    def write(self, data: Any) -> int:
        content = bytes(data)
        end = os.fstat(self.fileno()).st_size
        place = end if "a" in self.mode else self.tell()
        done = self._layer.watcher(
            Call("write", self._known, lambda: super(_Raw, self).write(content), place=place, data=content)
        )
        return int(done)

    def truncate(self, size: int | None = None) -> int:
        place = self.tell() if size is None else size
        done = self._layer.watcher(
            Call("truncate", self._known, lambda: super(_Raw, self).truncate(place), place=place)
        )
        return int(done)
