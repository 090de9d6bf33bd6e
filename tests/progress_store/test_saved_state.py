import json
from pathlib import Path
from typing import Any

import pytest

from progress_store import Floor, State, open_store
from tests.progress_store.making import FLOORS, LEVELS, RULES, START, attempt, store

KEPT = [attempt(number) for number in range(4)]


def filled(folder: Path) -> Path:
    """Keep four attempts and return the path of the saved state."""
    with store(folder) as opened:
        for each in KEPT:
            opened.keep(each)
    return folder / "state.json"


def test_a_saved_state_is_used_and_equals_the_one_worked_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A start with an untouched log plays no attempt again."""
    filled(tmp_path)
    expected = State.of(KEPT, RULES)
    monkeypatch.setattr(State, "step", None)
    with store(tmp_path) as opened:
        assert opened.state == expected
        assert opened.notices == ()


@pytest.mark.parametrize(
    "content", [b"", b"{", b"[]", b"{}", b'{"schema": "1"}', b'{"schema": 2}', b"[" * 100_000, b"\xff\xfe"]
)
def test_a_damaged_state_is_moved_aside_told_and_made_anew(tmp_path: Path, content: bytes) -> None:
    """Damage to what can be worked out costs nothing, and the damaged file is kept."""
    path = filled(tmp_path)
    sound = path.read_bytes()
    path.write_bytes(content)
    with store(tmp_path) as opened:
        assert opened.state == State.of(KEPT, RULES)
        assert len(opened.notices) == 1
        assert "was damaged; it is kept as state.damaged-1.json" in opened.notices[0]
    assert (tmp_path / "state.damaged-1.json").read_bytes() == content
    assert path.read_bytes() == sound


def test_a_state_with_one_changed_figure_is_damaged(tmp_path: Path) -> None:
    """A change that leaves the file readable is noticed too."""
    path = filled(tmp_path)
    fields: dict[str, Any] = json.loads(path.read_bytes())
    fields["state"]["attempts"] = 99
    path.write_text(json.dumps(fields))
    with store(tmp_path) as opened:
        assert opened.state.attempts == 4
        assert "was damaged" in opened.notices[0]


def test_a_newer_state_is_never_written_over(tmp_path: Path) -> None:
    """Practice goes on in memory and in the log, and the newer file stays byte for byte."""
    path = filled(tmp_path)
    path.write_text('{"schema": 3, "wonder": true}')
    with store(tmp_path) as opened:
        opened.keep(attempt(9))
        assert "newer Slantwise and is left as it is" in opened.notices[0]
        assert opened.state == State.of([*KEPT, attempt(9)], RULES)
    assert path.read_text() == '{"schema": 3, "wonder": true}'


def test_a_stale_state_is_worked_out_anew(tmp_path: Path) -> None:
    """A log that has grown since, as after a crash, is what counts."""
    path = filled(tmp_path)
    stale = path.read_bytes()
    with store(tmp_path) as opened:
        opened.keep(attempt(9))
    path.write_bytes(stale)
    with store(tmp_path) as again:
        assert again.state == State.of([*KEPT, attempt(9)], RULES)
        assert again.notices == ()


def test_a_state_of_an_older_schema_is_made_anew_without_a_word(tmp_path: Path) -> None:
    """The first one knew blocks of twelve drills; the log has all that the level now follows from."""
    path = filled(tmp_path)
    sound = path.read_bytes()
    old = {**json.loads(sound), "schema": 1, "state": {"attempts": 4, "firsts": [True] * 4}}
    path.write_text(json.dumps(old))
    with store(tmp_path) as opened:
        assert opened.state == State.of(KEPT, RULES)
        assert opened.notices == ()
    assert path.read_bytes() == sound
    assert not list(tmp_path.glob("state.damaged*"))


def test_a_log_that_has_become_shorter_is_told(tmp_path: Path) -> None:
    """Attempts that are gone from the log are not passed over in silence."""
    filled(tmp_path)
    log = tmp_path / "attempts.jsonl"
    log.write_bytes(b"".join(log.read_bytes().splitlines(keepends=True)[:2]))
    with store(tmp_path) as opened:
        assert opened.state == State.of(KEPT[:2], RULES)
        assert "shorter than it was" in opened.notices[0]


def test_a_state_made_under_other_rules_is_worked_out_anew(tmp_path: Path) -> None:
    """A changed floor changes the goals of the past too."""
    filled(tmp_path)
    floors = {**FLOORS, "steps": Floor(9000)}
    with open_store(tmp_path, lambda: START, floors, LEVELS) as opened:
        assert opened.state.rules.floors["steps"] == Floor(9000)
        assert opened.notices == ()


def test_the_state_file_has_none_of_the_schedulers_own_words(tmp_path: Path) -> None:
    """What is saved is named in the words of practice."""
    text = filled(tmp_path).read_text().lower()
    assert not [
        word for word in ("card", "review", "due", "stability", "difficulty", "rating") if word in text
    ]


def test_saving_leaves_no_part_behind(tmp_path: Path) -> None:
    """Only the log, the lock and what follows from the log stand in the folder."""
    filled(tmp_path)
    names = {file.name for file in tmp_path.iterdir()} - {"slantwise.lock"}
    assert names == {"attempts.jsonl", "state.json", "state.columns"}
