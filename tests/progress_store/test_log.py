import errno
import json
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from progress_store import LONGEST_LINE, Log, StoreError
from progress_store.reading import Reading
from tests.progress_store.logs import newer
from tests.progress_store.making import attempt, store

LINES = [json.dumps(attempt(number).to_json()).encode() + b"\n" for number in range(3)]


def written(folder: Path, *parts: bytes) -> Path:
    """Write a log of these bytes and return its path."""
    folder.mkdir(exist_ok=True)
    path = folder / "attempts.jsonl"
    path.write_bytes(b"".join(parts))
    return path


def torn_ends(folder: Path) -> list[Path]:
    """Return the files in which torn ends were put aside."""
    return sorted(folder.glob("attempts.torn-*.txt"))


def test_attempts_are_added_a_line_each_and_read_back(tmp_path: Path) -> None:
    """The log only grows, and a second reading finds what was kept."""
    with store(tmp_path) as first:
        first.keep(attempt(0))
        before = (tmp_path / "attempts.jsonl").read_bytes()
        first.keep(attempt(1))
    assert (tmp_path / "attempts.jsonl").read_bytes().startswith(before)
    with store(tmp_path) as second:
        assert second.attempts == (attempt(0), attempt(1))
        assert second.notices == ()


@pytest.mark.parametrize("end", [LINES[2][:50], LINES[2][:-2], b"\x00" * 4096])
def test_a_torn_end_is_put_aside_and_told(tmp_path: Path, end: bytes) -> None:
    """Half a line left by a power cut is kept in a file of its own, and practice goes on."""
    path = written(tmp_path, *LINES[:2], end)
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(0), attempt(1))
        assert len(opened.notices) == 1
        assert "torn" in opened.notices[0]
        opened.keep(attempt(5))
    assert [file.read_bytes() for file in torn_ends(tmp_path)] == [end]
    assert path.read_bytes().startswith(b"".join(LINES[:2]))
    with store(tmp_path) as again:
        assert [each.id for each in again.attempts] == [attempt(n).id for n in (0, 1, 5)]
        assert again.notices == ()


@pytest.mark.parametrize("is_finished", [True, False])
def test_a_line_that_is_being_written_is_not_told_as_torn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, is_finished: bool
) -> None:
    """A reader looks once more where the log has changed meanwhile; where it has not, the line is torn."""
    path, half = written(tmp_path, LINES[0], LINES[1][:40]), LINES[1][40:]
    read_once = Log.read

    def writing(log: Log) -> Reading:
        reading = read_once(log)
        if is_finished and reading.torn:
            with path.open("ab") as file:
                file.write(half)
        return reading

    monkeypatch.setattr(Log, "read", writing)
    with store(tmp_path, writable=False) as reader:
        assert len(reader.attempts) == 1 + is_finished
        assert ["was torn" in notice for notice in reader.notices] == [True] * (not is_finished)


def test_a_second_torn_end_has_a_file_of_its_own(tmp_path: Path) -> None:
    """What was put aside before is not written over."""
    for half in (b"{one", b"{two"):
        written(tmp_path, LINES[0], half)
        store(tmp_path).close()
    assert {file.read_bytes() for file in torn_ends(tmp_path)} == {b"{one", b"{two"}


def test_a_torn_end_is_put_aside_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Also where the power fails between putting it aside and cutting it off."""

    def cut(handle: int) -> None:
        raise OSError(errno.EIO, "Input/output error")

    path = written(tmp_path, LINES[0], b"{one")
    with monkeypatch.context() as patched:
        patched.setattr("progress_store.log.sync", cut)
        with pytest.raises(StoreError, match="cannot be written"):
            store(tmp_path)
    path.write_bytes(LINES[0] + b"{one")
    store(tmp_path).close()
    assert [file.read_bytes() for file in torn_ends(tmp_path)] == [b"{one"]
    assert path.read_bytes() == LINES[0]


def test_a_whole_last_line_without_its_end_is_kept(tmp_path: Path) -> None:
    """An editor that drops the last line end costs nobody an attempt."""
    written(tmp_path, LINES[0], LINES[1].rstrip())
    with store(tmp_path) as opened:
        opened.keep(attempt(2))
    with store(tmp_path) as again:
        assert again.attempts == (attempt(0), attempt(1), attempt(2))
        assert again.notices == ()


@pytest.mark.parametrize(
    "bad", [b"garbage\n", b"{}\n", b"[" * 60_000 + b"\n", b"x" * (3 * LONGEST_LINE) + b"\n"]
)
def test_a_bad_line_in_the_middle_stays_and_is_told_by_number(tmp_path: Path, bad: bytes) -> None:
    """What cannot be read is skipped, not removed."""
    path = written(tmp_path, LINES[0], bad, LINES[1])
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(0), attempt(1))
        assert len(opened.notices) == 1
        assert "line 2;" in opened.notices[0]
    assert path.read_bytes() == LINES[0] + bad + LINES[1]


def test_many_bad_lines_make_one_sentence(tmp_path: Path) -> None:
    """A damaged log does not flood the screen."""
    written(tmp_path, *[b"?\n"] * 20, LINES[0])
    with store(tmp_path, writable=False) as opened:
        assert len(opened.notices) == 1
        assert "lines 1, 2, 3, 4, 5 and 15 more;" in opened.notices[0]


def test_a_newer_line_makes_the_log_not_ours_to_write(tmp_path: Path) -> None:
    """A log of a newer program is refused in one sentence and stays byte for byte."""
    path = written(tmp_path, LINES[0], newer())
    with pytest.raises(StoreError, match="newer Slantwise"):
        store(tmp_path)
    assert path.read_bytes() == LINES[0] + newer()
    assert sorted(file.name for file in tmp_path.iterdir() if file.suffix != ".lock") == ["attempts.jsonl"]
    with store(tmp_path, writable=False) as reader:
        assert reader.attempts == (attempt(0),)
        assert "line 2" in reader.notices[0]


def test_an_attempt_that_stands_twice_counts_once(tmp_path: Path) -> None:
    """Two copies of a log laid together by hand do no harm."""
    written(tmp_path, *LINES, *LINES)
    with store(tmp_path) as opened:
        assert len(opened.attempts) == 3
        with pytest.raises(StoreError, match="in the log already"):
            opened.keep(attempt(1))


def test_an_append_that_fails_leaves_the_log_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk is told in one sentence, and the next attempt starts on a line of its own."""

    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with store(tmp_path) as opened:
        opened.keep(attempt(0))
        before = (tmp_path / "attempts.jsonl").read_bytes()
        with monkeypatch.context() as patched:
            patched.setattr("progress_store.log.sync", full)
            with pytest.raises(StoreError, match="No space left on device"):
                opened.keep(attempt(1))
        assert (tmp_path / "attempts.jsonl").read_bytes() == before
        assert len(opened.attempts) == 1
        opened.keep_rest()
        assert [each.id for each in opened.attempts] == [attempt(0).id, attempt(1).id]


def test_an_attempt_too_long_for_a_line_is_refused(tmp_path: Path) -> None:
    """A line that could not be read back is not written."""
    with store(tmp_path) as opened, pytest.raises(StoreError, match="too long"):
        opened.keep(attempt(other={"note": "x" * LONGEST_LINE}))
    assert not (tmp_path / "attempts.jsonl").exists()


def test_a_folder_in_place_of_the_log_is_refused(tmp_path: Path) -> None:
    """Only a file is read."""
    (tmp_path / "attempts.jsonl").mkdir()
    with pytest.raises(StoreError, match="is not a file"):
        Log(tmp_path).read()


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.sampled_from(LINES) | st.binary(max_size=40).map(lambda line: line + b"\n")),
    st.binary(max_size=60),
)
def test_no_byte_is_ever_lost(tmp_path: Path, lines: list[bytes], end: bytes) -> None:
    """Whatever a log holds, all of it is still in the log or in what was put aside."""
    for file in tmp_path.iterdir():
        file.unlink()
    content = b"".join(lines) + end
    path = written(tmp_path, content)
    with suppress(StoreError):  # of a file that is none of ours, which then stays as it is
        store(tmp_path).close()
    kept = path.read_bytes() + b"".join(aside.read_bytes() for aside in torn_ends(tmp_path))
    assert kept in (content, content + b"\n")
