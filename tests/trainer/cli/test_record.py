"""`slantwise record`: the record as text, as JSON and as a table."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from drills.questions import skill_names
from progress_store import Record, Rules, attempt_rows, record_to_json, replay
from tests.progress_store.making import attempt
from tests.trainer.cli.calling import Called, call, is_one_sentence
from trainer.practice.attempts import floors, levels

EMPTY = {"attempts": 0, "skills": [], "days": [], "yardsticks": [], "confusions": []}
TIMES = [attempt(number, skill="steps read 1:2") for number in range(13)]
LOG = [
    *TIMES,
    attempt(14, skill="steps read 1:3", right=False, misses=1, taken_for="steps read 1:2"),
    attempt(15, skill="steps read 1:3", slip="exchanged"),
    attempt(0, day=14, skill="steps read 1:2", milliseconds=3000),
    attempt(1, day=14, skill="labels one", kind="labels", form="mark", right=False, misses=2, false_alarms=1),
    attempt(2, day=14, skill="of a later version", kind="later", purpose="yardstick"),
]
RULES = Rules(floors(), levels())
RECORD = Record.of(LOG, RULES)


def test_no_drills_yet_is_one_friendly_sentence(tmp_path: Path) -> None:
    """A folder that is not there yet is an empty record, and is not made."""
    folder = tmp_path / "none"
    assert call(folder, "record") == (
        0,
        "No drills yet: your record begins with the first drill you answer.\n",
        "",
    )
    fields = json.loads(call(folder, "record", "--json").out)
    assert fields.items() >= EMPTY.items()
    assert len(call(folder, "record", "--csv").out.splitlines()) == 1
    assert not folder.exists()


def called(folder: Path, *words: str) -> Called:
    """Write the log into a folder and call for its record."""
    lines = [json.dumps(each.to_json()) + "\n" for each in LOG]
    (folder / "attempts.jsonl").write_text("".join(lines))
    return call(folder, "record", *words)


def test_json_is_the_record_of_the_log(tmp_path: Path) -> None:
    """One dictionary on one line, with the names of the skills, the same from the same log."""
    status, out, err = called(tmp_path, "--json", "--now", "2026-03-17T12:00:00Z")
    assert (status, err) == (0, "")
    names = {**skill_names(), "of a later version": "of a later version"}
    assert json.loads(out) == record_to_json(RECORD, names.__getitem__)
    assert out == called(tmp_path, "--json", "--now", "2030-01-01T00:00:00Z").out


def test_csv_has_a_head_and_a_row_for_each_attempt(tmp_path: Path) -> None:
    """It reads back as the rows of the attempts."""
    status, out, err = called(tmp_path, "--csv", "--now", "2026-03-17T12:00:00Z")
    assert (status, err) == (0, "")
    assert list(csv.reader(out.splitlines())) == list(attempt_rows(replay(LOG, RULES)[1]))


def test_text_has_each_figure_with_its_drills_and_window(tmp_path: Path) -> None:
    """By hand from the log."""
    status, out, err = called(tmp_path, "--now", "2026-03-17T12:00:00+01:00")
    assert (status, err) == (0, "")
    assert out.splitlines() == [
        "18 drills on 2 days, 2026-03-02 to 2026-03-16 (yesterday).",
        "Likely is where the true figure lies, 19 times in 20.",
        "Share right alone is no trend: the level follows you, so it stays flat.",
        "",
        "Yardstick:",
        "  2026-03-16  unfinished: 1 drill, not compared",
        "  16 drills cannot show a change under about 25 points.",
        "",
        "First drills of a skill after 7 days or more away, the yardstick apart:",
        "  1 of 1 right, likely 21 to 100 %, 2026-03-16 to 2026-03-16",
        "",
        "Pace at the same form, first week against last week:",
        "  1 form with too few drills in one of the weeks to be sure",
        "",
        "Median seconds, week by week, at the form practised most:",
        "  Across and down, read a step, level 1, with keys, 2026-03-02 on:",
        "  weeks from their Monday; each # is up to 0.5 s of the median",
        "  2026-03-02    4.0 s, likely 4.0 to 4.0, 14 drills     ########",
        "  2026-03-16    3.0 s, too few to be sure, 1 drill      ######",
        "",
        "Misses against false alarms:",
        "  Mountain or valley?: 1 drill, 2026-03-16 to 2026-03-16",
        "    2 misses, in 1 drill, likely 21 to 100 %",
        "    1 false alarm, in 1 drill, likely 21 to 100 %",
        "  later: 1 drill, 2026-03-16 to 2026-03-16",
        "    no misses, likely 0 to 79 %",
        "    no false alarms, likely 0 to 79 %",
        "  Across and down: 16 drills, 2026-03-02 to 2026-03-16",
        "    1 miss, in 1 drill, likely 1 to 28 %",
        "    no false alarms, likely 0 to 19 %",
        "",
        "What is taken for what:",
        "  one wrong label:",
        "    1 drill, 2026-03-16 to 2026-03-16",
        "    a wrong label not seen in 1, likely 21 to 100 %",
        "    a right label taken for wrong in 1, likely 21 to 100 %",
        "  reading a 1 by 3 slant:",
        "    2 drills, 2026-03-02 to 2026-03-02",
        "    the step missed in 1, likely 9 to 91 %",
        "    taken for reading a 1 by 2 slant in 1, likely 9 to 91 %",
        "    across and down exchanged in 1, likely 9 to 91 %",
        "",
        "Minutes a day:",
        "  a column a day, 2026-02-18 to 2026-03-17; # up to 0.5 minutes, . none",
        "     2 |                            | 02-18: none",
        "   1.5 |                            | 02-25: 1.0 min, 15 drills, 1 day",
        "     1 |            #               | 03-04: none",
        "   0.5 |............#.............#.| 03-11: 0.2 min, 3 drills, 1 day",
        "",
        "Skills, 2026-03-02 to 2026-03-16:",
        "  one wrong label - new",
        "    0 of 1 right, likely 0 to 79 %; time not yet, pace goal not yet",
        "  of a later version - new",
        "    1 of 1 right, likely 21 to 100 %; time 4.0 s, pace goal not yet",
        "  reading a 1 by 2 slant - kept",
        "    14 of 14 right, likely 78 to 100 %; time 4.0 s, pace goal 5.0 s",
        "  reading a 1 by 3 slant - new",
        "    1 of 2 right, likely 9 to 91 %; time 4.0 s, pace goal 5.0 s",
        "",
        "Days (the last 14):",
        "  2026-03-02  15 drills, 14 right, 1.0 minutes",
        "  2026-03-16  3 drills, 2 right, 0.2 minutes",
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
    fields = json.dumps({"schema": 1, **LOG[0].to_json(), "skill": "\x1b[31mred"})
    (tmp_path / "attempts.jsonl").write_text(fields + "\n\n")
    for manner in ((), ("--json",), ("--csv",)):
        status, out, err = call(tmp_path, "record", *manner)
        assert status == 0
        assert "\x1b" not in out + err


def test_a_repair_tells_what_it_put_aside(tmp_path: Path) -> None:
    """Line by line with the reason; then there is nothing to do; the notice of a damaged log names it."""
    log = tmp_path / "attempts.jsonl"
    log.write_text(json.dumps(LOG[0].to_json()) + '\nnot JSON\n{"schema":9}\n')
    assert "slantwise record --repair" in call(tmp_path, "record").err
    status, out, err = call(tmp_path, "record", "--repair")
    assert (status, err) == (0, "")
    assert out.splitlines() == [
        f"Put aside: 2 lines of the log, in {tmp_path / 'attempts.unreadable-1.txt'}. All others stay.",
        "  line 2: It is no JSON object.",
        "  line 3: A newer Slantwise wrote it.",
    ]
    assert log.read_text() == json.dumps(LOG[0].to_json()) + "\n"
    again = call(tmp_path, "record", "--repair")
    assert again == (0, "Every line of the log can be read; there is nothing to repair.\n", "")
    assert call(tmp_path, "record", "--repair", "--json").status == 2
