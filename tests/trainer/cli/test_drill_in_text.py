"""`slantwise drill --text`: asked, answered, judged and kept."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from drills.questions import Drill, Outlines, make, read_code
from progress_store import Store, open_store
from tests.trainer.cli.calling import FORMS, NOW, call, codes, is_one_sentence, larger_codes, log_of
from tests.trainer.cli.test_sheet_in_text import own_answer, text_of
from trainer.cli import drill_command
from trainer.cli.parser import LONGEST_LINE, Console
from trainer.practice.attempts import floors, levels
from trainer.text.asked import tags_of


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
    assert out.splitlines()[-8:] == [
        "You marked 1 label: 0 right, 1 too many. You missed 1. Not right.",
        "Missed: al.",
        "Too many: aa.",
        "1 label is wrong; it should be a valley.",
        "The right answer: al.",
        "Out of balance: 3M 3V at (5; 4), 2M 2V at (5; 1).",
        "Both ends are out of balance; switching this one mends both. "
        "The label of the ridge you marked was correct: "
        "once the wrong ones are switched, its end inside the sheet balances.",
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


def test_finding_is_told_in_text(tmp_path: Path) -> None:
    """How to answer; then what was found, how many there are, and the creases of each outline."""
    drill = next(made for made in map(make, codes("find", "mark", 12)) if has_stretches(made, 1))
    tags = tags_of(drill)
    assert isinstance(drill.question.answer, Outlines)
    (outline,) = drill.question.answer.edges
    words = ("drill", drill.code, "--text")
    status, out, _ = call(tmp_path, *words, typed=own_answer(drill))
    assert status == 0
    assert 'answer with the tag of one crease of each, as in "aa ac", or "none"' in out
    in_order = ", ".join(tag for edge, tag in tags.items() if edge in outline)
    assert out.splitlines()[-5:-2] == [
        "You marked 1 place: 1 found. Right.",
        "There is 1 slanted stretch.",
        f"An outline: {in_order}.",
    ]
    status, out, _ = call(tmp_path, *words, typed="none")
    assert status == 1
    assert "You marked nothing. Not right.\nThere is 1 slanted stretch.\n" in out
    assert [line["misses"] for line in log_of(tmp_path)] == [0, 1]


def has_stretches(drill: Drill, number: int) -> bool:
    """Whether so many stretches are to be found."""
    return isinstance(drill.question.answer, Outlines) and len(drill.question.answer.edges) == number


def test_a_sheet_without_a_stretch_is_answered_with_none(tmp_path: Path) -> None:
    """And naming a crease is a false alarm."""
    drill = next(made for made in map(make, codes("find", "mark", 40)) if has_stretches(made, 0))
    status, out, _ = call(tmp_path, "drill", drill.code, "--text", typed="none")
    assert status == 0
    assert "There is no slanted stretch on this sheet." in out
    assert call(tmp_path, "drill", drill.code, "--text", typed="aa").status == 1
    assert [line["false_alarms"] for line in log_of(tmp_path)] == [0, 1]


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_larger_drills_can_be_put_as_text(tmp_path: Path, kind: str, form: str) -> None:
    """At the highest level too the drill's own answer is right."""
    *_, code = larger_codes(kind, form, 1)
    status, out, err = call(tmp_path, "drill", str(code), "--text", typed=own_answer(make(code)))
    assert (status, err) == (0, "")
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
    """It says in one sentence before the question that the answer cannot be kept, and why."""
    with open_store(tmp_path, lambda: NOW, floors(), levels()):
        called = call(tmp_path, "drill", "steps-1-3", "--text", typed=typed)
    assert called.status == status
    assert "It is 4 across 3 up." in called.out
    assert called.out.endswith("Not kept.\n")
    assert called.err.startswith("This answer cannot be kept: Slantwise is already open in another window;")
    assert is_one_sentence(called.err)
    assert log_of(tmp_path) == []


def test_a_file_in_the_folders_place_leaves_the_verdict_standing(tmp_path: Path) -> None:
    """The status is that of the answer."""
    other = tmp_path / "file\x1b"
    other.write_text("mine")
    called = call(tmp_path, "drill", "steps-1-3", "--text", "--data", str(other), typed="4 3")
    assert called.status == 0
    assert called.err.startswith("This answer cannot be kept:")
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


def test_nothing_is_kept_where_no_record_is_asked_for(tmp_path: Path) -> None:
    """The folder is not even made, and nothing is said of keeping."""
    folder = tmp_path / "none"
    called = call(folder, "drill", "steps-1-3", "--text", "--no-record", typed="4 3")
    assert (called.status, called.err) == (0, "")
    assert "ept" not in called.out
    assert not folder.exists()


def test_no_record_goes_with_text_alone(tmp_path: Path) -> None:
    """It is refused in one sentence elsewhere."""
    called = call(tmp_path, "drill", "steps-1-3", "--no-record")
    assert called.status == 2
    assert is_one_sentence(called.err)


def test_a_folder_that_becomes_free_meanwhile_keeps_the_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was said before was true then."""
    held = open_store(tmp_path, lambda: NOW, floors(), levels())
    monkeypatch.setattr("trainer.cli.drill_command._answered", answering(held))
    called = call(tmp_path, "drill", "steps-1-3", "--text", typed="4 3")
    assert called.err.startswith("This answer cannot be kept:")
    assert called.out.endswith("Kept.\n")
    assert len(log_of(tmp_path)) == 1


def answering(held: Store) -> Callable[[Console], object]:
    """Return what reads the answer, and before it lets the folder go."""
    read = drill_command._answered

    def reading(console: Console) -> object:
        held.close()
        return read(console)

    return reading
