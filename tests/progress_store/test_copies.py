"""Copies of the log beside it, as they lie in a folder that is kept in step."""

from __future__ import annotations

import errno
import json
import os
from pathlib import Path
from typing import Any

import pytest

from progress_store import LARGEST_COPY, LONGEST_LINE, Settings, State, StoreError, is_copy
from tests.progress_store.logs import COPIES, LOG, checked, lines, names, newer, written
from tests.progress_store.making import RULES, attempt, store

NO_COPIES = [
    "attempts.jsonl",
    "attempts.torn-0123abcd.txt",
    "taken-in-attempts (1).jsonl",
    "state.json",
    "my attempts.jsonl",
]


@pytest.mark.parametrize("name", COPIES)
def test_a_copy_beside_the_log_is_taken_in_and_kept_under_another_name(tmp_path: Path, name: str) -> None:
    """Whatever was put into its name; its attempts are in the log, its bytes stay as they were."""
    written(tmp_path, [attempt(0), attempt(1), attempt(4)])
    content = written(tmp_path, [attempt(1), attempt(2), attempt(3)], name).read_bytes()
    with store(tmp_path) as opened:
        assert opened.attempts == tuple(map(attempt, range(5)))
        assert opened.state == State.of(opened.attempts, RULES)
        assert opened.notices == (
            'Took in 2 answers from 1 copy of the log; what is taken in is kept with "taken-in-"'
            " before its name.",
        )
    assert names(tmp_path) == {LOG, f"taken-in-{name}"}
    assert (tmp_path / f"taken-in-{name}").read_bytes() == content
    assert (tmp_path / LOG).read_bytes().count(b"\n") == 5
    with store(tmp_path) as again:
        assert (len(again.attempts), again.notices) == (5, ())


@pytest.mark.parametrize("name", NO_COPIES)
def test_other_names_are_no_copies(name: str) -> None:
    """The log itself, what was put aside, and files that begin or end otherwise."""
    assert not is_copy(name, Path(LOG))
    assert all(is_copy(copy, Path(LOG)) for copy in COPIES)


def test_a_log_that_was_renamed_away_comes_back(tmp_path: Path) -> None:
    """Copies alone, with no log between them."""
    written(tmp_path, [attempt(0), attempt(1)], COPIES[0])
    written(tmp_path, [attempt(1), attempt(2)], COPIES[1])
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(0), attempt(1), attempt(2))
        assert "Took in 3 answers from 2 copies of the log;" in opened.notices[0]
    assert names(tmp_path) == {LOG, *(f"taken-in-{name}" for name in COPIES[:2])}


def test_a_copy_with_nothing_new_is_set_aside_too(tmp_path: Path) -> None:
    """It would cost time at each start; a second one of that name has a name of its own."""
    for _ in range(2):
        written(tmp_path, [attempt(0)])
        written(tmp_path, [attempt(0)], COPIES[2])
        with store(tmp_path) as opened:
            assert len(opened.attempts) == 1
            assert opened.notices[0].startswith("Nothing was new in 1 copy of the log;")
    assert names(tmp_path) == {LOG, "taken-in-attempts (1).jsonl", "taken-in-2-attempts (1).jsonl"}


def failing(number: int) -> Any:
    """Return a function that fails with this error whatever it is given."""

    def fail(*given: object) -> None:
        raise OSError(number, os.strerror(number))

    return fail


def test_a_stop_between_writing_and_renaming_doubles_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The next start finds all of the copy in the log and only renames it."""
    written(tmp_path, [attempt(0)])
    written(tmp_path, [attempt(1)], COPIES[0])
    with monkeypatch.context() as patched:
        patched.setattr("progress_store.merge.set_all_aside", failing(errno.EINTR))
        with pytest.raises(OSError, match=os.strerror(errno.EINTR)):
            store(tmp_path)
    assert names(tmp_path) == {LOG, COPIES[0]}
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(0), attempt(1))
        assert opened.state == State.of(opened.attempts, RULES)
    assert (tmp_path / LOG).read_bytes() == lines([attempt(0)]) + checked([attempt(1)])
    assert names(tmp_path) == {LOG, f"taken-in-{COPIES[0]}"}


def test_a_copy_that_cannot_be_renamed_stays_and_doubles_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is told by name, and practice goes on."""
    written(tmp_path, [attempt(1)], COPIES[0])
    monkeypatch.setattr("pathlib.Path.rename", failing(errno.EACCES))
    for told in ("Took in 1 answer from 1 copy of the log.", None):
        with store(tmp_path) as opened:
            assert len(opened.attempts) == 1
            assert "was taken in and cannot be renamed (Permission denied)" in opened.notices[0]
            assert opened.notices[1:] == ((told,) if told else ())
    assert (tmp_path / LOG).read_bytes().count(b"\n") == 1


def test_a_copy_is_renamed_only_once_its_answers_are_on_the_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk refuses the opening in one sentence; log and copy are as before."""
    own, copy = written(tmp_path, [attempt(0)]), written(tmp_path, [attempt(1)], COPIES[0])
    before = own.read_bytes(), copy.read_bytes()
    with monkeypatch.context() as patched:
        patched.setattr("progress_store.log.sync", failing(errno.ENOSPC))
        with pytest.raises(StoreError, match="No space left on device"):
            store(tmp_path)
    assert (own.read_bytes(), copy.read_bytes()) == before
    with store(tmp_path) as opened:
        assert len(opened.attempts) == 2


def test_a_name_too_long_for_the_word_ahead_gets_a_short_one(tmp_path: Path) -> None:
    """Names of 255 bytes are the longest on common file systems (common practice, no source)."""
    written(tmp_path, [attempt(0)], "attempts" + "x" * 241 + ".jsonl")
    with store(tmp_path) as opened:
        assert len(opened.attempts) == 1
    assert names(tmp_path) == {LOG, "taken-in-.jsonl"}


def test_a_reader_counts_copies_in_and_writes_nothing(tmp_path: Path) -> None:
    """Also where a saved state fits the log as it is."""
    with store(tmp_path) as first:
        first.keep(attempt(3))
    written(tmp_path, [attempt(1), attempt(3)], COPIES[3])
    before = {file.name: file.read_bytes() for file in tmp_path.iterdir()}
    with store(tmp_path, writable=False) as reader:
        assert reader.attempts == (attempt(1), attempt(3))
        assert reader.state == State.of(reader.attempts, RULES)
        assert reader.notices == ("Counted too: 1 answer from 1 copy of the log beside it.",)
    assert {file.name: file.read_bytes() for file in tmp_path.iterdir()} == before


@pytest.mark.parametrize(
    "garbage", [b"\x00" * 5000, b"\xff\xfe\n{}\n[]\n", b"x" * (3 * LONGEST_LINE), b"\n\n"]
)
def test_garbage_in_a_copy_is_told_and_kept(tmp_path: Path, garbage: bytes) -> None:
    """The attempts around it come in; every byte of it is still there."""
    copy = written(tmp_path, [attempt(0)], COPIES[4])
    copy.write_bytes(lines([attempt(0)]) + garbage)
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(0),)
        assert "torn" in opened.notices[0] or "unreadable" in opened.notices[0]
        opened.keep(attempt(1))
    assert (tmp_path / f"taken-in-{COPIES[4]}").read_bytes() == lines([attempt(0)]) + garbage
    with store(tmp_path) as again:
        assert (len(again.attempts), again.notices) == (2, ())


def test_a_file_that_is_no_log_at_all_is_read_only_so_far(tmp_path: Path) -> None:
    """Of hundreds of thousands of lines that are no answers not all are gone through."""
    (tmp_path / COPIES[0]).write_bytes(lines([attempt(0)]) + b"\n" * 300_000)
    with store(tmp_path) as opened:
        assert "has more than 100,000 lines that are no answers; move it away." in opened.notices[0]
    assert names(tmp_path) == {COPIES[0]}


def test_an_enormous_copy_is_left_alone(tmp_path: Path) -> None:
    """It is told and stays, unread."""
    (tmp_path / "there").mkdir()
    with (tmp_path / COPIES[0]).open("wb") as file:
        file.truncate(LARGEST_COPY + 1)
    with store(tmp_path) as opened:
        assert opened.notices[0].endswith("is larger than 128 MB and is not taken in; move it away.")
        with pytest.raises(StoreError, match="has no attempts"):
            opened.take_in(tmp_path / "there")
        os.truncate(written(tmp_path / "there", []), LARGEST_COPY + 1)
        with pytest.raises(StoreError, match="larger than 128 MB"):
            opened.take_in(tmp_path / "there")
    assert names(tmp_path) == {COPIES[0], "there"}


def test_links_folders_and_empty_files_are_no_copies(tmp_path: Path) -> None:
    """They stay as they are, without a word."""
    elsewhere = written(tmp_path / "elsewhere", [attempt(7)])
    here = tmp_path / "here"
    written(here, [attempt(0)])
    (here / "attempts-x.jsonl").mkdir()
    (here / "attempts-empty.jsonl").touch()
    (here / "attempts-link.jsonl").symlink_to(elsewhere)
    (here / "attempts-nowhere.jsonl").symlink_to(tmp_path / "nowhere")
    (here / "attempts-itself.jsonl").symlink_to(here / LOG)
    before = names(here)
    with store(here) as opened:
        assert (opened.attempts, opened.notices) == ((attempt(0),), ())
    assert names(here) == before


def test_a_copy_of_a_newer_program_waits_for_it(tmp_path: Path) -> None:
    """What can be read comes in once; the file stays as it is to be read in full."""
    copy = written(tmp_path, [attempt(0)], COPIES[0])
    copy.write_bytes(lines([attempt(0)]) + newer())
    for _ in range(2):
        with store(tmp_path) as opened:
            assert len(opened.attempts) == 1
            assert "A newer Slantwise wrote line 2 of" in opened.notices[0]
    assert copy.read_bytes() == lines([attempt(0)]) + newer()
    assert (tmp_path / LOG).read_bytes().count(b"\n") == 1


def test_settings_stay_ones_own(tmp_path: Path) -> None:
    """Copies of the settings and of the state are neither read nor touched."""
    with store(tmp_path) as opened:
        opened.keep(attempt(0))
        opened.save_settings(Settings(minutes_a_day=10))
    for name in ("settings (1).json", "state (1).json"):
        (tmp_path / name).write_text("theirs")
    with store(tmp_path) as opened:
        assert opened.settings.minutes_a_day == 10
        assert opened.notices == ()
    assert (
        (tmp_path / "settings (1).json").read_text() == (tmp_path / "state (1).json").read_text() == "theirs"
    )


def test_an_attempt_that_fits_no_line_is_left_out_and_told(tmp_path: Path) -> None:
    """A line that grows when it is written anew costs neither the start nor the other attempts."""
    wide = json.dumps(attempt(0, other={"note": "\u00e9" * 20_000}).to_json(), ensure_ascii=False).encode()
    assert len(wide) < LONGEST_LINE
    written(tmp_path, [attempt(1)], COPIES[0]).write_bytes(wide + b"\n" + lines([attempt(1)]))
    with store(tmp_path) as opened:
        assert opened.attempts == (attempt(1),)
        assert "has 1 answer too long for one line of the log; keep the file." in opened.notices[0]


def test_a_deeply_nested_line_is_unreadable(tmp_path: Path) -> None:
    """What could be read but not written again is not taken in."""
    fields = json.dumps(attempt(0).to_json())[:-1]
    for deep in (30, 900):
        nested = fields + ', "more": ' + "[" * deep + "]" * deep + "}\n"
        written(tmp_path, [], COPIES[0]).write_bytes(nested.encode() + lines([attempt(1)]))
        with store(tmp_path) as opened:
            assert opened.attempts == (attempt(1),)
            assert "unreadable in line 1" in opened.notices[0]
