"""No network: whatever the program does, it opens no connection, no port and asks for no address."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from drills.fold_file import to_fold
from drills.questions import make, read_code

GUARD = """
import socket, sys

def refuse(event, arguments):
    if event == "socket.__new__" and arguments[1] not in (socket.AF_UNIX, -1):
        raise SystemExit(f"a socket of family {arguments[1]} was made")
    if event.startswith("socket.") and event != "socket.__new__":
        raise SystemExit(f"{event} {arguments[1:]}")
    if event in ("urllib.Request", "ftplib.connect", "http.client.connect", "smtplib.connect"):
        raise SystemExit(event)

sys.addaudithook(refuse)
"""
COMMANDS = """
from trainer.cli.main import main, system_clock
from trainer.cli.parser import Console
import json
import os
status = main(sys.argv[1:], Console(sys.stdin, sys.stdout, sys.stderr, system_clock(), os.environ))
raise SystemExit(None if status in (0, 1) else f"status {status}")
"""
APP = """
import asyncio
from pathlib import Path
from tests.trainer.screens.playing import playing

# the event loop needs a pair of sockets that are joined to each other, for which no address is asked
async def play():
    async with playing(Path(sys.argv[1])) as playing_now:
        await playing_now.keys("enter", "0", "enter", "question_mark", "escape", "q", "r", "escape")

asyncio.run(play())
"""


def run(folder: Path, script: str, *words: str) -> str:
    """Run a script under the guard; return what it complains of."""
    around = {**os.environ, "SLANTWISE_DATA": str(folder)}
    ended = subprocess.run(
        [sys.executable, "-c", GUARD + script, *words],
        input="none\n",
        capture_output=True,
        text=True,
        env=around,
        timeout=60,
    )
    return "" if ended.returncode == 0 else ended.stderr


@pytest.mark.parametrize(
    "words",
    [("record",), ("drill", "labels-1-1", "--text"), ("drill", "find-3-1", "--json"), ("plan", "labels-1-1")],
)
def test_no_command_uses_the_network(tmp_path: Path, words: tuple[str, ...]) -> None:
    """Nor reads, writes or answers anything there."""
    assert run(tmp_path, COMMANDS, *words) == ""


def test_checking_a_file_uses_no_network(tmp_path: Path) -> None:
    """Whatever the file says of where it is from."""
    sheet = tmp_path / "sheet.fold"
    sheet.write_text(json.dumps(to_fold(make(read_code("labels-1-1")).truth)))
    assert run(tmp_path, COMMANDS, "check", str(sheet)) == ""


def test_the_app_uses_no_network(tmp_path: Path) -> None:
    """From its opening through a drill, the help and the record to its end."""
    assert run(tmp_path, APP, str(tmp_path)) == ""


@pytest.mark.parametrize(
    "call", ["socket.create_connection(('127.0.0.1', 9))", "socket.gethostbyname('a.b')"]
)
def test_the_guard_sees_what_it_should(tmp_path: Path, call: str) -> None:
    """A connection and a question for an address end the script."""
    assert "socket" in run(tmp_path, f"socket.{call}")
