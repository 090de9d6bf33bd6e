"""A data folder in use: practised in, and looked through afterwards for what was said to be kept."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import Final

from progress_store import Settings, State, Store, StoreError
from tests.hardness.tally import LostError
from tests.progress_store.logs import LOG, checked
from tests.progress_store.making import RULES, attempt, store

UNREADABLE: Final = b'{"schema":2,"id":"half of a line","and":"no more\n'
TORN: Final = b'{"schema":2,"id":"torn'
OLD: Final = [attempt(number) for number in range(4)]
COPIED: Final = [attempt(number) for number in (10, 11)]
THERE: Final = [attempt(number) for number in (20, 21, 22)]
NEW: Final = [attempt(number) for number in range(30, 35)]
MINUTES: Final = 9

Say = Callable[[str], None]
"""Takes what is said to be kept: the id of an answer, or "settings"."""


def prepared(folder: Path) -> None:
    """Fill a folder as a hard life leaves it: with a torn end, an unreadable line and a second log."""
    (folder / LOG).write_bytes(checked(OLD[:2]) + UNREADABLE + checked(OLD[2:]) + TORN)
    (folder / "attempts (1).jsonl").write_bytes(checked(COPIED))
    (folder / "settings.json").write_bytes(b'{"schema": 1, "minutes_a_day": 7}\n')


def other_machine(folder: Path) -> Path:
    """Fill the folder of another machine."""
    folder.mkdir(exist_ok=True)
    (folder / LOG).write_bytes(checked(THERE))
    return folder


def practise(folder: Path, there: Path, say: Say) -> None:
    """Do all that writes to a folder, saying what is kept as soon as it is said; refusals are borne."""
    with suppress(StoreError), store(folder) as opened:
        for each in NEW[:2]:
            keep(opened, each.id, say)
        with suppress(StoreError):
            opened.save_settings(Settings(minutes_a_day=MINUTES))
            if not any("settings.json" in notice for notice in opened.notices):  # else it is left as it is
                say("settings")
        with suppress(StoreError):
            opened.repair()
        with suppress(StoreError):
            opened.take_in(there)
            for each in THERE:
                say(each.id)
        for each in NEW[2:]:
            keep(opened, each.id, say)


def keep(opened: Store, identity: str, say: Say) -> None:
    """Keep an answer, and with it those that waited."""
    number = int(identity.rpartition("-")[2])
    with suppress(StoreError):
        opened.keep(attempt(number))
        for each in opened.attempts:
            say(each.id)


def look_through(folder: Path, said: Iterable[str], before: Iterable[bytes] = ()) -> None:
    """Open the folder twice and raise LostError unless all that was said is there once and as it was.

    `before` are bytes that were in the folder and must be in it still, in whatever file.
    """
    expected = {each for each in said if each != "settings"}
    for _ in range(2):
        with store(folder) as opened:
            found = {each.id: each for each in opened.attempts}
            if missing := expected - found.keys():
                raise LostError(f"{sorted(missing)} are gone")
            changed = [each for each in found.values() if each != attempt(int(each.id.rpartition("-")[2]))]
            if changed:
                raise LostError(f"{changed[0].id} is another answer")
            if opened.state != State.of(opened.attempts, RULES):
                raise LostError("the state is not that of the answers")
            if "settings" in said and opened.settings.minutes_a_day != MINUTES:
                raise LostError("the settings are gone")
            damaged = [notice for notice in opened.notices if "was damaged" in notice]
            if damaged:
                raise LostError(damaged[0])
    _look_at_files(folder, before)


def _look_at_files(folder: Path, before: Iterable[bytes]) -> None:
    log = (folder / LOG).read_bytes() if (folder / LOG).exists() else b""
    times = Counter(map(_id_of, log.splitlines()))
    times.pop("", None)
    if doubled := [identity for identity, number in times.items() if number > 1]:
        raise LostError(f"{doubled} stand in the log twice")
    held = [file.read_bytes() for file in folder.iterdir() if file.is_file()]
    for part in before:
        if not any(part in content for content in held):
            raise LostError(f"{part[:40]!r} is in no file any more")


def _id_of(line: bytes) -> str:
    try:
        return str(json.loads(line)["id"])
    except (ValueError, LookupError, TypeError):
        return ""
