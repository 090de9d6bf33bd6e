"""The command as a process of its own: what it imports, closed pipes, other encodings."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.progress_store.making import attempt

HEAVY = {"textual", "rich", "numpy", "fsrs"}
WITH_MODULES = (
    "import sys; from trainer.cli.main import run; status = run();"
    " print(*sorted({name.split('.')[0] for name in sys.modules}), file=sys.stderr); sys.exit(status)"
)


def test_the_module_runs_as_the_command(tmp_path: Path) -> None:
    """`python -m trainer` answers with the version."""
    assert run(tmp_path, "-m", "trainer", "--version").stdout == "slantwise 0.1.0\n"


def run(folder: Path, *argv: str, typed: str = "", **environ: str) -> subprocess.CompletedProcess[str]:
    """Run Python with these words to its end, the data in the folder."""
    around = {**os.environ, "SLANTWISE_DATA": str(folder), **environ}
    return subprocess.run(
        [sys.executable, *argv],
        input=typed,
        capture_output=True,
        text=True,
        timeout=30,
        env=around,
        check=False,
    )


@pytest.mark.parametrize(
    ("words", "status"),
    [
        ("--version", 0),
        ("--help", 0),
        ("", 2),
        ("drill labels-3-41", 2),
        ("drill labels-3-41 --json", 0),
        ("record", 0),
        ("record --json", 0),
    ],
)
def test_what_needs_no_screen_imports_none(tmp_path: Path, words: str, status: int) -> None:
    """In a fresh interpreter neither the screen's packages nor the scheduler's are imported."""
    done = run(tmp_path / "none", "-c", WITH_MODULES, *words.split())
    modules = set(done.stderr.splitlines()[-1].split())
    assert done.returncode == status
    assert "trainer" in modules
    assert not HEAVY & modules


def test_a_drill_as_text_imports_no_screen(tmp_path: Path) -> None:
    """Keeping the answer needs the scheduler and nothing of the screen."""
    done = run(tmp_path, "-c", WITH_MODULES, "drill", "steps-1-3", "--text", typed="4 3\n")
    assert done.returncode == 0
    assert done.stdout.endswith("Kept.\n")
    assert not (HEAVY - {"fsrs"}) & set(done.stderr.split())


def test_a_closed_pipe_ends_the_process_quietly(tmp_path: Path) -> None:
    """One line is read of many and the reader goes away: nothing is said of it."""
    words = ["drill", "--kind", "steps", "--level", "1", "--seed", "1", "--count", "10000", "--json"]
    with subprocess.Popen(
        [sys.executable, "-m", "trainer", *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout
        assert process.stderr
        assert json.loads(process.stdout.readline())["code"] == "steps-1-1"
        process.stdout.close()
        assert process.stderr.read() == ""
        assert process.wait(timeout=30) == 141


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_is_one_sentence(tmp_path: Path) -> None:
    """Nothing more is said at the exit of the interpreter."""
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "trainer", "drill", "steps-1-3", "--json"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr == "It could not be read or written (No space left on device); try another place.\n"


def test_a_terminal_of_few_signs_gets_question_marks(tmp_path: Path) -> None:
    """What ASCII cannot hold is replaced, in input and output."""
    line = json.dumps(attempt(skill="\u00e4 skill of another version").to_json())
    (tmp_path / "attempts.jsonl").write_text(line + "\n")
    done = run(tmp_path, "-m", "trainer", "record", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert done.returncode == 0
    assert "? skill of another version" in done.stdout


def test_closed_streams_are_no_traceback(tmp_path: Path) -> None:
    """A program may start us with its streams shut."""
    if sys.platform == "win32":
        pytest.skip("needs a shell that shuts streams")
    command = f"'{sys.executable}' -m trainer drill steps-1-3 --text <&- >&-"
    done = subprocess.run(["sh", "-c", command], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.startswith("Nothing was answered;")
    assert len(done.stderr.splitlines()) == 1
