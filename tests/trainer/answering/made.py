"""Drills for the answer inputs, and the boards they are shown on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from drills.questions import Code, Drill, Marks, read_code, spec
from tests.drills.questions.codes import FORMS, LARGER, SMALL, drills, fewer_when_larger, levels_of, made_once
from trainer.board import Scale, scale_for

__all__ = ["FORMS", "board", "drill", "marked", "nothing_wrong", "of_form"]


def drill(code: str) -> Drill:
    """Return the drill of a code."""
    return made_once(read_code(code))


def of_form(
    kind: str, form: str, seeds: range = range(1, 3), levels: Iterable[int] | None = None
) -> Iterator[Drill]:
    """Yield drills of a form, of every level; of the largest ones one."""
    for level in levels or levels_of(kind):
        yield from drills(kind, form, level, fewer_when_larger(level, seeds, 1))


WIDEST = 14


def nothing_wrong() -> Iterator[Drill]:
    """Yield drills of labels in which nothing is wrong."""
    for level in SMALL:
        codes = (Code("labels", level, seed) for seed in range(40))
        yield from (made_once(code) for code in codes if spec(code).detail == "nothing")


def board(shown: Drill) -> Scale:
    """Return the scale at which 80 columns by 24 rows show a drill, a larger one as if there were room."""
    is_small = shown.level < LARGER[0] and max(shown.design.size) <= WIDEST
    columns, rows = (46, 20) if is_small else (200, 120)
    scale = scale_for(shown.pattern, columns, rows)
    assert isinstance(scale, Scale)
    return scale


def marked(items: Iterable[int]) -> Marks:
    """Return an answer of these marks."""
    return Marks(frozenset(items))
