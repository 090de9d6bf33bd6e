"""Several programs and the command line at one folder at once, real programs killed and signalled."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from time import sleep
from typing import Final

from tests.hardness.tally import LostError, NotHereError, Trials
from tests.progress_store.logs import LOG

ANSWERING: Final = """
import sys
from pathlib import Path
from tests.trainer.cli.calling import call
for number in range(int(sys.argv[2])):
    answered = call(Path(sys.argv[1]), "drill", f"steps-1-{number}", "--text", typed="4 3\\n")
    if "Kept." in answered.out:
        print("kept", flush=True)
    elif answered.status != 2 and "Not kept" not in answered.out + answered.err:
        raise SystemExit(f"status {answered.status}: {answered.err}")
"""
READING: Final = """
import sys
from pathlib import Path
from tests.trainer.cli.calling import call
for _ in range(int(sys.argv[2])):
    read = call(Path(sys.argv[1]), "record", "--json")
    if read.status or read.err:
        raise SystemExit(f"status {read.status}: {read.err}")
"""
ANSWERS, LONG_ANSWERS = 5, 250
KILLS, SIGNALS = 100, 24


def at_once(trials: Trials) -> None:
    """Two programs answer drills in one folder while a third reads the record, again and again."""
    number = LONG_ANSWERS if trials.long else ANSWERS
    with trials.one("at once") as folder:
        scripts = [ANSWERING, ANSWERING, READING] if trials.long else [ANSWERING, ANSWERING]
        running = [_started(script, folder, number) for script in scripts]
        told = [process.communicate() for process in running]
        trials.tried += number * len(running) - 1
        for process, (_, complaint) in zip(running, told, strict=True):
            if process.returncode or complaint:
                raise RuntimeError(complaint[-300:])
        kept = sum(out.count("kept") for out, _ in told)
        ids = Counter(json.loads(line)["id"] for line in (folder / LOG).read_bytes().splitlines())
        if len(ids) != kept or set(ids.values()) != {1}:
            raise LostError(f"{kept} were said to be kept, {len(ids)} are there")


def _started(script: str, folder: Path, number: int) -> subprocess.Popen[str]:
    words = [sys.executable, "-c", script, str(folder), str(number)]
    return subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def command_killed(trials: Trials) -> None:
    """Kill the real command at random moments."""
    for at in range(KILLS):
        if trials.is_time_over:
            return
        with trials.one(f"kill {at}") as folder:
            process = _command(folder)
            sleep(trials.chance.random() * 0.8)
            process.send_signal(signal.SIGKILL)
            _compare(folder, process.communicate()[0])


def command_killed_at_system_calls(trials: Trials) -> None:
    """Kill the real command at each system call on its folder, by strace."""
    if shutil.which("strace") is None:
        raise NotHereError("no strace")
    at, was_reached = 1, True
    while was_reached and not trials.is_time_over:
        with trials.one(f"call {at}") as folder:
            data = folder / "data"
            names = ["", LOG, "state.json", "state.json.part", "settings.json", "slantwise.lock"]
            calls = f"inject=file,desc:signal=SIGKILL:when={at}"
            before = ["strace", "-f", "-qq", "-o", "/dev/null", "-e", "trace=file,desc", "-e", calls]
            before += [word for name in names for word in ("-P", str(data / name))]
            process = _command(data, before)
            said = process.communicate()[0]
            was_reached = process.returncode == -signal.SIGKILL
            if not was_reached and process.returncode != 0:
                raise NotHereError(f"strace ends with {process.returncode}")
            _compare(data, said)
        at += 1


def _command(folder: Path, before: Iterable[str] = ()) -> subprocess.Popen[str]:
    process = subprocess.Popen(
        [*before, sys.executable, "-m", "trainer", "drill", "steps-1-3", "--text"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "SLANTWISE_DATA": str(folder), "PYTHONUNBUFFERED": "1"},
    )
    if process.stdin is not None:
        process.stdin.write("4 3\n")
        process.stdin.flush()
    return process


def _compare(folder: Path, said: str) -> None:
    """Answer once more: that works, and what was said to be kept is there before it."""
    lines = (folder / LOG).read_bytes().splitlines() if (folder / LOG).exists() else []
    again = _command(folder)
    told, complaint = again.communicate()
    after = (folder / LOG).read_bytes().splitlines()
    if "Traceback" in complaint or again.returncode != 0 or "Kept." not in told:
        raise RuntimeError(complaint[-300:] or told[-300:])
    if "Kept." in said and not any(b'"steps-1-3"' in line for line in lines):
        raise LostError("the answer was said to be kept and is not there")
    whole = [line for line in after if line.endswith(b'"}')]
    if len({json.loads(line)["id"] for line in whole}) != len(whole):
        raise LostError("an answer is there twice")


def app_signalled(trials: Trials) -> None:
    """End the app in a terminal by a signal at random moments; the next one opens, and all kept is there."""
    if os.name == "nt":
        raise NotHereError("no such terminals")
    from tests.terminal import Terminal

    for at in range(SIGNALS):
        if trials.is_time_over:
            return
        number = trials.chance.choice([signal.SIGTERM, signal.SIGHUP])
        with trials.one(f"{number.name} {at}") as folder:
            opened = Terminal(folder, "drill", "steps-1-3")
            try:
                if at % 2:
                    opened.wait_for("across")
                    opened.type("43\r")
                sleep(trials.chance.random())
                opened.process.send_signal(number)
                status = opened.status()
            finally:
                opened.close()
            if status not in (128 + number, -number) or b"Traceback" in opened.written:
                raise RuntimeError(f"status {status}")
            log = (folder / LOG).read_bytes() if (folder / LOG).exists() else b""
            if b"Kept." in opened.written and not log.endswith(b'"}\n'):
                raise LostError("the answer was said to be kept and is not there")
            _compare(folder, "")
