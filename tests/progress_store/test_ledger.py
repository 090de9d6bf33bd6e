"""A start that goes on from the ledger shows what one that reads the whole log shows, whatever was done."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest

from progress_store import Attempt, Store, StoreError, open_store, record_to_json
from progress_store.fingerprint import BLOCK, LogHash
from progress_store.log import Log
from tests.progress_store.logs import LOG, checked, lines, some
from tests.progress_store.making import FLOORS, LEVELS, START, attempt, store

STATE, COLUMNS = "state.json", "state.columns"
KEPT = [
    *(attempt(number, day, skill=f"steps 1:{2 + number % 3}") for day in range(10) for number in range(4)),
    *(attempt(number, 21, purpose="yardstick", code=f"steps-1-{number}") for number in range(16)),
    attempt(0, 22, purpose="walk", skill="sinks one", kind="sinks", form="mark"),
    attempt(0, 23, slip="exchanged", offset_minutes=840, other={"new": 1}),
]


def filled(folder: Path) -> Path:
    """Put the attempts into a new folder, let a start make a ledger of them, and return the folder."""
    folder.mkdir()
    (folder / LOG).write_bytes(checked(KEPT))
    store(folder).close()
    return folder


def shown(opened: Store) -> list[object]:
    """Return everything that a store shows of the attempts."""
    return [
        opened.how_many,
        opened.latest(30),
        opened.measuring,
        opened.met,
        opened.days,
        opened.state,
        json.dumps(record_to_json(opened.record(), str)),
        opened.yardsticks(),
        opened.attempts,
        opened.by_now,
    ]


def from_the_log_alone(folder: Path, away: Path) -> list[object]:
    """Return what is shown of a copy of the log and nothing else."""
    away.mkdir()
    shutil.copy(folder / LOG, away)
    with store(away, writable=False) as opened:
        return shown(opened)


@pytest.mark.parametrize("writable", [True, False])
def test_a_start_reads_no_line_and_shows_the_same(tmp_path: Path, writable: bool) -> None:
    """What the first screen and the record need is there without the log's lines."""
    folder = filled(tmp_path / "here")
    expected = from_the_log_alone(folder, tmp_path / "away")
    with store(folder, writable=writable) as opened:
        assert shown(opened) == expected
        assert opened.notices == ()


def test_answers_go_on_from_the_ledger(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keeping, the first screen and the record read no line of the log but those that they show."""
    folder = filled(tmp_path / "here")
    monkeypatch.setattr(Log, "read", None)
    for number in range(3):
        with store(folder) as opened:
            opened.keep(attempt(number, 30, right=False))
            assert opened.how_many == len(KEPT) + number + 1
            assert opened.latest(1) == (attempt(number, 30, right=False),)
            assert opened.record().attempts == opened.how_many
            assert len(opened.measuring) == 16
            assert opened.days == 10 + 1 + 1 + 1 + 1 + 1  # with that of today
            assert opened.met == {("steps", "read"): len(KEPT) + number}


def appended(folder: Path, content: bytes) -> None:
    """Let another program add to a log."""
    with (folder / LOG).open("ab") as log:
        log.write(content)


def edited(folder: Path, old: bytes, new: bytes, times: int) -> None:
    """Let another program exchange bytes in a log, the time of its change set back to what it was."""
    path, before = folder / LOG, (folder / LOG).stat()
    path.write_bytes(path.read_bytes().replace(old, new, times))
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


LATER = [attempt(number, 40, right=number % 2 > 0) for number in range(3)]
DONE: dict[str, Callable[[Path], object]] = {
    "nothing": lambda folder: None,
    "added": lambda folder: appended(folder, checked(LATER)),
    "added by an older program": lambda folder: appended(folder, lines(LATER)),
    "added and torn": lambda folder: appended(folder, checked(LATER) + b'{"schema":2,"id"'),
    "added, not read": lambda folder: appended(folder, b"no answer\n" + checked(LATER)),
    "added earlier ones": lambda folder: appended(folder, checked([attempt(9, 3)])),
    "added twice": lambda folder: appended(folder, checked([*LATER, *LATER])),
    "added what is there": lambda folder: appended(folder, checked(KEPT[3:5])),
    "added another one under an id": lambda folder: appended(
        folder, checked([attempt(0, 41, id=KEPT[0].id)])
    ),
    "added many": lambda folder: appended(folder, checked(attempt(number, 40) for number in range(80))),
    "added without its end": lambda folder: appended(folder, checked(LATER)[:-1]),
    "an empty line": lambda folder: appended(folder, b"\n"),
    "edited": lambda folder: edited(folder, b'"right":true', b'"right":false', 1),
    "cut": lambda folder: (folder / LOG).write_bytes(checked(KEPT[:50])),
    "cut in a line": lambda folder: os.truncate(folder / LOG, (folder / LOG).stat().st_size - 7),
    "emptied": lambda folder: (folder / LOG).write_bytes(b""),
    "replaced": lambda folder: (folder / LOG).write_bytes(checked(KEPT[:40] + some(1))),
    "in another order": lambda folder: (folder / LOG).write_bytes(checked(reversed(KEPT))),
    "a copy beside": lambda folder: (folder / "attempts (1).jsonl").write_bytes(checked(LATER)),
    "no state": lambda folder: (folder / STATE).unlink(),
    "no columns": lambda folder: (folder / COLUMNS).unlink(),
    "columns cut": lambda folder: os.truncate(folder / COLUMNS, 100),
    "columns changed": lambda folder: (folder / COLUMNS).write_bytes(
        bytes((folder / COLUMNS).stat().st_size)
    ),
    "more columns": lambda folder: (folder / COLUMNS).write_bytes((folder / COLUMNS).read_bytes() + b"more"),
}


@pytest.mark.parametrize("done", DONE)
def test_whatever_was_done_to_the_files_all_is_shown_as_the_log_has_it(tmp_path: Path, done: str) -> None:
    """A reader, a writer, an answer more and the start after that, against the log alone."""
    folder = filled(tmp_path / "here")
    DONE[done](folder)
    with store(folder, writable=False) as opened:
        first = shown(opened)
    if done != "a copy beside":
        assert first == from_the_log_alone(folder, tmp_path / "before")
    with store(folder) as opened:
        assert shown(opened) == first
        opened.keep(attempt(0, 50))
        after = shown(opened)
    assert after == from_the_log_alone(folder, tmp_path / "after")
    for _ in range(2):
        with store(folder) as opened:
            assert shown(opened) == after
            assert len({each.id for each in opened.attempts}) == opened.how_many


def test_a_byte_changed_in_the_last_mebibyte_is_noticed_whatever_the_times_say(tmp_path: Path) -> None:
    """The line does not fit its check sum any more and is told."""
    folder = filled(tmp_path / "here")
    edited(folder, b'"milliseconds":4000', b'"milliseconds":9000', 1)
    with store(folder) as opened:
        assert "unreadable in line 1;" in opened.notices[0]
        assert opened.how_many == len(KEPT) - 1


def test_what_another_program_adds_while_open_counts_too(tmp_path: Path) -> None:
    """The next answer has the log read, and nothing is lost or doubled."""
    folder = filled(tmp_path / "here")
    with store(folder) as opened:
        appended(folder, checked(LATER))
        opened.keep(attempt(7, 41))
        assert opened.attempts == (*KEPT, *LATER, attempt(7, 41))
        expected = shown(opened)
    with store(folder) as again:
        assert shown(again) == expected


def test_a_log_away_for_a_while_takes_nothing_from_what_is_known(tmp_path: Path) -> None:
    """The state stays, and the answer that waited is kept once the folder is back."""
    folder = filled(tmp_path / "here")
    with store(folder) as opened:
        state = opened.state
        folder.rename(tmp_path / "away")
        assert opened.latest(3) == ()
        with pytest.raises(StoreError):
            opened.keep(attempt(0, 50))
        assert opened.state == state
        (tmp_path / "away").rename(folder)
        opened.keep_rest()
        assert opened.attempts == (*KEPT, attempt(0, 50))


@pytest.mark.parametrize("later", [attempt(9, 5), attempt(0, 2000)])
def test_an_answer_of_another_time_is_not_added_to_the_ledger(tmp_path: Path, later: Attempt) -> None:
    """One given with the clock set back and one dated ahead count as they do when all is read."""
    folder = filled(tmp_path / "here")
    with store(folder) as opened:
        opened.keep(later)
        opened.keep(attempt(0, 60))
        expected = shown(opened)
    assert expected == from_the_log_alone(folder, tmp_path / "away")
    for _ in range(2):
        with store(folder) as opened:
            assert shown(opened) == expected


def test_with_the_clock_set_back_what_is_ahead_of_it_does_not_schedule(tmp_path: Path) -> None:
    """And does again once the clock is right."""
    folder = filled(tmp_path / "here")
    with open_store(folder, lambda: START + timedelta(days=10), FLOORS, LEVELS) as opened:
        assert opened.how_many == len(KEPT)
        assert len(opened.by_now) == opened.state.attempts == 40
        assert "dated in the future" in opened.notices[0]
    with store(folder) as opened:
        assert opened.state.attempts == len(KEPT)


def test_an_id_that_the_log_has_is_refused_without_reading_it(tmp_path: Path) -> None:
    """As it is when all was read."""
    folder = filled(tmp_path / "here")
    with store(folder) as opened, pytest.raises(StoreError, match="in the log already"):
        opened.keep(attempt(0, 60, id=KEPT[7].id))
    with store(folder) as opened:
        opened.keep(attempt(0, 60, id=KEPT[7].id[1:]))  # a part of an id is none
        assert opened.how_many == len(KEPT) + 1


def test_the_hash_of_a_log_goes_on_from_its_last_link() -> None:
    """In parts of whatever size it is that of the whole, and a byte changed before the link changes it."""
    content = bytes(number % 251 for number in range(2 * BLOCK + 1000))
    whole, parts, other = LogHash(), LogHash(), LogHash()
    whole.update(content)
    for begin in range(0, len(content), 70_001):
        parts.update(content[begin : begin + 70_001])
    assert parts.hexdigest() == whole.hexdigest()
    on = LogHash(whole.link, 2 * BLOCK)
    on.update(content[2 * BLOCK :])
    assert (on.length, on.hexdigest()) == (len(content), whole.hexdigest())
    other.update(b"x" + content[1:])
    assert other.hexdigest() != whole.hexdigest()


def test_what_was_added_since_is_read_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As after a power cut between log and state; the start after that finds them counted."""
    folder = filled(tmp_path / "here")
    appended(folder, checked(LATER))
    monkeypatch.setattr(Log, "read", None)
    for _ in range(2):
        with store(folder) as opened:
            assert opened.latest(4) == (KEPT[-1], *LATER)
            opened.save_settings(opened.settings)


def test_a_byte_changed_before_the_last_link_is_noticed_by_the_time_of_the_change(tmp_path: Path) -> None:
    """A file with another stamp is hashed whole; only one of the same size, time and number is not."""
    content = bytes(3 * BLOCK // 2)
    (tmp_path / LOG).write_bytes(content)
    known, log = LogHash(), Log(tmp_path)
    known.update(content)
    assert not log.go_on(known.link, len(content), LogHash().hexdigest(), None)
    assert log.go_on(known.link, len(content), known.hexdigest(), None)
    stamp = log.stamp
    assert log.go_on(known.link, len(content), known.hexdigest(), stamp)
    (tmp_path / LOG).write_bytes(b"x" + content[1:])
    os.utime(tmp_path / LOG, ns=(0, 1))
    assert not log.go_on(known.link, len(content), known.hexdigest(), stamp)
