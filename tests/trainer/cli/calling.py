"""Calling the command in this process, and what it said."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta, timezone
from io import StringIO
from itertools import count
from pathlib import Path
from typing import Any, NamedTuple

from drills.questions import KINDS, Code, checked, newest
from trainer.cli.main import main
from trainer.cli.parser import Console
from trainer.given import Clock

NOW = datetime(2026, 3, 2, 19, 30, tzinfo=timezone(timedelta(hours=1)))
SECONDS_TO_ANSWER = 5.0
FORMS = [(kind, form) for kind in KINDS for form in KINDS[kind].forms]


class Called(NamedTuple):
    """The exit status, and what went to standard output and standard error."""

    status: int
    out: str
    err: str


class Terminal(StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Return what a terminal returns."""
        return True


def clock(seconds_apart: float) -> Clock:
    """Return a clock that stands still but for its ticks, so many seconds apart."""
    ticks = count()
    return Clock(lambda: NOW, lambda: seconds_apart * next(ticks))


def call(
    folder: Path,
    *argv: str,
    typed: str = "",
    terminal: bool = False,
    environ: Mapping[str, str] | None = None,
    seconds_apart: float = SECONDS_TO_ANSWER,
) -> Called:
    """Call the command with these words, the data in the folder unless they say otherwise.

    Each look at the clock finds it so many seconds on.
    """
    made = Terminal if terminal else StringIO
    stdin, stdout, stderr = made(typed), made(), made()
    usual = {"SLANTWISE_DATA": str(folder)}
    console = Console(stdin, stdout, stderr, clock(seconds_apart), usual if environ is None else environ)
    status = main(argv, console)
    return Called(status, stdout.getvalue(), stderr.getvalue())


def is_one_sentence(text: str) -> bool:
    """Whether a text is one line without control characters, begun by a capital, an option or a path."""
    begins_well = text[:1].isupper() or text[:1] in ("-", "/")
    return begins_well and text.endswith("\n") and text[:-1].isprintable() and len(text) < 300


def log_of(folder: Path) -> list[dict[str, Any]]:
    """Return the lines of the log, none if there is no log."""
    log = folder / "attempts.jsonl"
    return [json.loads(line) for line in log.read_text().splitlines()] if log.exists() else []


def codes(kind: str, form: str, how_many: int) -> Iterator[Code]:
    """Yield codes of a form with seeds from 0 on, level after level of its first four."""
    levels = KINDS[kind].levels[:4]
    for seed in range(how_many):
        yield newest(checked(Code(kind, levels[seed % len(levels)], seed, form=form)))


def larger_codes(kind: str, form: str, of_each: int = 1) -> Iterator[Code]:
    """Yield some codes of a form at each level from 5 on."""
    for level in KINDS[kind].levels[-3:]:
        yield from (newest(checked(Code(kind, level, seed, form=form))) for seed in range(of_each))
