import errno
import subprocess
import sys
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import pytest

from progress_store import Settings, State, StoreError, open_store
from tests.progress_store.logs import newer
from tests.progress_store.making import FLOORS, LEVELS, RULES, attempt, store

KEEP_ON = """
import sys
from pathlib import Path
from tests.progress_store.logs import newer
from tests.progress_store.making import attempt, store
with store(Path(sys.argv[1])) as opened:
    for number in range(1000):
        opened.keep(attempt(number))
        print("kept", number, flush=True)
"""


def test_keeping_tells_how_the_attempt_was_judged(tmp_path: Path) -> None:
    """The verdict comes back at once, and the state has moved."""
    with store(tmp_path) as opened:
        judged = opened.keep(attempt())
        assert (judged.result, judged.net_ms, judged.goal_ms, judged.first) == ("clean", 4000, None, True)
        assert opened.state == State.of([attempt()], RULES)


def test_killing_the_program_loses_nothing_that_was_kept(tmp_path: Path) -> None:
    """What the person was told is kept is in the log, whatever happens next."""
    with subprocess.Popen(
        [sys.executable, "-c", KEEP_ON, str(tmp_path)], stdout=subprocess.PIPE, text=True
    ) as writer:
        assert writer.stdout is not None
        told = [writer.stdout.readline().split() for _ in range(7)]
        writer.kill()
    assert told[-1] == ["kept", "6"]
    with store(tmp_path) as opened:
        assert opened.attempts[:7] == tuple(attempt(number) for number in range(7))
        assert opened.state == State.of(opened.attempts, RULES)


def test_an_attempt_of_an_earlier_time_counts_in_its_place(tmp_path: Path) -> None:
    """A clock set back changes the order in the log, not what follows from it."""
    with store(tmp_path) as opened:
        opened.keep(attempt(5))
        opened.keep(attempt(3, right=False))
        assert opened.attempts == (attempt(3, right=False), attempt(5))
        assert opened.state == State.of(opened.attempts, RULES)
        assert opened.state.skills["steps 1:2"].results == ("miss", "clean")


def test_the_log_of_another_machine_is_taken_in_once(tmp_path: Path) -> None:
    """Attempts of both stand in order of time, those in both count once; the other stays as it is."""
    with store(tmp_path / "there") as there:
        for number in (0, 1, 2, 7):
            there.keep(attempt(number))
    before = {file.name: file.read_bytes() for file in (tmp_path / "there").iterdir()}
    with store(tmp_path / "here") as here:
        for number in (1, 4):
            here.keep(attempt(number))
        assert here.take_in(tmp_path / "there") == (3, 4)
        assert here.take_in(tmp_path / "there") == (0, 4)
        assert here.attempts == tuple(attempt(number) for number in (0, 1, 2, 4, 7))
        assert here.state == State.of(here.attempts, RULES)
    assert {file.name: file.read_bytes() for file in (tmp_path / "there").iterdir()} == before
    with store(tmp_path / "here") as again:
        assert len(again.attempts) == 5


def test_taking_in_refuses_what_is_no_data_folder(tmp_path: Path) -> None:
    """The refusal says what to give instead."""
    with store(tmp_path / "here") as here:
        with pytest.raises(StoreError, match="give the data folder of the other machine"):
            here.take_in(tmp_path / "nowhere")
        (tmp_path / "there").mkdir()
        (tmp_path / "there" / "attempts.jsonl").write_bytes(newer())
        with pytest.raises(StoreError, match="newer Slantwise"):
            here.take_in(tmp_path / "there")


def test_a_state_that_cannot_be_saved_costs_no_attempt(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The attempt is in the log by then; the person is told and practice goes on."""

    def full(path: Path, content: bytes) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("progress_store.files.replace_file", full)
    with store(tmp_path) as opened:
        opened.keep(attempt())
        assert "The state cannot be saved (No space left on device)" in opened.notices[0]
        with pytest.raises(StoreError, match="settings cannot be written"):
            opened.save_settings(Settings(minutes_a_day=10))
    with store(tmp_path, writable=False) as reader:
        assert reader.attempts == (attempt(),)


def test_today_is_the_practice_day_of_the_clock(tmp_path: Path) -> None:
    """At 03:59 local time it is still yesterday."""
    now = datetime(2026, 3, 2, 3, 59, tzinfo=timezone(timedelta(hours=9)))
    with open_store(tmp_path, lambda: now, FLOORS, LEVELS) as opened:
        assert opened.today == date(2026, 3, 1)
    assert now.astimezone(UTC).date() == date(2026, 3, 1)


moving = pytest.mark.skipif(sys.platform == "win32", reason="there a folder in use cannot be moved")


@moving
def test_answers_wait_while_the_folder_is_away(tmp_path: Path) -> None:
    """Two that could not be written are on the disk, in order, as soon as one try succeeds."""
    folder, away = tmp_path / "data", tmp_path / "away"
    with store(folder) as opened:
        opened.keep(attempt(0))
        folder.rename(away)
        for number in (1, 2):
            with pytest.raises(StoreError, match="cannot be written"):
                opened.keep(attempt(number))
        assert opened.waiting == 2
        assert len(opened.attempts) == 1
        with pytest.raises(StoreError, match="in the log already"):
            opened.keep(attempt(2))
        away.rename(folder)
        assert [judged.attempt for judged in opened.keep_rest()] == [attempt(1), attempt(2)]
        assert opened.waiting == 0
        assert opened.keep_rest() == []
    with store(folder) as again:
        assert again.attempts == tuple(map(attempt, range(3)))


@moving
def test_answers_that_wait_are_written_before_the_next(tmp_path: Path) -> None:
    """And judged as if they had been written at once."""
    folder, away = tmp_path / "data", tmp_path / "away"
    with store(folder) as opened:
        folder.rename(away)
        with pytest.raises(StoreError):
            opened.keep(attempt(0))
        away.rename(folder)
        judged = opened.keep(attempt(1))
        assert judged.attempt == attempt(1)
        assert opened.state == State.of(map(attempt, range(2)), RULES)
