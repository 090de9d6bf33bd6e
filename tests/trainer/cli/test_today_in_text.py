"""`slantwise today --text`: a whole round as plain text."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from io import StringIO
from pathlib import Path

import pytest

from drills.questions import Drill, make, read_code
from progress_store import open_store
from tests.trainer.cli.calling import Called, Terminal, call, clock, is_one_sentence, log_of
from tests.trainer.cli.test_sheet_in_text import own_answer
from trainer.cli.main import main
from trainer.cli.parser import Console
from trainer.practice.attempts import floors, levels

Answers = Callable[[Drill], str]


class Reader(StringIO):
    """A person who reads what was said last of a drill, and types a line."""

    def __init__(self, said: StringIO, lines: Iterator[str] | Answers) -> None:
        super().__init__()
        self._said, self._lines = said, lines

    def isatty(self) -> bool:
        """Return what a terminal returns."""
        return True

    def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override]  # of text, not of bytes
        """Return the next line; an empty one is the end."""
        if not callable(self._lines):
            return next(self._lines, "")
        (*_, code) = re.findall(r"^[A-Z].*, ([a-z]+-[0-9].*)\.$", self._said.getvalue(), re.MULTILINE)
        return f"{self._lines(make(read_code(code)))}\n"


def practised(folder: Path, lines: Iterator[str] | Answers, seconds_apart: float = 4.0) -> Called:
    """Go through a round of the day with a person who types these lines."""
    stdout, stderr = Terminal(), StringIO()
    console = Console(
        Reader(stdout, lines), stdout, stderr, clock(seconds_apart), {"SLANTWISE_DATA": str(folder)}
    )
    return Called(main(["today", "--text"], console), stdout.getvalue(), stderr.getvalue())


def test_a_round_is_gone_through_to_its_end(tmp_path: Path) -> None:
    """Right answers, one line each; what was worked is not asked, and the end says what came of it."""
    status, out, err = practised(tmp_path, own_answer)
    assert (status, err) == (0, "")
    lines = log_of(tmp_path)
    assert len(lines) > 5
    assert all(line["right"] and line["means"] == "text" for line in lines)
    assert out.count("Kept.") == out.count("Type one line") == len(lines)
    assert out.count("is worked for you") > 0
    counted = [line for line in lines if line["purpose"] == "today"]
    assert f"{len(counted)} of {len(counted)} right" in out
    assert "Tomorrow: " in out


def test_a_round_that_is_left_is_gone_on_with(tmp_path: Path) -> None:
    """With q, or at the end of the input, at the drill that was in hand; nothing answered is status 2."""
    for leaving in (iter(["q\n"]), iter([])):
        status, out, _ = practised(tmp_path, leaving)
        assert status == 2
    asked = re.findall(r", ([a-z]+-[0-9.-]+)\.$", out, re.MULTILINE)[-1]
    again = practised(tmp_path, iter(["q\n"])).out
    assert asked in again
    assert "5:00 left" not in again
    assert log_of(tmp_path) == []


def test_hint_and_reason_are_told_and_the_question_stands(tmp_path: Path) -> None:
    """A line that cannot be read is asked for again; an answer after a hint is kept as helped."""
    status, out, _ = practised(tmp_path, iter(["h\n", "W\n", "seven?\n", "9 8\n"]))
    assert status == 2  # it was half worked, which does not count
    assert out.count("This is new to you") == 5  # two worked, two half worked, and why one is met
    assert "That cannot be read" in out
    assert [(line["right"], line["helped"]) for line in log_of(tmp_path)] == [(False, True)]


def test_a_folder_in_use_is_one_sentence(tmp_path: Path) -> None:
    """The round would not be kept, so it is not begun."""
    with open_store(tmp_path, clock(1).now, floors(), levels()):
        status, out, err = call(tmp_path, "today", "--text")
    assert (status, out) == (2, "")
    assert is_one_sentence(err)


@pytest.mark.parametrize("typed", ["4 3\n" * 8])
def test_lines_that_nobody_typed_have_no_time(tmp_path: Path, typed: str) -> None:
    """A file of answers is no pace of anybody's."""
    call(tmp_path, "today", "--text", typed=typed)
    assert {line["milliseconds"] for line in log_of(tmp_path)} == {None}


def test_without_text_it_wants_a_terminal(tmp_path: Path) -> None:
    """It opens the app in today's round, which needs one."""
    status, _, err = call(tmp_path, "today")
    assert status == 2
    assert "needs a terminal" in err
