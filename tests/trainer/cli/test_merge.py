"""`slantwise merge`: the log of another machine."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from pathlib import Path

import pytest

from progress_store import Attempt
from tests.progress_store.logs import newer as a_newer_line
from tests.progress_store.making import attempt, store
from tests.trainer.cli.calling import call, is_one_sentence, log_of


def written(folder: Path, attempts: Iterable[Attempt], name: str = "attempts.jsonl") -> Path:
    """Write a data folder with a log and return it."""
    folder.mkdir(exist_ok=True)
    (folder / name).write_text("".join(json.dumps(each.to_json()) + "\n" for each in attempts))
    return folder


def test_it_tells_how_many_came_in(tmp_path: Path) -> None:
    """Those of both are here already; a second time nothing comes."""
    here, there = tmp_path / "here", written(tmp_path / "there", map(attempt, range(30)))
    written(here, map(attempt, range(12, 32)))
    told = call(here, "merge", str(there))
    assert told == (0, "Took in 12 answers of 30 (18 were here already).\n", "")
    assert call(here, "merge", str(there)).out == "Took in 0 answers of 30 (30 were here already).\n"
    assert len(log_of(here)) == 32


def test_one_is_told_as_one(tmp_path: Path) -> None:
    """The sentence fits its numbers."""
    there = written(tmp_path / "there", [attempt(0), attempt(1)])
    written(tmp_path / "here", [attempt(0)])
    assert call(tmp_path / "here", "merge", str(there)).out == "Took in 1 answer of 2 (1 was here already).\n"


def test_merged_both_ways_the_records_are_equal(tmp_path: Path) -> None:
    """The same text and the same JSON on both machines; a folder that is not there yet is made."""
    one = written(tmp_path / "one", [attempt(0), attempt(5, right=False), attempt(1, day=9)])
    two = written(tmp_path / "two", [attempt(3), attempt(4, skill="steps 2:1"), attempt(0, day=3)])
    assert call(one, "merge", str(two)).status == call(two, "merge", str(one)).status == 0
    assert call(tmp_path / "new", "merge", str(one), "--data", str(tmp_path / "three")).status == 0
    for manner in ((), ("--json",)):
        said = {call(folder, "record", *manner) for folder in (one, two, tmp_path / "three")}
        assert len(said) == 1
    assert not (tmp_path / "new").exists()


def test_the_record_counts_a_copy_before_and_after_it_is_taken_in(tmp_path: Path) -> None:
    """The same JSON, and a word on standard error while it is not in the log."""
    written(tmp_path, [attempt(0)])
    written(tmp_path, [attempt(1)], "attempts (1).jsonl")
    before = call(tmp_path, "record", "--json")
    assert json.loads(before.out)["attempts"] == 2
    assert is_one_sentence(before.err)
    store(tmp_path).close()
    assert call(tmp_path, "record", "--json") == (0, before.out, "")


def test_what_is_not_counted_there_is_told(tmp_path: Path) -> None:
    """On standard error, without control characters of the path."""
    there = written(tmp_path / "th\x1bere", [attempt(0)])
    with (there / "attempts.jsonl").open("a") as log:
        log.write('garbage\n{"torn')
    status, out, err = call(tmp_path / "here", "merge", str(there))
    assert (status, out) == (0, "Took in 1 answer of 1 (0 were here already).\n")
    assert len(err.splitlines()) == 2
    assert "\x1b" not in err


@pytest.mark.parametrize(
    "which", ["nowhere", "file", "empty", "here", "newer", "long" * 100, "a\0b", "folder"]
)
def test_what_is_no_other_data_folder_is_refused(tmp_path: Path, which: str) -> None:
    """One sentence, status 2, and the log as it was."""
    here = written(tmp_path / "here", [attempt(0)])
    (tmp_path / "file").write_text("mine")
    (tmp_path / "empty").mkdir()
    (tmp_path / "folder" / "attempts.jsonl").mkdir(parents=True)
    (written(tmp_path / "newer", []) / "attempts.jsonl").write_bytes(a_newer_line())
    status, out, err = call(here, "merge", str(tmp_path / which))
    assert (status, out) == (2, "")
    assert err.endswith(".\n")
    assert err[:-1].isprintable()
    assert len(log_of(here)) == 1


@pytest.mark.parametrize("words", [[], ["one", "two"], ["--data", ""], ["one", "--json"]])
def test_other_words_are_refused(tmp_path: Path, words: list[str]) -> None:
    """Exactly one folder is given."""
    status, out, err = call(tmp_path, "merge", *words)
    assert (status, out) == (2, "")
    assert is_one_sentence(err)


def test_a_locked_folder_is_refused_and_a_locked_other_is_not(tmp_path: Path) -> None:
    """The other is only read."""
    there = written(tmp_path / "there", [attempt(0)])
    with store(tmp_path / "here"):
        status, out, err = call(tmp_path / "here", "merge", str(there))
        assert (status, out) == (2, "")
        assert "already open in another window" in err
    with store(there):
        assert call(tmp_path / "here", "merge", str(there)).status == 0


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="nothing is read-only to this user")
def test_an_unwritable_folder_is_refused(tmp_path: Path) -> None:
    """One sentence, status 2; an other that cannot be written is read all the same."""
    here, there = written(tmp_path / "here", []), written(tmp_path / "there", [attempt(0)])
    here.chmod(0o500)
    try:
        status, out, err = call(here, "merge", str(there))
    finally:
        here.chmod(0o700)
    assert (status, out) == (2, "")
    assert is_one_sentence(err)
    there.chmod(0o500)
    try:
        assert call(here, "merge", str(there)).status == 0
    finally:
        there.chmod(0o700)


def test_the_help_names_it(tmp_path: Path) -> None:
    """In the list of commands, and with a line to copy."""
    assert "\n    merge " in call(tmp_path, "--help").out
    status, out, _ = call(tmp_path, "merge", "--help")
    assert status == 0
    assert "slantwise merge /media/stick/slantwise" in out
    assert max(map(len, out.splitlines())) <= 80
