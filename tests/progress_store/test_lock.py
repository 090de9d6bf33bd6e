import os
import subprocess
import sys
from pathlib import Path

import pytest

from progress_store import StoreError
from tests.progress_store.making import attempt, store

OPEN = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from progress_store import StoreError, open_store
try:
    store = open_store(Path(sys.argv[1]), lambda: datetime.now(UTC), {}, {}, writable=sys.argv[2] == "write")
except StoreError as error:
    print(error)
else:
    print("open", len(store.attempts))
    store.close()
"""


def from_another_program(folder: Path, how: str) -> str:
    """Return what a second program says when it opens the folder to write or to read."""
    done = subprocess.run(
        [sys.executable, "-c", OPEN, str(folder), how], capture_output=True, text=True, check=True
    )
    return done.stdout.strip()


def test_a_second_program_may_not_write_but_may_read(tmp_path: Path) -> None:
    """The lock holds between programs until the first closes."""
    with store(tmp_path) as first:
        first.keep(attempt())
        assert from_another_program(tmp_path, "write").startswith(
            "Slantwise is already open in another window"
        )
        assert from_another_program(tmp_path, "read") == "open 1"
    assert from_another_program(tmp_path, "write") == "open 1"


def test_a_second_door_in_the_same_program_is_refused_too(tmp_path: Path) -> None:
    """Two writers would not see each other's attempts."""
    with store(tmp_path), pytest.raises(StoreError, match="already open"):
        store(tmp_path)


def test_a_refused_opening_lets_the_lock_go(tmp_path: Path) -> None:
    """After a refusal the folder can be opened as soon as the cause is gone."""
    (tmp_path / "attempts.jsonl").mkdir()
    with pytest.raises(StoreError):
        store(tmp_path)
    (tmp_path / "attempts.jsonl").rmdir()
    store(tmp_path).close()


def test_closing_twice_does_nothing(tmp_path: Path) -> None:
    """A screen and its app may both close."""
    opened = store(tmp_path)
    opened.close()
    opened.close()
    with pytest.raises(StoreError, match="only to read"):
        opened.keep(attempt())


def test_a_reader_writes_nothing_at_all(tmp_path: Path) -> None:
    """Reading makes no folder, no lock and no state, and mends no torn line."""
    missing = tmp_path / "missing"
    with store(missing, writable=False) as reader:
        assert reader.attempts == ()
        with pytest.raises(StoreError, match="only to read"):
            reader.keep(attempt())
        with pytest.raises(StoreError, match="only to read"):
            reader.save_settings(reader.settings)
    assert not missing.exists()
    (tmp_path / "attempts.jsonl").write_bytes(b'{"schema":2,"id')
    (tmp_path / "state.json").write_bytes(b"damaged")
    with store(tmp_path, writable=False) as reader:
        assert "is left as it is" in reader.notices[0]
    assert sorted(file.name for file in tmp_path.iterdir()) == ["attempts.jsonl", "state.json"]
    assert (tmp_path / "attempts.jsonl").read_bytes() == b'{"schema":2,"id'


@pytest.mark.parametrize("writable", [True, False])
def test_a_file_in_place_of_the_folder_is_refused_in_one_sentence(tmp_path: Path, writable: bool) -> None:
    """The sentence names the file and the way out."""
    (tmp_path / "file").write_text("not ours")
    with pytest.raises(StoreError, match=r"file is not a folder; give another one with --data\.$"):
        store(tmp_path / "file", writable=writable)
    assert (tmp_path / "file").read_text() == "not ours"


def test_a_folder_that_cannot_be_made_is_refused_in_one_sentence(tmp_path: Path) -> None:
    """A file on the way to the folder is in the way."""
    (tmp_path / "file").write_text("")
    with pytest.raises(StoreError, match=r"cannot be made \(Not a directory\)"):
        store(tmp_path / "file" / "data")


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="nothing is read-only to this user")
def test_a_read_only_folder_is_refused_in_one_sentence(tmp_path: Path) -> None:
    """It cannot be practised in, but its record can be read."""
    with store(tmp_path / "data") as first:
        first.keep(attempt())
    (tmp_path / "data" / "slantwise.lock").unlink(missing_ok=True)
    (tmp_path / "data").chmod(0o500)
    try:
        with pytest.raises(StoreError, match="cannot be written to"):
            store(tmp_path / "data")
        with store(tmp_path / "data", writable=False) as reader:
            assert len(reader.attempts) == 1
    finally:
        (tmp_path / "data").chmod(0o700)


def test_control_characters_of_a_path_do_not_reach_the_terminal(tmp_path: Path) -> None:
    """A folder name cannot steer the terminal through a sentence of ours."""
    (tmp_path / "a\x1bb").write_text("")
    with pytest.raises(StoreError, match=r"a\?b is not a folder"):
        store(tmp_path / "a\x1bb")
