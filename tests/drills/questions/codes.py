"""Codes and drills for the tests of the questions, and the right answers to them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache

from drills.geometry import Point
from drills.questions import (
    ALONE,
    KINDS,
    Code,
    Drill,
    FindStretches,
    MarkedPlaces,
    Spec,
    checked,
    make,
    newest,
    spec,
    top_level,
)

FORMS = [(kind, form) for kind, row in KINDS.items() for form in row.forms]
LEVELS = range(1, top_level() + 1)
SMALL = range(1, ALONE)
LARGER = range(ALONE, top_level() + 1)
PLACES = [(kind, form, level) for kind, form in FORMS for level in KINDS[kind].levels]


SEEDS = range(1, 201)


def levels_of(kind: str) -> range:
    """Return the levels that a kind has."""
    return KINDS[kind].levels


def fewer_when_larger(level: int, seeds: range, at_larger: int) -> range:
    """Return the seeds for a level, above level 5 so many: those sheets take longer to make."""
    return seeds[:at_larger] if level > ALONE else seeds


def codes(kind: str, form: str, level: int, seeds: Iterable[int]) -> Iterator[Code]:
    """Yield the codes of a form at a level, in the way such drills are made today."""
    yield from (newest(checked(Code(kind, level, seed, form=form))) for seed in seeds)


def plans(kind: str, form: str, level: int, seeds: range = SEEDS) -> list[Spec]:
    """Return the specs of codes."""
    return [spec(code) for code in codes(kind, form, level, seeds)]


def drills(kind: str, form: str, level: int, seeds: Iterable[int]) -> Iterator[Drill]:
    """Yield the drills of a form at a level."""
    yield from map(made_once, codes(kind, form, level, seeds))


@cache
def made_once(code: Code) -> Drill:
    """Return the drill of a code, made once for all tests."""
    return make(code)


def some(kind: str, form: str, level: int, at_most: int = 8) -> tuple[Drill, ...]:
    """Return the first drills of a form at a level that tests look at: fewer where they take longer."""
    number = 8 if level < ALONE else 4 if level == ALONE else 1
    return tuple(drills(kind, form, level, range(1, min(number, at_most) + 1)))


def every_code(seeds: range, levels: Iterable[int] = LEVELS) -> Iterator[Code]:
    """Yield the codes of all forms at those of the levels that they have."""
    for level in levels:
        for kind, form in FORMS:
            if level in levels_of(kind):
                yield from codes(kind, form, level, seeds)


def right_answer(drill: Drill) -> object:
    """Return an answer that is right: of outlines, a place inside each."""
    if isinstance(drill.question, FindStretches):
        outlines = drill.question.answer.edges
        return MarkedPlaces(frozenset(place_inside(drill, outline) for outline in outlines))
    return drill.question.right_answer(drill)


def place_inside(drill: Drill, outline: Iterable[int]) -> Point:
    """Return the mean of the ends of an outline's edges, which lies inside, as an outline is convex."""
    ends = [end for edge in outline for end in drill.pattern.ends(edge)]
    across, up = (sum(map(Fraction, values), Fraction()) for values in zip(*ends, strict=True))
    return Point(across / len(ends), up / len(ends))


def place_outside(drill: Drill) -> Point:
    """Return a crossing of the grid that is in no outline of the answer, a corner or side of one neither."""
    assert isinstance(drill.question, FindStretches)
    left, bottom, right, top = (int(value) for value in drill.pattern.box)
    crossings = (Point(x, y) for y in range(bottom, top + 1) for x in range(left, right + 1))
    return next(at for at in crossings if drill.question.is_outside(drill.pattern, at))


def crease_not_asked_for(drill: Drill) -> int:
    """Return a crease with a point inside the sheet at one end at least, that is not in the answer."""
    others = (edge for edge in drill.truth.creases if edge not in drill.question.answer.items)
    return next(edge for edge in others if drill.truth.interior_ends[edge])
