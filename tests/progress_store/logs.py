"""Logs and copies of logs written by hand, for the tests of merging."""

from __future__ import annotations

import json
import random
from collections.abc import Iterable
from pathlib import Path

from progress_store import Attempt
from progress_store.line import written as line_of
from tests.progress_store.making import attempt

LOG = "attempts.jsonl"
COPIES = [
    "attempts (conflicted copy 2026-11-20).jsonl",
    "attempts.sync-conflict-20261120-101500-ABCDEF.jsonl",
    "attempts (1).jsonl",
    "attempts-laptop.jsonl",
    "attempts~.jsonl",
]


def lines(attempts: Iterable[Attempt]) -> bytes:
    """Return the attempts as the bytes of a log of schema 1."""
    return b"".join(json.dumps({"schema": 1, **each.to_json()}).encode() + b"\n" for each in attempts)


def newer(identity: str = "newer") -> bytes:
    """Return the answer of a newer program, as far as this one knows its form."""
    fields = {"schema": 3, "id": identity, "at": "2026-03-02T12:00:00.000Z", "shape": "unheard of"}
    return json.dumps(fields).encode() + b"\n"


def checked(attempts: Iterable[Attempt]) -> bytes:
    """Return the attempts as the bytes that are written now, each line with its check sum."""
    return b"".join(map(line_of, attempts))


def written(folder: Path, attempts: Iterable[Attempt], name: str = LOG) -> Path:
    """Write a log or a copy of one and return its path."""
    folder.mkdir(exist_ok=True)
    (folder / name).write_bytes(lines(attempts))
    return folder / name


def names(folder: Path) -> set[str]:
    """Return the names in a folder, but for the lock and what is made from the log."""
    return {file.name for file in folder.iterdir()} - {"slantwise.lock", "state.json", "state.columns"}


def some(seed: int, how_many: int = 30) -> list[Attempt]:
    """Return attempts of several skills, results, days and offsets of the clock from UTC."""
    chance = random.Random(seed)
    return [
        attempt(
            number,
            chance.randrange(40),
            id=f"{seed}-{number}",
            offset_minutes=chance.choice([-720, -300, 0, 60, 345, 840]),
            skill=chance.choice(["steps 1:2", "steps 2:1"]),
            level=chance.choice([1, 2]),
            right=chance.random() < 0.8,
            milliseconds=chance.choice([None, 2000, 4000, 9000]),
            gaps=(chance.randrange(500),),
        )
        for number in range(how_many)
    ]
