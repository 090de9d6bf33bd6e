"""Files of the data folder that are cut, flipped, or never were ours."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Any, Final

from drills.questions import Drill
from progress_store import Attempt
from tests.hardness.practising import look_through
from tests.hardness.tally import LostError, Trials
from tests.progress_store.logs import LOG, checked, lines, newer
from tests.progress_store.making import LATER, attempt, store
from tests.trainer.cli.calling import call
from tests.trainer.practice.making import Hands, go_through
from tests.trainer.practice.making import store as practising
from trainer.practice.resuming import left_of, seconds_left_today
from trainer.practice.rounds import today
from trainer.practice.session import PracticeSession

WHOLE: Final = [attempt(number) for number in range(12)]
LAST: Final = 3
STEP, FLIPS, LONG_FLIPS = 9, 100, 10_000


def log_cut(trials: Trials) -> None:
    """Cut the log at every byte of its last lines; in the short run at every ninth."""
    content = checked(WHOLE)
    begin = len(checked(WHOLE[:-LAST]))
    for at in range(begin, len(content), 1 if trials.long else STEP):
        if trials.is_time_over:
            return
        with trials.one(f"byte {at}") as folder:
            (folder / LOG).write_bytes(content[:at])
            whole = content[: at + 1].count(b"\n")
            end = content[content.rfind(b"\n", 0, at) + 1 : at]
            look_through(folder, {each.id for each in WHOLE[:whole]}, [end])


def byte_flipped(trials: Trials) -> None:
    """Flip a byte of log, state or settings: answers of other lines stay, and none becomes another."""
    with trials.one("practice") as made:
        with store(made) as opened:
            for each in WHOLE:
                opened.keep(each)
        _leave_a_round(made / "round")
        (made / "settings.json").write_bytes((made / "round" / "settings.json").read_bytes())
        sound = {name: (made / name).read_bytes() for name in (LOG, "state.json", "settings.json")}
    trials.tried -= 1
    for number in range(LONG_FLIPS if trials.long else FLIPS):
        if trials.is_time_over:
            return
        name = trials.chance.choice([LOG, LOG, "state.json", "settings.json"])
        at = trials.chance.randrange(len(sound[name]))
        byte = trials.chance.randrange(1, 256)
        with trials.one(f"{name}, byte {at} ^ {byte}") as folder:
            for other, content in sound.items():
                (folder / other).write_bytes(content)
            flipped = bytearray(sound[name])
            flipped[at] ^= byte
            (folder / name).write_bytes(flipped)
            touched = _touched(sound[LOG], at) if name == LOG else set[int]()
            _look_for_all_but(folder, touched)
            if name == "settings.json":
                _take_up(folder)
            if number % 20 == 0:
                _use(folder)


def _touched(log: bytes, at: int) -> set[int]:
    """Return the lines that a byte belongs to; a line end belongs to both."""
    line = log[:at].count(b"\n")
    return {line, line + 1} if log[at : at + 1] == b"\n" else {line}


def _look_for_all_but(folder: Path, touched: set[int]) -> None:
    with store(folder) as opened:
        found = set(opened.attempts)
        untouched = {each for number, each in enumerate(WHOLE) if number not in touched}
        if gone := untouched - found:
            raise LostError(f"{sorted(each.id for each in gone)} are gone")
        if strange := {each for each in found - set(WHOLE) if "-" in each.id}:
            raise LostError(f"{sorted(each.id for each in strange)} is another answer")
        if touched and len(found) < len(WHOLE) and not opened.notices:
            raise LostError("nothing is told")


def _use(folder: Path) -> None:
    """Answer a drill and ask for the record; LostError where what is said to be kept is not in the log."""
    record = call(folder, "record", "--json")
    answered = call(folder, "drill", "steps-1-3", "--text", typed="4 3\n")
    for told in (record, answered):
        if told.status not in (0, 2):
            raise RuntimeError(f"status {told.status}: {told.err}")
    if "\nKept." in answered.out and b'"code":"steps-1-3"' not in (folder / LOG).read_bytes():
        raise LostError("the answer was said to be kept and is not in the log")


def _leave_a_round(folder: Path) -> None:
    """Go through two drills of a round and leave it in the third."""
    hands = Hands()
    with practising(folder, hands) as opened:
        session = today(opened, hands.clock)
        for _ in range(2):
            go_through(session, hands, _drill_of(session), seconds=20)
        _drill_of(session)
        opened.save_settings(replace(opened.settings, left=left_of(session)))


def _take_up(folder: Path) -> None:
    """Take up the round of the day, as the app does."""
    hands = Hands()
    hands.wait(3600)
    with practising(folder, hands) as opened:
        seconds_left_today(opened)
        _drill_of(today(opened, hands.clock))


def _drill_of(session: PracticeSession) -> Drill:
    drill = session.next_drill()
    if drill is None:
        raise RuntimeError("the round has no drill")
    return drill


def odd_logs(trials: Trials) -> None:
    """Take logs that no program of ours wrote, or that something changed since."""
    _odd(trials, LOG, [*_odd_logs(), *_odd_bytes()])


def odd_states(trials: Trials) -> None:
    """Put state files of all kinds beside a sound log."""
    fields = {"schema": 1, "log_bytes": 0, "log_hash": "", "rules": {}, "state_hash": "", "state": None}
    state = {"attempts": 3, "skills": {}, "last": None}
    states: list[Any] = [None, [], state, {**state, "skills": {"a": []}}, 1e300]
    lengths: list[Any] = [-1, 1e308, "1", None, [], 10**400]
    odd = [{**fields, "state": each} for each in states]
    odd += [{**fields, "log_bytes": each, "state": state} for each in lengths]
    texts = [json.dumps(each).encode() for each in odd]
    texts += [b'{"schema":1,"log_bytes":1e999}', b'{"schema":1,"state":Infinity}', b'{"schema":NaN}']
    _odd(trials, "state.json", [*texts, *_odd_bytes()])


ODD_SETTINGS: Final[dict[str, list[Any]]] = {
    "minutes_a_day": [0, -1, 10**400, 1.5, True, "5", None, [5]],
    "theme": ["\x1b[31m", "[bold]", "", 5, "x" * 200],
    "lesson": [-1, 1e9, "2"],
    "blocks": [2, "yes"],
    "left": [[], 5, {}, {"day": "x"}, {"done": [[1, 2]]}, {"seconds": 10**400}],
}


def odd_settings(trials: Trials) -> None:
    """Put settings files of all kinds beside a sound log."""
    odd = [{"schema": 1, name: value} for name, values in ODD_SETTINGS.items() for value in values]
    _odd(trials, "settings.json", [*(json.dumps(each).encode() for each in odd), *_odd_bytes()])


def _odd(trials: Trials, name: str, contents: list[bytes]) -> None:
    """Use a folder with each file in place of its own: the bytes stay, and sound answers are not lost."""
    for number, content in enumerate(contents):
        with trials.one(f"{name} {number}: {content[:30]!r}") as folder:
            if name != LOG:
                (folder / LOG).write_bytes(checked(WHOLE))
            (folder / name).write_bytes(content)
            if name == "settings.json":
                _take_up(folder)
            _use(folder)
            if name != LOG:
                _look_for_all_but(folder, set())
            held = [file.read_bytes() for file in folder.iterdir() if file.is_file()]
            if name == LOG and not _is_held(content, held):
                raise LostError("bytes of the file are in no file any more")


def _is_held(content: bytes, held: list[bytes]) -> bool:
    """Whether whole lines are in one file and a torn end in one too."""
    cut = content.rfind(b"\n") + 1
    return all(any(part in each for each in held) for part in (content[:cut], content[cut:]))


def _odd_logs() -> Iterator[bytes]:
    sound = checked(WHOLE[:2])
    ahead = attempt(9, at=LATER + timedelta(days=4000))
    changes: list[Callable[[Attempt], bytes]] = [
        lambda each: lines([each]).replace(b'"level": 1', b'"level": ' + b"9" * 400),
        lambda each: lines([each]).replace(b'"skill": "steps 1:2"', b'"skill": ["a", {}]'),
        lambda each: lines([each]).replace(b'"gaps": []', b'"gaps": [1e999]'),
        lambda each: lines([each]).replace(b'"right": true', b'"right": 1'),
        lambda each: lines([each]).replace(b'"code": "', b'"code": "[bold]\\u202e..'),
        lambda each: lines([each])[:-1] * 3 + b"\n",
    ]
    yield from (sound + change(attempt(5)) for change in changes)
    yield sound + checked([ahead]) * 2
    yield newer() + sound
    yield sound + newer() * 3
    yield sound.replace(b"\n", b"\r\n")
    yield sound.replace(b"\n", b"\r")
    yield sound[:-1]
    yield b"\xef\xbb\xbf" + sound
    yield sound.decode().encode("utf-16")
    yield sound + bytes(5000) + sound
    yield b"{" * 400 + b"\n" + sound
    yield b'{"student": 1}\n' * 50
    yield sound + b'{"schema":9}\n'
    yield sound * 3
    yield b"\n" * 1000 + sound


def _odd_bytes() -> list[bytes]:
    return [
        b"", b"\0", bytes(4096), b"null", b"[]", b"{}", b"{", b"[" * 100_000, b'{"schema": 1}',
        b'{"schema": 2}', b'{"schema": 1e999}', b'{"schema": "1"}', b"\xff\xfe{\0}\0", b"\x89PNG\r\n\x1a\n\0",
        b"text\n", b"\x1b[31m\n",
    ]  # fmt: skip


def no_files(trials: Trials) -> None:
    """Put a folder, a pipe or a link that leads nowhere in the place of each file."""
    for name in (LOG, "state.json", "settings.json", "slantwise.lock", "attempts (1).jsonl"):
        for kind in ("folder", "pipe", "dangling link", "circle"):
            with trials.one(f"{name} is a {kind}") as folder:
                _put(folder / name, kind)
                _use(folder)


def _put(path: Path, kind: str) -> None:
    if kind == "folder":
        path.mkdir()
    elif kind == "pipe":
        os.mkfifo(path)
    else:
        path.symlink_to(path.name if kind == "circle" else "nowhere")
