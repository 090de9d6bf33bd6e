"""The command as a process of its own: what it imports, closed pipes, other encodings."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest

from tests.progress_store.making import attempt

THIRD_PARTY = {
    "argcomplete",
    "textual",
    "rich",
    "numpy",
    "fsrs",
    "filelock",
    "platformdirs",
    "typing_extensions",
}
STANDARD = Path(__file__).parents[2] / "drills" / "fold_file" / "standard"
WITH_MODULES = (
    "import sys; from trainer.__main__ import run; status = run();"
    " print(*sys.modules, file=sys.stderr); sys.exit(status)"
)


def test_the_module_runs_as_the_command(tmp_path: Path) -> None:
    """`python -m trainer` answers with the version."""
    assert run(tmp_path, "-m", "trainer", "--version").stdout == f"slantwise {version('slantwise')}\n"


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


TOLD = {"trainer", "trainer.__main__"}
COMMAND = TOLD | {"trainer.cli", "trainer.given"}
PATTERNS = {
    "drills",
    *(f"drills.{room}" for room in ("flatfold", "fold_file", "geometry", "pattern", "structures")),
}
QUESTIONS = PATTERNS | {"drills.questions"}
PRACTICE = QUESTIONS | {"progress_store", "trainer.practice"}
DRAWN = {"trainer.board", "trainer.text"}
ASKED = DRAWN | {"trainer.actions", "trainer.answering", "trainer.ways_of_asking"}
LOADED = {
    "--version": (0, TOLD, set()),
    "--help": (0, COMMAND, set()),
    "": (2, COMMAND, set()),
    "drill labels-3-41": (2, COMMAND | QUESTIONS | ASKED, set()),
    "drill labels-3-41 --json": (0, COMMAND | QUESTIONS | ASKED, set()),
    "drill steps-1-3 --text": (0, COMMAND | PRACTICE | ASKED, {"filelock", "fsrs", "typing_extensions"}),
    "today": (2, COMMAND | PRACTICE | ASKED, {"filelock", "fsrs", "typing_extensions"}),
    "today --text": (2, COMMAND | PRACTICE | ASKED, {"filelock", "fsrs", "typing_extensions"}),
    "check FILE": (0, COMMAND | PATTERNS | DRAWN | {"trainer.strokes"}, set()),
    "check FILE --json": (0, COMMAND | PATTERNS | DRAWN | {"trainer.strokes"}, set()),
    "plan FILE": (0, COMMAND | QUESTIONS | DRAWN | {"drills.plan", "trainer.strokes"}, set()),
    "record": (0, COMMAND | PRACTICE | DRAWN, {"numpy"}),
    "completion fish": (0, COMMAND, {"argcomplete"}),
    "merge DIR": (2, COMMAND | PRACTICE, {"filelock"}),
}
"""For each command its exit status, the most that it loads of ours, and of others' packages."""


@pytest.mark.parametrize("words", LOADED)
def test_a_command_loads_only_what_it_needs(tmp_path: Path, words: str) -> None:
    """In a fresh interpreter: none the screens, only an answer that is kept the scheduler."""
    status, ours, theirs = LOADED[words]
    named = {"FILE": str(STANDARD / "diagonal-cp.fold"), "DIR": str(tmp_path / "nothing")}
    argv = [named.get(word, word) for word in words.split()]
    done = run(tmp_path / "none", "-c", WITH_MODULES, *argv, typed="4 3\n")
    assert done.returncode == status, done.stderr
    loaded = set(done.stderr.splitlines()[-1].split())
    is_ours = {name for name in loaded if name.split(".")[0] in ("drills", "progress_store", "trainer")}
    assert {room_of(name) for name in is_ours} <= ours
    others = {name.split(".")[0] for name in loaded - is_ours} - set(sys.stdlib_module_names)
    assert not (others & THIRD_PARTY) - theirs


def room_of(name: str) -> str:
    """Return the package or the module of ours that a module is in, as a reader of the tree would say."""
    room, *rest = name.split(".")
    return room if room == "progress_store" else ".".join([room, *rest[:1]])


def test_help_and_version_load_no_command(tmp_path: Path) -> None:
    """The list of commands is printed from their names; no module of theirs is read."""
    for words in ("--version", "--help"):
        loaded = run(tmp_path, "-c", WITH_MODULES, words).stderr.splitlines()[-1].split()
        assert not [name for name in loaded if name.endswith("_command")]


def test_a_closed_pipe_ends_the_process_quietly(tmp_path: Path) -> None:
    """One line is read of many and the reader goes away: nothing is said of it."""
    words = ["drill", "steps-1-1", "--count", "10000", "--json"]
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
def test_a_version_that_cannot_be_written_is_refused(tmp_path: Path) -> None:
    """The short way to the version leaves no traceback either."""
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "trainer", "--version"], stdout=full, stderr=subprocess.PIPE, check=False
        )
    assert done.returncode == 2
    assert done.stderr.count(b"\n") == 1


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
