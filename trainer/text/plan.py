"""The plan of a sheet as text, step by step, each stretch drawn with its dots before it is begun."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator
from fractions import Fraction
from textwrap import wrap

from drills.pattern import CreasePattern
from drills.plan import SheetPlan, StretchPlan
from trainer.board import (
    RULER_COLUMNS,
    RULER_ROWS,
    Look,
    Room,
    draw_board,
    opened,
    points_at,
    with_rulers,
)
from trainer.given import PatternSource
from trainer.text.plan_steps import steps_of

COLUMNS, ROWS = 78, 44
ROOM = Room(COLUMNS - RULER_COLUMNS, ROWS - RULER_ROWS)
NOTHING = "There is no slanted stretch on this sheet, so there is nothing to plan."
NO_STRETCH = "There is no slanted stretch on this sheet."
CAUTION = (
    "A pencil dot or a blunt scoring tool presses through thin paper: put a mat under it.",
    "Score, or cut, away from the hand that holds the paper.",
)
_INDENT, _NO_BREAK = "   ", "\N{NO-BREAK SPACE}"
_PLACE = re.compile(r"\([0-9][^()]*\)")


def plan_in_text(
    sheet: SheetPlan, source: PatternSource, found: Container[int], size: Fraction | None = None
) -> Iterator[str]:
    """Yield the lines of a sheet's plan; ``found`` are edges whose labels were found, ``size`` is in mm."""
    yield from source.notices
    if not sheet.stretches:
        yield NO_STRETCH
    yield "Places are counted in squares across and down from the top left corner."
    yield from CAUTION
    stretch: int | None = None
    for number, step in enumerate(steps_of(sheet, source.pattern, found, size), 1):
        if step.stretch != stretch and step.stretch is not None:
            planned, count = sheet.stretches[step.stretch], len(sheet.stretches)
            of = f" {step.stretch + 1} of {count}" if count > 1 else ""
            yield ""
            yield f"Slanted stretch{of}, triangle {planned.triangle.name}"
            yield from _drawn(planned, source.pattern)
        elif step.stretch != stretch:
            yield ""
        stretch = step.stretch
        yield f"{number}. {step.title}:"
        for line in step.lines:
            yield from _wrapped(line.words)


def _wrapped(words: str) -> Iterator[str]:
    """Yield a line of a step in lines that fit, never broken within a place."""
    kept = _PLACE.sub(lambda found: found[0].replace(" ", _NO_BREAK), words)
    for line in wrap(kept, COLUMNS, initial_indent=_INDENT, subsequent_indent=f"{_INDENT}  "):
        yield line.replace(_NO_BREAK, " ")


def _drawn(planned: StretchPlan, pattern: CreasePattern) -> Iterator[str]:
    """Yield the sheet, or where it is large the part round a stretch, with the dots of the stretch."""
    look = Look(points=points_at(pattern, (dot.vertex for dot in planned.to_mark)))
    window = opened(pattern, ROOM, look)
    if not window.scale.is_whole:
        points = [pattern.vertices[dot.vertex] for dot in planned.dots]
        window = window.centred(points[len(points) // 2])
        yield "The part of the sheet round it:"
    for line in with_rulers(draw_board(pattern, look, window.scale)):
        yield "".join(span.text for span in line).rstrip()
