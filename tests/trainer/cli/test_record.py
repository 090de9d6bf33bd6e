"""`slantwise record`: the record as text, as JSON and as a table."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from drills.questions.kinds import SKILL_NAMES
from progress_store import Rules
from progress_store.summaries import attempt_rows, record
from tests.progress_store.making import attempt
from tests.trainer.cli.calling import Called, call, is_one_sentence
from trainer.practice.attempts import FLOORS, TOP_LEVELS

EMPTY = {"attempts": 0, "skills": [], "days": [], "yardsticks": [], "confusions": []}
TIMES = [attempt(number, skill="steps read 1:2") for number in range(13)]
LOG = [
    *TIMES,
    attempt(14, skill="steps read 1:3", right=False, misses=1),
    attempt(15, skill="steps read 1:3", slip="exchanged"),
    attempt(0, day=14, skill="steps read 1:2", milliseconds=3000),
    attempt(1, day=14, skill="labels one", kind="labels", form="mark", right=False, misses=2, false_alarms=1),
    attempt(2, day=14, skill="of a later version", kind="later", purpose="yardstick"),
]


def test_no_drills_yet_is_one_friendly_sentence(tmp_path: Path) -> None:
    """A folder that is not there yet is an empty record, and is not made."""
    folder = tmp_path / "none"
    assert call(folder, "record") == (
        0,
        "No drills yet: your record begins with the first drill you answer.\n",
        "",
    )
    assert json.loads(call(folder, "record", "--json").out) == EMPTY
    assert len(call(folder, "record", "--csv").out.splitlines()) == 1
    assert not folder.exists()


def called(folder: Path, *words: str) -> Called:
    """Write the log into a folder and call for its record."""
    lines = [json.dumps(each.to_json()) + "\n" for each in LOG]
    (folder / "attempts.jsonl").write_text("".join(lines))
    return call(folder, "record", *words)


def test_json_is_the_record_of_the_log(tmp_path: Path) -> None:
    """One dictionary on one line, with the names of the skills, the same from the same log."""
    status, out, err = called(tmp_path, "--json")
    assert (status, err) == (0, "")
    names = {**SKILL_NAMES, "of a later version": "of a later version"}
    assert json.loads(out) == record(LOG, Rules(FLOORS, TOP_LEVELS), names.__getitem__)
    assert out == called(tmp_path, "--json", "--now", "2030-01-01T00:00:00Z").out


def test_csv_has_a_head_and_a_row_for_each_attempt(tmp_path: Path) -> None:
    """It reads back as the rows of the attempts."""
    status, out, err = called(tmp_path, "--csv")
    assert (status, err) == (0, "")
    assert list(csv.reader(out.splitlines())) == list(attempt_rows(LOG))


def test_text_has_each_figure_with_its_drills_and_window(tmp_path: Path) -> None:
    """By hand from the log."""
    status, out, err = called(tmp_path, "--now", "2026-03-17T12:00:00+01:00")
    assert (status, err) == (0, "")
    assert out.splitlines() == [
        "18 drills on 2 days, from 2026-03-02 to 2026-03-16 (yesterday).",
        "",
        "Skills:",
        "  one wrong label - new",
        "    0 of 1 right, likely 0 to 79 %; time not yet, pace goal not yet",
        "  of a later version - new",
        "    1 of 1 right, likely 21 to 100 %; time 4.0 s, pace goal not yet",
        "  reading a step of 1 and 2 - kept",
        "    14 of 14 right, likely 78 to 100 %; time 4.0 s, pace goal 5.0 s",
        "  reading a step of 1 and 3 - new",
        "    1 of 2 right, likely 9 to 91 %; time 4.0 s, pace goal 5.0 s",
        "Likely is where the share right lies, 19 times in 20. It is no trend: the level follows you.",
        "Seconds are the median of the last 12 right answers at the same form.",
        "",
        "Days (the last 14):",
        "  2026-03-02  15 drills, 14 right, 1.0 minutes",
        "  2026-03-16  3 drills, 2 right, 0.2 minutes",
        "",
        "Misses and false alarms:",
        "  Mountain or valley?: 2 misses, 1 false alarm in 1 drill, 2026-03-16 to 2026-03-16",
        "  later: no misses, no false alarms in 1 drill, 2026-03-16 to 2026-03-16",
        "  Across and down: 1 miss, no false alarms in 16 drills, 2026-03-02 to 2026-03-16",
        "",
        "Slips:",
        "  reading a step of 1 and 3: exchanged, once",
        "",
        "First drills of a skill after 7 days or more away:",
        "  1 of 1 right, 2026-03-16 to 2026-03-16",
        "",
        "Pace at the same form, first week against last week:",
        "  steps read, level 1, marks 1, by keys: 4.0 s (14), then 3.0 s (1), 2026-03-02 to 2026-03-16",
        "",
        "Yardstick:",
        "  2026-03-16  1 of 1 right, likely 21 to 100 %",
        "  16 drills cannot show a change under about 25 points.",
    ]


def test_the_clock_says_how_long_ago(tmp_path: Path) -> None:
    """A practice day begins at 04:00 local time; a log from the future is not said to be any days ago."""
    ends = {
        "2026-03-17T03:59:00+00:00": "2026-03-16 (today).",
        "2026-03-17T04:00:00+00:00": "2026-03-16 (yesterday).",
        "2026-04-16T12:00:00+00:00": "2026-03-16 (31 days ago).",
        "2026-03-01T12:00:00+00:00": "2026-03-16.",
    }
    for now, end in ends.items():
        assert called(tmp_path, "--now", now).out.splitlines()[0].endswith(end)


def test_reading_the_record_changes_nothing(tmp_path: Path) -> None:
    """Not even a torn line is put aside; it is told on standard error."""
    called(tmp_path)
    log = tmp_path / "attempts.jsonl"
    log.write_bytes(log.read_bytes() + b'{"torn')
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    status, out, err = call(tmp_path, "record", "--json")
    assert (status, json.loads(out)["attempts"]) == (0, len(LOG))
    assert "was torn" in err
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


@pytest.mark.parametrize("manner", [(), ("--json",), ("--csv",)])
def test_a_folder_that_is_a_file_is_refused(tmp_path: Path, manner: tuple[str, ...]) -> None:
    """One sentence, status 2."""
    other = tmp_path / "file"
    other.write_text("mine")
    status, out, err = call(other, "record", *manner)
    assert (status, out) == (2, "")
    assert is_one_sentence(err)


def test_control_characters_of_a_log_do_not_reach_the_terminal(tmp_path: Path) -> None:
    """A line of another program that holds some is not counted, and told without them."""
    fields = json.dumps({**LOG[0].to_json(), "skill": "\x1b[31mred"})
    (tmp_path / "attempts.jsonl").write_text(fields + "\n\n")
    for manner in ((), ("--json",), ("--csv",)):
        status, out, err = call(tmp_path, "record", *manner)
        assert status == 0
        assert "\x1b" not in out + err
