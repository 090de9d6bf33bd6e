"""Drills for the hands, and the boards they are shown on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from drills.questions.code import Code
from drills.questions.drill import Drill, Marks
from drills.questions.kinds import KINDS, make, read_code
from drills.questions.levels import TOP_LEVEL
from tests.drills.questions.codes import drills
from trainer.board.scale import Scale, scale_for

FORMS = [(kind, form) for kind, entry in KINDS.items() for form in entry.forms]
LEVELS = range(1, TOP_LEVEL + 1)


def drill(code: str) -> Drill:
    """Return the drill of a code."""
    return make(read_code(code))


def of_form(kind: str, form: str, seeds: Iterable[int] = range(1, 5)) -> Iterator[Drill]:
    """Yield drills of a form, of every level."""
    for level in LEVELS:
        yield from drills(kind, form, level, seeds)


def nothing_wrong() -> Iterator[Drill]:
    """Yield drills of labels in which nothing is wrong."""
    for level in LEVELS:
        codes = (Code("labels", level, seed) for seed in range(40))
        yield from (made for made in map(make, codes) if made.spec.detail == "nothing")


def board(shown: Drill) -> Scale:
    """Return the scale at which 80 columns by 24 rows show a drill."""
    scale = scale_for(shown.pattern, 46, 20)
    assert isinstance(scale, Scale)
    return scale


def marked(items: Iterable[int]) -> Marks:
    """Return an answer of these marks."""
    return Marks(frozenset(items))
