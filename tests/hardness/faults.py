"""Disks that fail, fill up or may only be read, rights that are lost, a folder that is moved."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext, suppress
from functools import partial
from pathlib import Path
from typing import Any, Final

from progress_store import StoreError
from tests.hardness.layer import Call, watched
from tests.hardness.practising import (
    COPIED,
    OLD,
    TORN,
    UNREADABLE,
    keep,
    look_through,
    other_machine,
    practise,
    prepared,
)
from tests.hardness.tally import NotHereError, Trials
from tests.progress_store.making import attempt, store

NUMBERS: Final = (errno.ENOSPC, errno.EIO, errno.EACCES, errno.EROFS)
STEP: Final = 11
NOBODY: Final = 65534
ALREADY: Final = {each.id for each in (*OLD, *COPIED)}


def failing_call(trials: Trials) -> None:
    """Let each call fail once, or it and all after it, while practice goes on; then all is well again."""
    for lasting in (False, True):
        at, was_reached = 0, True
        while was_reached:
            number = NUMBERS[at % len(NUMBERS)]
            with trials.one(f"{errno.errorcode[number]} at call {at}{' and on' * lasting}") as place:
                was_reached = _fail(place, at, number, lasting)
            at += 1 if trials.long else STEP


def _fail(place: Path, at: int, number: int, lasting: bool) -> bool:
    """Practise with a call that fails, look through what is there then; return whether it came so far."""
    folder, there = place / "data", other_machine(place / "there")
    folder.mkdir()
    prepared(folder)
    done, said = 0, set(ALREADY)

    def watcher(call: Call) -> Any:
        nonlocal done
        if call.name == "flock":  # a lock that is not let go holds as long as this process lives
            return call.do()
        done += 1
        if done - 1 == at or (lasting and done > at):
            if call.name == "write":  # a full disk takes what still fits
                with suppress(OSError):
                    handle = os.open(folder / call.path, os.O_WRONLY)
                    os.pwrite(handle, call.data[: len(call.data) // 3], call.place)
            raise OSError(number, os.strerror(number))
        return call.do()

    with watched(folder, watcher):
        practise(folder, there, said.add)
    with watched(folder, lambda call: call.do()):
        look_through(folder, said, (UNREADABLE, TORN))
    return done > at


def answers_wait(trials: Trials) -> None:
    """Keep answers while nothing can be written: once it can, all are there, and in the order given."""
    for number in NUMBERS:
        with trials.one(errno.errorcode[number]) as folder:
            _keep_while(folder, partial(watched, folder, _refusing(number)))


def _refusing(number: int) -> Callable[[Call], Any]:
    def watcher(call: Call) -> Any:
        raise OSError(number, os.strerror(number))

    return watcher


def _keep_while(folder: Path, trouble: Callable[[], Any]) -> None:
    """Keep an answer, three in trouble, and two after it."""
    said: set[str] = set()
    with store(folder) as opened:
        keep(opened, attempt(0).id, said.add)
        with trouble():
            for each in range(1, 4):
                keep(opened, attempt(each).id, said.add)
        for each in (4, 5):
            keep(opened, attempt(each).id, said.add)
        if opened.waiting or len(said) != 6:
            raise RuntimeError(f"{opened.waiting} still wait, {len(said)} are kept")
    look_through(folder, said)


def folder_moved(trials: Trials) -> None:
    """Move the folder away and back; also put another one in its place meanwhile."""
    for how in ("away", "another in its place"):
        with trials.one(how) as place:
            folder = place / "data"

            @contextmanager
            def trouble(folder: Path = folder, how: str = how) -> Iterator[None]:
                folder.rename(folder.with_name("away"))
                if how != "away":
                    folder.touch()
                yield
                folder.unlink(missing_ok=True)
                folder.with_name("away").rename(folder)

            _keep_while(folder, trouble)


def rights_lost(trials: Trials) -> None:
    """Take the right to write from the log, from the folder, or from all in it."""
    if not hasattr(os, "seteuid"):
        raise NotHereError("rights are other ones here")
    with trials.one("all is loaded, which nobody may read") as place:
        _keep_where_it_can(place / "data", _nothing)
    trials.tried -= 1
    for names in (["data"], ["data/attempts.jsonl"], ["data", "data/attempts.jsonl", "data/state.json"]):
        with trials.one(", ".join(names)) as place, _as_nobody(place):

            @contextmanager
            def trouble(place: Path = place, names: list[str] = names) -> Iterator[None]:
                for name in names:
                    (place / name).chmod(0o500)
                yield
                for name in names:
                    (place / name).chmod(0o700)

            _keep_where_it_can(place / "data", trouble)


def _keep_where_it_can(folder: Path, trouble: Callable[[], Any]) -> None:
    """Keep answers, and open anew in trouble: what is said to be kept is there after it."""
    said: set[str] = set()
    with store(folder) as opened:
        for each in range(2):
            keep(opened, attempt(each).id, said.add)
        with trouble():
            keep(opened, attempt(2).id, said.add)
    with trouble(), suppress(StoreError), store(folder) as opened:
        keep(opened, attempt(3).id, said.add)
    with trouble(), store(folder, writable=False) as reader:
        if len(reader.attempts) < 2:
            raise RuntimeError("what may be read was not read")
    look_through(folder, said)


@contextmanager
def _as_nobody(place: Path) -> Iterator[None]:
    """Go on without the rights of root, in a folder that may be written to."""
    if os.geteuid() != 0:
        yield
        return
    os.chown(place, NOBODY, NOBODY)
    for above in place.parents:  # they must be passed through
        if not os.stat(above).st_mode & 0o001:
            raise NotHereError(f"{above} lets nobody else pass")
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


def full_disk(trials: Trials) -> None:
    """Practise on a disk of 64 KiB with so many bytes left, then with room again."""
    with trials.one("mount") as place, _mounted(place, "size=64k"):
        pass
    trials.tried -= 1
    for left in range(0, 12_289, 512 if trials.long else 4096):
        with trials.one(f"{left} bytes left") as place, _mounted(place, "size=64k"):
            folder, there = place / "data", other_machine(place / "there")
            folder.mkdir()
            prepared(folder)
            _fill(place / "filler", left)
            said = set(ALREADY)
            practise(folder, there, said.add)
            (place / "filler").unlink()
            look_through(folder, said, (UNREADABLE, TORN))


def _fill(path: Path, left: int) -> None:
    """Fill the disk but for so many bytes."""
    with suppress(OSError), path.open("wb", buffering=0) as file:
        while True:
            file.write(bytes(4096))
    size = path.stat().st_size
    os.truncate(path, max(0, size - left))


def read_only_disk(trials: Trials) -> None:
    """Make the disk one that is only read, before practice and in the middle of it."""
    for where in ("before", "amid"):
        with trials.one(where) as place, _mounted(place, "size=1m"):

            @contextmanager
            def trouble(place: Path = place) -> Iterator[None]:
                _mount("-o", "remount,ro", str(place))
                yield
                _mount("-o", "remount,rw", str(place))

            if where == "before":
                _keep_where_it_can(place / "data", _nothing)
                with trouble(), suppress(StoreError):
                    store(place / "data")
            else:
                _keep_open_disk(place, trouble)


def _nothing() -> AbstractContextManager[None]:
    return nullcontext()


def _keep_open_disk(place: Path, trouble: Callable[[], Any]) -> None:
    """Read while the disk is read-only, and write again after it."""
    said: set[str] = set()
    with store(place / "data") as opened:
        keep(opened, attempt(0).id, said.add)
    with trouble():
        with suppress(StoreError), store(place / "data"):
            raise RuntimeError("it was opened to write")
        with store(place / "data", writable=False) as reader:
            reader.record()
    with store(place / "data") as opened:
        keep(opened, attempt(1).id, said.add)
    look_through(place / "data", said)


@contextmanager
def _mounted(place: Path, options: str) -> Iterator[None]:
    _mount("-t", "tmpfs", "-o", options, "none", str(place))
    try:
        yield
    finally:
        subprocess.run(["umount", "-l", str(place)], capture_output=True, check=False)


def _mount(*words: str) -> None:
    if sys.platform != "linux" or os.geteuid() != 0:
        raise NotHereError("nothing may be mounted here")
    if subprocess.run(["mount", *words], capture_output=True, check=False).returncode:
        raise NotHereError("nothing can be mounted here")


LIMITED: Final = """
import resource, signal, sys
from functools import partial
from pathlib import Path
from tests.hardness.practising import practise
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), resource.RLIM_INFINITY))
practise(Path(sys.argv[2]) / "data", Path(sys.argv[2]) / "there", lambda word: print(word, flush=True))
"""


def file_size_limited(trials: Trials) -> None:
    """Let no file grow beyond so many bytes, then without that limit."""
    if os.name == "nt":
        raise NotHereError("no such limit")
    for most in range(900, 4500, 150 if trials.long else 1800):
        with trials.one(f"{most} bytes") as place:
            folder = place / "data"
            other_machine(place / "there")
            folder.mkdir()
            prepared(folder)
            words = [sys.executable, "-c", LIMITED, str(most), str(place)]
            done = subprocess.run(words, capture_output=True, text=True, check=False)
            if done.returncode:
                raise RuntimeError(done.stderr[-300:])
            look_through(folder, ALREADY | set(done.stdout.split()), (UNREADABLE, TORN))
