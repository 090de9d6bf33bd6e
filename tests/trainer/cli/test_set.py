"""Class sets: written, read, printed with their answers, and what is no set."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from drills.questions import make, read_code
from tests.trainer.cli.calling import call, is_one_sentence

SVG = "{http://www.w3.org/2000/svg}"
CODES = ["steps-3-4", "steps-2-7-place", "sinks-3-7-join", "labels-3-41", "find-3-3"]


def words(path: Path) -> str:
    """Return all words on a page."""
    root = ElementTree.fromstring(path.read_text(encoding="utf-8"))
    return " ".join(each.text or "" for each in root.iter(f"{SVG}text"))


def new_set(folder: Path, *words: str) -> Path:
    """Write a set and return its file."""
    path = folder / "monday.json"
    assert call(folder, "set", "new", str(path), *words).status == 0
    return path


def test_kinds_come_in_turn_and_the_same_seed_gives_the_same_set(tmp_path: Path) -> None:
    """Codes of the level asked for, each seed once."""
    path = new_set(tmp_path, "--kinds", "steps,labels", "--level", "3", "--count", "5", "--seed", "7")
    held = json.loads(path.read_text())
    assert held["slantwise:set"] == 1
    codes = [read_code(each) for each in held["drills"]]
    assert [(code.kind, code.level, code.seed) for code in codes] == [
        (("steps", "labels")[number % 2], 3, 7 + number) for number in range(5)
    ]


def test_a_file_that_is_there_is_not_written_over(tmp_path: Path) -> None:
    """Nothing is lost: its bytes stay."""
    path = new_set(tmp_path, *CODES)
    before = path.read_bytes()
    status, _, err = call(tmp_path, "set", "new", str(path), "find-3-3")
    assert status == 2
    assert is_one_sentence(err)
    assert path.read_bytes() == before


def test_a_set_is_printed_two_a_page_with_its_answers_in_the_same_order(tmp_path: Path) -> None:
    """Each question in its own words; its truth and why on the page of answers alone."""
    path = new_set(tmp_path, *CODES)
    out, answers = tmp_path / "sheets.svg", tmp_path / "answers.svg"
    assert call(tmp_path, "print", "--set", str(path), "-o", str(out), "--answers", str(answers)).status == 0
    for number, code in enumerate(CODES):
        drill = make(read_code(code))
        verdict = drill.judge(drill.question.right_answer(drill))
        asked, told = (words(tmp_path / f"{name}-{number // 2 + 1}.svg") for name in ("sheets", "answers"))
        assert f"{number + 1}. " in asked
        assert code in asked
        assert code in told
        assert verdict.truth in told
        assert verdict.truth not in asked
        assert verdict.why.split()[-1] in told
    assert not (tmp_path / "sheets-4.svg").exists()


def test_a_hidden_line_is_not_printed_with_the_question(tmp_path: Path) -> None:
    """Where inside lines are to be joined they are missing, and there with the answer."""
    path = new_set(tmp_path, "sinks-3-7-join")
    out, answers = tmp_path / "sheets.svg", tmp_path / "answers.svg"
    call(tmp_path, "print", "--set", str(path), "-o", str(out), "--answers", str(answers))
    asked, told = (
        len(list(ElementTree.fromstring(each.read_text(encoding="utf-8")).iter(f"{SVG}polyline")))
        for each in (out, answers)
    )
    # the line to write the answer on is there with the question alone
    assert told - (asked - 1) == len(make(read_code("sinks-3-7-join")).question.hidden) > 0


HOSTILE = {
    "empty": b"",
    "no JSON": b"{",
    "another file": b'{"file_spec": 1.2}',
    "no list": b'{"slantwise:set": 1, "drills": 7}',
    "no drills": b'{"slantwise:set": 1, "drills": []}',
    "too many": json.dumps({"slantwise:set": 1, "drills": ["labels-3-41"] * 201}).encode(),
    "no code": b'{"slantwise:set": 1, "drills": ["../../etc"]}',
    "no text": b'{"slantwise:set": 1, "drills": [["labels-3-41"]]}',
    "later": b'{"slantwise:set": 2, "drills": ["labels-3-41"]}',
    "deep": b"[" * 60_000,
    "large": b'{"slantwise:set": 1, "drills": ["' + b"a" * 10**6 + b'"]}',
    "no letters": b"\xff\xfe\x00",
}


@pytest.mark.parametrize("held", HOSTILE.values(), ids=list(HOSTILE))
def test_what_is_no_set_is_refused_in_a_sentence(tmp_path: Path, held: bytes) -> None:
    """Nothing is printed then, and the file stays as it was."""
    path, out = tmp_path / "monday.json", tmp_path / "sheets.svg"
    path.write_bytes(held)
    status, said, err = call(tmp_path, "print", "--set", str(path), "-o", str(out))
    assert (status, said) == (2, "")
    assert is_one_sentence(err)
    assert not out.exists()
    assert path.read_bytes() == held


@pytest.mark.parametrize(
    "words",
    [
        ("set", "new", "x.json"),
        ("set", "new", "x.json", "--kinds", "riddles"),
        ("set", "new", "x.json", "--kinds", "steps", "--count", "0"),
        ("set", "new", "x.json", "labels-3-41", "--kinds", "steps"),
        ("print", "-o", "x.svg"),
        ("print", "labels-3-41", "-o", "x.svg", "--answers", "y.svg"),
        ("drill", "labels-3-41", "--no-answers"),
    ],
)
def test_what_does_not_go_together_is_refused_in_a_sentence(tmp_path: Path, words: tuple[str, ...]) -> None:
    """It says what to give instead."""
    status, out, err = call(tmp_path, *words)
    assert (status, out) == (2, "")
    assert is_one_sentence(err)


def test_drills_as_json_without_answers(tmp_path: Path) -> None:
    """All else is the same."""
    whole, without = (
        [
            json.loads(line)
            for line in call(tmp_path, "drill", "labels-3-41", "--json", *more).out.splitlines()
        ]
        for more in ((), ("--no-answers",))
    )
    assert [{k: v for k, v in drill.items() if k != "answer"} for drill in whole] == without
    assert "answer" in whole[0]


@pytest.mark.parametrize("words", [("--name", "a" * 61), ("--name", "a\x1b"), ("--kinds", "steps"), ()])
def test_a_set_is_not_done_with_what_does_not_go_with_it(tmp_path: Path, words: tuple[str, ...]) -> None:
    """A name too long or with control signs, kinds, and where there is no terminal; no results are left."""
    path = new_set(tmp_path, *CODES)
    status, _, err = call(tmp_path, "set", "do", str(path), *words)
    assert status == 2
    assert is_one_sentence(err)
    assert [each.name for each in tmp_path.iterdir()] == [path.name]
