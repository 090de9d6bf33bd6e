"""The log without its unreadable lines, which are kept beside it."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from progress_store import LONGEST_LINE, StoreError
from tests.progress_store.logs import LOG, checked, lines, names, newer
from tests.progress_store.making import attempt, store

LONG = b"x" * (3 * LONGEST_LINE) + b"\n"
DAMAGED = checked([attempt(7)]).replace(b"true", b"false")
MISFIT = lines([attempt(8)]).replace(b'"level": 1', b'"level": -1')
KEPT = [
    lines([attempt(0)]).replace(b", ", b",  "),
    checked([attempt(1)]),
    checked([attempt(2)])[:-1] + b"\r\n",
]
LOG_BYTES = KEPT[0] + b"garbage\n" + DAMAGED + KEPT[1] + LONG + newer() + MISFIT + KEPT[2]
ASIDE = (
    b"Line 2: It is no JSON object.\ngarbage\n"
    b"Line 3: The check sum does not fit.\n" + DAMAGED + b"Line 5: It is too long.\n" + LONG
    + b"Line 6: A newer Slantwise wrote it.\n" + newer()
    + b'Line 7: The field "level" of an attempt does not fit.\n' + MISFIT
)  # fmt: skip


def test_unreadable_lines_are_put_aside_and_ours_keep_their_bytes(tmp_path: Path) -> None:
    """Each with its number and why; the next start has nothing to tell."""
    (tmp_path / LOG).write_bytes(LOG_BYTES)
    with store(tmp_path) as opened:
        repaired = opened.repair()
        assert repaired is not None
        assert (repaired.aside.name, sorted(repaired.unreadable)) == (
            "attempts.unreadable-1.txt",
            [2, 3, 5, 6, 7],
        )
        assert opened.notices == ()
        assert opened.repair() is None
        opened.keep(attempt(3))
    assert (tmp_path / LOG).read_bytes() == b"".join(KEPT) + checked([attempt(3)])
    assert repaired.aside.read_bytes() == ASIDE
    with store(tmp_path) as again:
        assert (again.attempts, again.notices) == (tuple(map(attempt, range(4))), ())


def test_a_repair_that_fails_leaves_all_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk; also another program that changed the log meanwhile."""

    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    (tmp_path / LOG).write_bytes(LOG_BYTES)
    with store(tmp_path) as opened:
        for where in ("log", "files"):
            with monkeypatch.context() as patched:
                patched.setattr(f"progress_store.{where}.sync", full)
                with pytest.raises(StoreError, match="No space left"):
                    opened.repair()
            assert (tmp_path / LOG).read_bytes() == LOG_BYTES
        (tmp_path / LOG).write_bytes(LOG_BYTES + checked([attempt(9)]))
        with pytest.raises(StoreError, match="changed by another program"):
            opened.repair()
    assert (tmp_path / LOG).read_bytes() == LOG_BYTES + checked([attempt(9)])
    assert names(tmp_path) == {LOG}


def test_a_repair_that_fails_when_the_log_is_replaced_keeps_what_it_put_aside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The folder cannot be synced any more: the lines are in no other file by then."""

    def failed(folder: Path) -> None:
        raise OSError(errno.EIO, os.strerror(errno.EIO))

    (tmp_path / LOG).write_bytes(LOG_BYTES)
    with store(tmp_path) as opened:
        monkeypatch.setattr("progress_store.files.sync_folder", failed)
        with pytest.raises(StoreError, match="cannot be written"):
            opened.repair()
    assert (tmp_path / LOG).read_bytes() == b"".join(KEPT)
    assert (tmp_path / "attempts.unreadable-1.txt").read_bytes() == ASIDE


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_log_that_is_a_link_stays_one(tmp_path: Path) -> None:
    """The file it leads to is repaired, with its rights."""
    (tmp_path / "real.jsonl").write_bytes(LOG_BYTES)
    (tmp_path / "real.jsonl").chmod(0o640)
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / LOG).symlink_to(tmp_path / "real.jsonl")
    with store(tmp_path / "data") as opened:
        opened.repair()
    assert (tmp_path / "data" / LOG).is_symlink()
    assert (tmp_path / "real.jsonl").read_bytes() == b"".join(KEPT)
    assert (tmp_path / "real.jsonl").stat().st_mode & 0o777 == 0o640
