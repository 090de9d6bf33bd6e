"""What a shell is told when a line is to be completed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.trainer.cli.calling import call
from trainer.cli.completion_command import SHELLS
from trainer.cli.main import COMMANDS

SEPARATOR = "\n"


def completed(folder: Path, line: str) -> set[str]:
    """Return what may stand at the end of a line, as the program answers a shell."""
    answers = folder / "answers"
    asked = {
        "_ARGCOMPLETE": "1",
        "_ARGCOMPLETE_IFS": SEPARATOR,
        "_ARGCOMPLETE_STDOUT_FILENAME": str(answers),
        "COMP_LINE": line,
        "COMP_POINT": str(len(line)),
    }
    subprocess.run([sys.executable, "-m", "trainer"], env={**os.environ, **asked}, timeout=30, check=True)
    return {word.strip() for word in answers.read_text().split(SEPARATOR) if word.strip()}


def test_commands_and_their_options_are_completed(tmp_path: Path) -> None:
    """All commands where none is begun, those that fit where one is, and each one's own options."""
    assert set(COMMANDS) <= completed(tmp_path, "slantwise ")
    assert completed(tmp_path, "slantwise me") == {"merge"}
    assert {"--kind", "--level", "--json", "--data"} <= completed(tmp_path, "slantwise drill --")
    assert completed(tmp_path, "slantwise completion z") == {"zsh"}


@pytest.mark.parametrize("shell", SHELLS)
def test_the_script_is_one_that_the_shell_reads(tmp_path: Path, shell: str) -> None:
    """It names the command, and the shell finds no fault where it is there."""
    status, script, err = call(tmp_path, "completion", shell)
    assert (status, err) == (0, "")
    assert "slantwise" in script
    if shutil.which(shell):
        subprocess.run([shell, "-n"], input=script, text=True, timeout=30, check=True)
