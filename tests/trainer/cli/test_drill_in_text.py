"""`slantwise drill --text`: asked, answered, judged and kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from drills.questions.kinds import make, read_code
from progress_store import open_store
from tests.trainer.cli.calling import FORMS, NOW, call, codes, is_one_sentence, log_of
from tests.trainer.cli.test_sheet_in_text import own_answer, text_of
from trainer.cli.console import LONGEST_LINE
from trainer.practice.attempts import FLOORS, TOP_LEVELS


def test_a_right_answer_is_status_0_and_kept(tmp_path: Path) -> None:
    """The question, then what was answered, what is true, why, and that it is kept."""
    status, out, err = call(tmp_path, "drill", "steps-1-3", "--text", typed="4 across 3 up\n", terminal=True)
    assert (status, err) == (0, "")
    assert out.splitlines()[-5:] == [
        'Type one line: answer as in "1 across 2 up" or "1 2".',
        "You read 4 across 3 up. Right.",
        "It is 4 across 3 up.",
        "From its start the crease meets the next crossing of the grid 4 across 3 up.",
        "Kept.",
    ]


def test_a_wrong_answer_is_status_1_and_kept(tmp_path: Path) -> None:
    """With the tags that the board would light."""
    status, out, err = call(tmp_path, "drill", "labels-1-5", "--text", typed="aa\n", terminal=True)
    assert (status, err) == (1, "")
    assert out.splitlines()[-7:] == [
        "You marked 1 label: 0 right, 1 missed, 1 too many. Not right.",
        "Missed: al.",
        "Too many: aa.",
        "1 label is wrong; it should be a valley.",
        "The right answer: al.",
        "With yours switched, at 1 across, 1 down there are 3 mountains and 3 valleys; "
        "they must differ by 2.",
        "Kept.",
    ]
    assert [line["right"] for line in log_of(tmp_path)] == [False]


def test_the_attempt_is_kept_in_full(tmp_path: Path) -> None:
    """A drill that was picked, answered as text; the clock ticks every five seconds."""
    call(tmp_path, "drill", "steps-1-3", "--text", typed="4 3\n", terminal=True)
    (line,) = log_of(tmp_path)
    kept = {key: line[key] for key in ("code", "purpose", "means", "milliseconds", "inputs", "helped")}
    assert kept == {
        "code": "steps-1-3",
        "purpose": "picked",
        "means": "text",
        "milliseconds": 5000,
        "inputs": 1,
        "helped": False,
    }
    assert (line["at"], line["offset_minutes"]) == ("2026-03-02T18:30:00.000Z", 60)


def test_the_time_of_a_line_that_nobody_typed_is_not_kept(tmp_path: Path) -> None:
    """A line from a file or another program comes at once, and would be a pace nobody has."""
    assert call(tmp_path, "drill", "steps-1-3", "--text", typed="4 3\n").status == 0
    assert [line["milliseconds"] for line in log_of(tmp_path)] == [None]


def test_a_slip_is_right_and_named(tmp_path: Path) -> None:
    """The numbers the other way round."""
    status, out, _ = call(tmp_path, "drill", "steps-1-3", "--text", typed="3 4\n")
    assert status == 0
    assert "The right numbers the other way round: it is 4 across 3 up." in out
    assert [line["slip"] for line in log_of(tmp_path)] == ["exchanged"]


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_every_form_can_be_put_as_text(tmp_path: Path, kind: str, form: str) -> None:
    """The text is that of the drill, and its own answer is right, by code or by parts."""
    *_, code = codes(kind, form, 7)
    drill = make(code)
    parts = ("--kind", kind, "--level", str(code.level), "--seed", str(code.seed), "--form", form)
    for words in ((str(code),), parts):
        status, out, err = call(tmp_path, "drill", *words, "--text", typed=own_answer(drill))
        assert (status, err) == (0, "")
        assert out.startswith(text_of(drill))
        assert out.endswith("\nKept.\n")


@pytest.mark.parametrize("typed", ["", "\n", "   \n", "what?\n", "1 2" + " " * LONGEST_LINE + "\n"])
def test_what_is_no_answer_is_status_2_and_not_kept(tmp_path: Path, typed: str) -> None:
    """Nothing typed, the end of the input, a line that cannot be read or is too long."""
    status, out, err = call(tmp_path, "drill", "steps-1-3", "--text", typed=typed)
    assert status == 2
    assert out == text_of_steps_1_3()
    assert is_one_sentence(err)
    assert log_of(tmp_path) == []


def text_of_steps_1_3() -> str:
    """Return the text put before the answer to the smallest drill."""
    return text_of(make(read_code("steps-1-3"))) + "\n"


def test_nothing_answered_says_so(tmp_path: Path) -> None:
    """And what an answer looks like."""
    err = call(tmp_path, "drill", "sinks-2-5-join", "--text").err
    assert err == 'Nothing was answered; answer with one tag, as in "ac".\n'


@pytest.mark.parametrize(("typed", "status"), [("4 3", 0), ("1 2", 1)])
def test_a_locked_folder_leaves_the_verdict_standing(tmp_path: Path, typed: str, status: int) -> None:
    """It says in one sentence that the answer was not kept, and why."""
    with open_store(tmp_path, lambda: NOW, FLOORS, TOP_LEVELS):
        called = call(tmp_path, "drill", "steps-1-3", "--text", typed=typed)
    assert called.status == status
    assert "It is 4 across 3 up." in called.out
    assert "Kept." not in called.out
    assert called.err.startswith("This answer was not kept: Slantwise is already open in another window;")
    assert is_one_sentence(called.err)
    assert log_of(tmp_path) == []


def test_a_file_in_the_folders_place_leaves_the_verdict_standing(tmp_path: Path) -> None:
    """The status is that of the answer."""
    other = tmp_path / "file\x1b"
    other.write_text("mine")
    called = call(tmp_path, "drill", "steps-1-3", "--text", "--data", str(other), typed="4 3")
    assert called.status == 0
    assert called.err.startswith("This answer was not kept:")
    assert is_one_sentence(called.err)
    assert other.read_text() == "mine"


def test_what_the_store_found_is_told(tmp_path: Path) -> None:
    """A torn line is told on standard error, and the answer is kept after it."""
    call(tmp_path, "drill", "steps-1-3", "--text", typed="4 3")
    with (tmp_path / "attempts.jsonl").open("a") as log:
        log.write('{"torn')
    called = call(tmp_path, "drill", "steps-1-3", "--text", typed="4 3")
    assert (called.status, len(log_of(tmp_path))) == (0, 2)
    assert "was torn" in called.err
    assert called.out.endswith("Kept.\n")
