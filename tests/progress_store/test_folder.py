"""The data folder: how it is made, by whom it can be read, and its lock where things go wrong."""

from __future__ import annotations

import errno
import os
import sys
import threading
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from time import monotonic

import pytest
from filelock import BaseFileLock

from progress_store import Settings, StoreError, open_store
from tests.progress_store.logs import LOG, lines
from tests.progress_store.making import FLOORS, LATER, LEVELS, attempt, store


@pytest.fixture
def usual_mask() -> Iterator[None]:
    """Set the mask of new files that most systems have (common practice, no source)."""
    before = os.umask(0o022)
    yield
    os.umask(before)


def rights(path: Path) -> int:
    """Return who may do what with a file."""
    return path.stat().st_mode & 0o777


@pytest.mark.skipif(os.name == "nt", reason="rights are other ones there")
@pytest.mark.usefixtures("usual_mask")
def test_what_is_made_is_for_this_person_alone(tmp_path: Path) -> None:
    """Folder, log, state and its columns, settings, lock, and what is put aside."""
    folder = tmp_path / "new" / "data"
    with store(folder) as opened:
        opened.keep(attempt(0))
        opened.save_settings(Settings(minutes_a_day=9))
    with (folder / LOG).open("ab") as log:
        log.write(b'?\n{"schema":2,"i')
    with store(folder) as opened:
        opened.repair()
    assert rights(folder) == 0o700
    assert {rights(file) for file in folder.iterdir()} == {0o600}
    assert len(list(folder.iterdir())) == 7


@pytest.mark.skipif(os.name == "nt", reason="rights are other ones there")
@pytest.mark.usefixtures("usual_mask")
def test_what_is_there_keeps_its_rights(tmp_path: Path) -> None:
    """A folder that a group shares on purpose stays shared."""
    tmp_path.chmod(0o750)
    with store(tmp_path) as opened:
        opened.keep(attempt(0))
    for file in tmp_path.iterdir():
        file.chmod(0o640)
    with store(tmp_path) as opened:
        opened.keep(attempt(1))
    assert rights(tmp_path) == 0o750
    assert {rights(file) for file in tmp_path.iterdir()} == {0o640}


def test_each_new_folder_is_on_the_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A power cut after the first answer must not take the folder away."""
    synced: list[Path] = []
    monkeypatch.setattr("progress_store.folder.sync_folder", synced.append)
    store(tmp_path / "a" / "b" / "c").close()
    assert synced == [tmp_path, tmp_path / "a", tmp_path / "a" / "b"]
    store(tmp_path / "a" / "b" / "c").close()
    assert len(synced) == 3


def test_a_lock_that_cannot_be_let_go_costs_no_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A network disk may refuse it when the line is on the disk long since."""
    release = BaseFileLock.release

    def refused(lock: BaseFileLock, force: bool = False) -> None:
        release(lock, force)
        if not force:  # as a lock does by itself when it is thrown away
            raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

    with monkeypatch.context() as patched:
        patched.setattr(BaseFileLock, "release", refused)
        with store(tmp_path) as opened:
            opened.keep(attempt(0))
    assert (tmp_path / LOG).read_bytes().count(b"\n") == 1


@pytest.mark.skipif(sys.platform != "linux", reason="its folders of the system")
@pytest.mark.parametrize("folder", ["/proc", "/dev/null", "/dev/null/data", "/proc/data"])
def test_a_folder_of_the_system_is_refused_with_the_truth(folder: str) -> None:
    """It is not open in another window."""
    with pytest.raises(StoreError, match=r"is not a folder|cannot be written to|cannot be made") as refusal:
        store(Path(folder))
    assert "window" not in str(refusal.value)


@pytest.mark.parametrize("number", [errno.EROFS, errno.EACCES, errno.ENOENT])
def test_a_disk_that_lets_no_file_be_made_is_refused_with_the_truth(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    """Such as one that is mounted only to be read."""

    def refused(path: str, flags: int) -> int:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr("progress_store.folder.private", refused)
    with pytest.raises(StoreError, match=r"cannot be written to \([^)]+\); give another one with --data\.$"):
        store(tmp_path)


def test_the_lock_is_waited_for(tmp_path: Path) -> None:
    """So long and no longer; it is had as soon as the other lets it go."""
    first = store(tmp_path)
    begun = monotonic()
    with pytest.raises(StoreError, match="already open"):
        open_store(tmp_path, lambda: LATER, FLOORS, LEVELS, wait_seconds=0.2)
    assert monotonic() - begun >= 0.2
    threading.Timer(0.2, first.close).start()
    open_store(tmp_path, lambda: LATER, FLOORS, LEVELS, wait_seconds=20).close()


def test_copies_are_read_one_by_one_and_so_many_at_one_start(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is beyond waits for the next start, and nothing of it is lost."""
    size = len(lines([attempt(0)]))
    monkeypatch.setattr("progress_store.merge.LARGEST_COPY", 2 * size + size // 2)
    for number in range(5):
        (tmp_path / f"attempts ({number}).jsonl").write_bytes(lines([attempt(number)]))
    for had, waiting in ((2, "3 copies"), (4, "1 copy"), (5, None)):
        with store(tmp_path) as opened:
            assert len(opened.attempts) == had
            told = f"Left for the next start: {waiting} of the log."
            assert (told in opened.notices) == (waiting is not None)


def test_a_merge_that_stops_is_taken_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Though it is written in blocks: the log is as it was, and the next try finds all of it."""
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / LOG).write_bytes(lines(map(attempt, range(50))))

    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("progress_store.log._BLOCK", 1000)
    with store(tmp_path / "here") as here:
        here.keep(attempt(60))
        before = (tmp_path / "here" / LOG).read_bytes()
        with monkeypatch.context() as patched:
            patched.setattr("progress_store.log.sync", full)
            with suppress(StoreError):
                here.take_in(tmp_path / "there")
        assert (tmp_path / "here" / LOG).read_bytes() == before
        assert here.take_in(tmp_path / "there") == (50, 50)
    with store(tmp_path / "here") as again:
        assert (len(again.attempts), again.notices) == (51, ())
