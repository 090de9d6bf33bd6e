"""Files that have the name of a log and are none of ours, and ends that are torn."""

from __future__ import annotations

from pathlib import Path

import pytest

from progress_store import StoreError
from tests.progress_store.logs import LOG, checked, lines, names, newer
from tests.progress_store.making import attempt, store

FOREIGN = [
    b'{"student": 1, "mark": 2}\n{"student": 2}\nthe end',
    b"just notes\n",
    b"{torn",
    b"\x89PNG\r\n\x1a\n\0",
]


@pytest.mark.parametrize("content", FOREIGN)
@pytest.mark.parametrize("writable", [True, False])
def test_a_foreign_file_is_refused_and_never_changed(tmp_path: Path, content: bytes, writable: bool) -> None:
    """Not even its last line is cut off."""
    (tmp_path / LOG).write_bytes(content)
    for _ in range(2):
        with pytest.raises(StoreError, match=r"^[^.]*attempts\.jsonl has no line of [^.]*--data\.$"):
            store(tmp_path, writable=writable)
    assert (tmp_path / LOG).read_bytes() == content
    assert names(tmp_path) == {LOG}


@pytest.mark.parametrize("content", FOREIGN)
def test_a_foreign_file_with_the_name_of_a_copy_is_left_alone(tmp_path: Path, content: bytes) -> None:
    """Neither renamed nor told."""
    exam = tmp_path / "attempts_exam.jsonl"
    exam.write_bytes(content)
    with store(tmp_path) as opened:
        opened.keep(attempt(0))
        assert opened.notices == ()
    assert exam.read_bytes() == content
    assert names(tmp_path) == {LOG, exam.name}


def test_a_foreign_file_is_not_merged(tmp_path: Path) -> None:
    """The refusal names it."""
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / LOG).write_bytes(FOREIGN[0])
    with store(tmp_path / "here") as here, pytest.raises(StoreError, match="has no line of"):
        here.take_in(tmp_path / "there")


TORN = [b"{", b'{"sch', checked([attempt(0)])[:40], lines([attempt(0)])[:40], bytes(4096)]


@pytest.mark.parametrize("end", TORN)
def test_a_log_that_is_only_a_torn_line_of_ours_goes_on(tmp_path: Path, end: bytes) -> None:
    """The power failed in the first answer: the piece is put aside once."""
    (tmp_path / LOG).write_bytes(end)
    for told in (1, 0):
        with store(tmp_path) as opened:
            assert len(opened.notices) == told
    (aside,) = tmp_path.glob("attempts.torn-*.txt")
    assert aside.read_bytes() == end
    assert names(tmp_path) == {LOG, aside.name}


@pytest.mark.parametrize("content", [b"", b"\n", checked([attempt(0)]).replace(b"true", b"false"), newer()])
def test_what_is_ours_or_empty_is_not_foreign(tmp_path: Path, content: bytes) -> None:
    """An only line that is damaged, or newer, is still one of Slantwise's."""
    (tmp_path / LOG).write_bytes(content)
    with store(tmp_path, writable=False) as reader:
        assert reader.attempts == ()


def test_whole_lines_at_the_end_are_not_cut_off_one_at_each_start(tmp_path: Path) -> None:
    """Only what has no line end is torn."""
    content = checked([attempt(0)]) + b"note\n" * 3
    (tmp_path / LOG).write_bytes(content)
    for _ in range(3):
        store(tmp_path).close()
    assert (tmp_path / LOG).read_bytes() == content
    assert names(tmp_path) == {LOG}
