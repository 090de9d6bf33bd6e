"""Codes and drills for the tests of the questions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

from drills.questions.code import Code
from drills.questions.drill import Drill
from drills.questions.kinds import KINDS, checked, make
from drills.questions.levels import TOP_LEVEL

FORMS = [(kind, form) for kind, entry in KINDS.items() for form in entry.forms]
LEVELS = range(1, TOP_LEVEL + 1)


def codes(kind: str, form: str, level: int, seeds: Iterable[int]) -> Iterator[Code]:
    """Yield the codes of a form at a level."""
    yield from (checked(Code(kind, level, seed, form=form)) for seed in seeds)


def drills(kind: str, form: str, level: int, seeds: Iterable[int]) -> Iterator[Drill]:
    """Yield the drills of a form at a level."""
    yield from map(make, codes(kind, form, level, seeds))


def every_code(seeds: range) -> Iterator[Code]:
    """Yield the codes of all forms and levels."""
    for kind, form in FORMS:
        for level in LEVELS:
            yield from codes(kind, form, level, seeds)


@cache
def two_hundred(kind: str, form: str, level: int) -> tuple[Drill, ...]:
    """Return the drills of seeds 1 to 200."""
    return tuple(drills(kind, form, level, range(1, 201)))
