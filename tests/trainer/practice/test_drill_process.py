"""The process that makes drills: the same drills, and never longer than the program."""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from time import monotonic, sleep

import pytest

from drills.questions import make, read_code
from trainer.practice import drill_process
from trainer.practice.drill_process import DrillProcess, drills_made_ahead, serve
from trainer.practice.lesson_pages import LESSON
from trainer.practice.making import MakingAhead

ROOT = Path(__file__).parents[3]
DEADLINE = 20.0


def test_drills_of_codes_and_of_the_lesson_come_as_they_are_made_here() -> None:
    """Equal in all that they hold."""
    code, page = read_code("labels-3-41"), LESSON.pages[0].parts[0].make
    with drills_made_ahead() as making:
        making.prepare([code, page])
        for wanted, here in ((code, make(code)), (page, page())):
            found = making.on_its_way(wanted)
            assert found
            assert found.result(DEADLINE) == here
            assert making.take(wanted) == here


def test_it_answers_each_wish_until_there_are_no_more() -> None:
    """A drill that cannot be made is answered too."""
    code, drills = read_code("steps-1-3"), BytesIO()
    serve(BytesIO(pickle.dumps(code) + pickle.dumps(len) + pickle.dumps(code)), drills)
    drills.seek(0)
    assert [pickle.load(drills) for _ in range(3)] == [make(code), None, make(code)]
    assert not drills.read()


def test_once_killed_it_makes_nothing_more() -> None:
    """Neither one that has run nor one that has not."""
    process = DrillProcess()
    assert process.make(read_code("steps-1-3"))
    process.kill()
    with pytest.raises(RuntimeError):
        process.make(read_code("steps-1-3"))
    process.close()
    process.close()
    never = DrillProcess()
    never.close()
    with pytest.raises(RuntimeError):
        never.make(read_code("steps-1-3"))


@pytest.mark.skipif(sys.platform == "win32", reason="signals are those of POSIX")
def test_where_it_hangs_drills_are_made_without_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is ended once the limit is over; the thread goes on alone, which is not that of the screen."""
    process, codes = DrillProcess(), [read_code(f"steps-1-{seed}") for seed in (3, 4, 5)]
    process.make(codes[0])
    assert process._process
    os.kill(process._process.pid, signal.SIGSTOP)
    monkeypatch.setattr(drill_process, "LIMIT", 0.2)
    making = MakingAhead(process.make, process.kill)
    making.prepare(codes[1:])
    for code in codes[1:]:
        found = making.on_its_way(code)
        assert found
        assert found.result(DEADLINE) == make(code)
    making.close()
    process.close()
    assert process._process.returncode == -signal.SIGKILL


@pytest.mark.skipif(sys.platform == "win32", reason="signals are those of POSIX")
def test_it_ends_with_a_program_that_is_killed() -> None:
    """Nobody is left who could ask it."""
    program = (
        "from trainer.practice.drill_process import DrillProcess\n"
        "from drills.questions import read_code\n"
        "process = DrillProcess()\n"
        "process.make(read_code('steps-1-3'))\n"
        "print(process._process.pid, flush=True)\n"
        "input()\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", program], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as parent:
        assert parent.stdout
        child = int(parent.stdout.readline())
        assert is_running(child)
        parent.send_signal(signal.SIGKILL)
    end = monotonic() + DEADLINE
    while is_running(child):
        assert monotonic() < end, "it is still there"
        sleep(0.02)


def is_running(process: int) -> bool:
    """Whether there is such a process, and not only what is left of one until it is waited for."""
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    status = Path(f"/proc/{process}/stat")
    return not (status.exists() and status.read_text().rpartition(")")[2].split()[0] == "Z")
