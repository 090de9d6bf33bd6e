"""The program in a real terminal: what is told as kept outlives a kill, and leaving restores the screen."""

from __future__ import annotations

import json
import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic

import pytest

pytest.importorskip("pty", reason="this system has no pseudo-terminals (pty)")
pytest.importorskip("termios", reason="this system cannot set a terminal's size (termios)")

from tests.terminal import DEADLINE, Terminal, plain

ENTER_SCREEN, LEAVE_SCREEN = b"\x1b[?1049h", b"\x1b[?1049l"
SHOW_CURSOR, MOUSE_OFF = b"\x1b[?25h", b"\x1b[?1000l"


@contextmanager
def terminal(folder: Path, *words: str) -> Iterator[Terminal]:
    """Open the program in a terminal and end it whatever happens."""
    opened = Terminal(folder, *words)
    try:
        yield opened
    finally:
        opened.close()


def test_what_is_told_as_kept_outlives_a_kill(tmp_path: Path) -> None:
    """Four across and three up answer steps-1-3; killed at the very word, the log has the answer."""
    with terminal(tmp_path, "drill", "steps-1-3") as opened:
        opened.wait_for("across")
        opened.type("43\r")
        opened.wait_for("Kept.")
        opened.process.kill()
        assert opened.process.wait() == -signal.SIGKILL
    (line,) = (tmp_path / "attempts.jsonl").read_text().splitlines()
    kept = json.loads(line)
    assert (kept["code"], kept["right"], kept["means"]) == ("steps-1-3", True, "keys")


def test_leaving_restores_the_terminal(tmp_path: Path) -> None:
    """The opening comes up on a screen of its own; q leaves it with status 0 and the cursor back."""
    (tmp_path / "settings.json").write_text('{"schema": 1, "started": true}')
    with terminal(tmp_path) as opened:
        opened.wait_for("5 MINUTES")
        assert ENTER_SCREEN in opened.written
        assert LEAVE_SCREEN not in opened.written
        opened.type("q")
        assert opened.status() == 0
        ending = opened.written[opened.written.rindex(ENTER_SCREEN) :]
        for sequence in (LEAVE_SCREEN, SHOW_CURSOR, MOUSE_OFF):
            assert sequence in ending
        assert b"Traceback" not in opened.written


def test_a_window_that_loses_the_keys_is_noticed(tmp_path: Path) -> None:
    """The terminal's own report of it, in the middle of a drill, leaves the drill without a time."""
    with terminal(tmp_path, "drill", "steps-1-3") as opened:
        opened.wait_for("across")
        opened.type("4\x1b[O\x1b[I3\r")
        opened.wait_for("Kept.")
        opened.type("qq")
        opened.wait_for("MINUTES")
        opened.type("q")
        assert opened.status() == 0
    assert json.loads((tmp_path / "attempts.jsonl").read_text())["milliseconds"] is None


@pytest.mark.parametrize("name", ["SIGTERM", "SIGHUP"])
def test_a_signal_ends_the_program_in_order(tmp_path: Path, name: str) -> None:
    """The terminal is as it was, the answer is kept, the lock is free, and the status says what ended it."""
    number = getattr(signal, name)
    (tmp_path / "settings.json").write_text('{"schema": 1, "started": true}')
    with terminal(tmp_path, "drill", "steps-1-3") as opened:
        opened.wait_for("across")
        opened.type("43\r")
        opened.wait_for("Kept.")
        opened.process.send_signal(number)
        assert opened.status() == 128 + number
        for sequence in (LEAVE_SCREEN, SHOW_CURSOR, MOUSE_OFF):
            assert sequence in opened.written
        assert b"Traceback" not in opened.written
    assert len((tmp_path / "attempts.jsonl").read_text().splitlines()) == 1
    with terminal(tmp_path) as again:
        again.wait_for("MINUTES")


def test_a_terminal_that_is_gone_ends_the_program(tmp_path: Path) -> None:
    """It does not run on unseen with the folder locked."""
    opened = Terminal(tmp_path, "drill", "steps-1-3")
    try:
        opened.wait_for("across")
        os.close(opened.handle)
        assert opened.process.wait(timeout=DEADLINE) == 128 + signal.SIGHUP
    finally:
        opened.process.kill()


def test_sleeping_and_waking(tmp_path: Path) -> None:
    """Ctrl+Z gives the terminal back and stops the program; woken it draws itself again."""
    with terminal(tmp_path, "drill", "steps-1-3") as opened:
        opened.wait_for("across")
        opened.type("\x1a")
        end = monotonic() + DEADLINE
        while not is_stopped(opened.process.pid):
            assert monotonic() < end
            opened.read()
        assert LEAVE_SCREEN in opened.written
        asleep = len(opened.written)
        opened.process.send_signal(signal.SIGCONT)
        opened.wait_for("across", after=asleep)
        opened.type("qqq")
        assert opened.status() == 0


def is_stopped(pid: int) -> bool:
    """Whether a process is stopped by job control."""
    return Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0] == "T"


def test_answers_that_cannot_be_kept_to_the_end_are_told(tmp_path: Path) -> None:
    """How many, and why, when the screen is left; status 2."""
    folder = tmp_path / "data"
    with terminal(folder, "drill", "steps-1-3") as opened:
        opened.wait_for("across")
        folder.rename(tmp_path / "away")
        opened.type("43\r")
        opened.wait_for("Not kept yet")
        opened.type("qqq")
        assert opened.status() == 2
        assert b"1 answer could not be kept to the end" in plain(opened.written)
        assert b"Traceback" not in opened.written
