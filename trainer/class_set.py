"""A class set: numbered drills that many people do alike, as a small JSON file of our own.

    {"slantwise:set": 1, "drills": ["labels-3-41", "steps-2-7-place"]}

Drills are named by their codes, so that a set is the same drills on every machine.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from itertools import cycle, islice
from pathlib import Path

from drills.questions import KINDS, Code, CodeError, checked, newest, read_code
from trainer.given import InputError

VERSION_KEY, VERSION = "slantwise:set", 1
MOST_DRILLS = 200
MOST_BYTES = 64 * 1024
NO_SET = "That is no class set that can be read; slantwise set new FILE --kinds steps,labels makes one."


def codes_drawn(kinds: Sequence[str], level: int, count: int, seed: int) -> Iterator[Code]:
    """Yield codes of the kinds in turn, each seed once; CodeError where there is no such kind or level."""
    for number, kind in enumerate(islice(cycle(kinds), count)):
        yield newest(checked(Code(kind, level, seed + number)))


def write_set(path: Path, codes: Sequence[Code]) -> None:
    """Write a set; InputError where it has no drill or too many."""
    if not 1 <= len(codes) <= MOST_DRILLS:
        raise InputError(f"A set has from 1 to {MOST_DRILLS} drills.")
    held = {VERSION_KEY: VERSION, "drills": [str(code) for code in codes]}
    path.write_text(json.dumps(held, indent=1) + "\n", encoding="utf-8")


def read_set(path: Path) -> tuple[Code, ...]:
    """Return the codes of a set in its order; InputError says what is wrong with it."""
    try:
        with path.open("rb") as file:
            text = file.read(MOST_BYTES + 1)
    except OSError:
        raise InputError(
            "The set cannot be read; give the path of a file that slantwise set new made."
        ) from None
    try:
        held = json.loads(text) if len(text) <= MOST_BYTES else None
    except (ValueError, RecursionError):
        held = None
    if not isinstance(held, dict) or VERSION_KEY not in held or not isinstance(held.get("drills"), list):
        raise InputError(NO_SET)
    if held[VERSION_KEY] != VERSION:
        raise InputError("This set is of a later version; install a newer Slantwise to read it.")
    named = held["drills"]
    if not 1 <= len(named) <= MOST_DRILLS:
        raise InputError(f"A set has from 1 to {MOST_DRILLS} drills.")
    return tuple(_code(number, each) for number, each in enumerate(named, 1))


def _code(number: int, named: object) -> Code:
    try:
        return read_code(named if isinstance(named, str) else "")
    except CodeError as refusal:
        raise InputError(f"Drill {number} of the set: {refusal}") from None


def kinds_named(text: str) -> list[str]:
    """Return the kinds of a list such as "steps,labels"; InputError where one is none."""
    kinds = [kind.strip() for kind in text.split(",")]
    if not set(kinds) <= KINDS.keys():
        raise InputError(f"--kinds takes kinds with commas between: {', '.join(KINDS)}.")
    return kinds
