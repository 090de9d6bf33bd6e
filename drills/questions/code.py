"""The code of a drill: KIND-LEVEL-SEED, a later generator as .VERSION, another form as -FORM."""

from __future__ import annotations

import re
from typing import NamedTuple

from drills.geometry import Chance

LARGEST_SEED = 10**9
_SHAPE = re.compile(r"([a-z]{1,12})-([0-9]{1,2})-([0-9]{1,10})(?:\.([0-9]{1,2}))?(?:-([a-z]{1,12}))?")


class CodeError(ValueError):
    """A code that names no drill; its text is one sentence that says what would."""


class Code(NamedTuple):
    """What names a drill for ever: the same code gives the same drill on every system.

    ``form`` is empty for the first form of the kind.
    """

    kind: str
    level: int
    seed: int
    version: int = 1
    form: str = ""

    def __str__(self) -> str:
        version = f".{self.version}" if self.version > 1 else ""
        form = f"-{self.form}" if self.form else ""
        return f"{self.kind}-{self.level}-{self.seed}{version}{form}"

    @property
    def chance(self) -> Chance:
        """The stream of draws that belongs to this code alone."""
        return Chance(str(self))


def parse_code(text: str) -> Code:
    """Read a code by its shape alone; CodeError says what a code looks like."""
    found = _SHAPE.fullmatch(text.strip())
    if not found:
        raise CodeError("A code looks like labels-3-41: a kind, a level and a seed, joined by hyphens.")
    kind, level, seed, version, form = found.groups()
    if int(seed) > LARGEST_SEED:
        raise CodeError(f"The seed of a code is a whole number from 0 to {LARGEST_SEED}.")
    return Code(kind, int(level), int(seed), int(version or 1), form or "")
