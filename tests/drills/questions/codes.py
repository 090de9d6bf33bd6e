"""Codes and drills for the tests of the questions, and the right answers to them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache

from drills.geometry import Point
from drills.questions import KINDS, Code, Drill, FindStretches, MarkedPlaces, checked, make, newest, top_level
from drills.structures import Stretch

FORMS = [(kind, form) for kind, entry in KINDS.items() for form in entry.forms]
LEVELS = range(1, top_level() + 1)
SMALL = range(1, 5)
LARGER = range(5, top_level() + 1)
SMALL_FORMS = [(kind, form) for kind, form in FORMS if KINDS[kind].lowest == 1]
PLACES = [(kind, form, level) for kind, form in FORMS for level in KINDS[kind].levels]
SMALL_PLACES = [(kind, form, level) for kind, form in SMALL_FORMS for level in SMALL]


def levels_of(kind: str) -> range:
    """Return the levels that a kind has."""
    return KINDS[kind].levels


def fewer_when_larger(level: int, seeds: range, at_larger: int) -> range:
    """Return the seeds for a level, at levels 6 and 7 so many: those sheets take longer to make."""
    return seeds[:at_larger] if level > LARGER[0] else seeds


def codes(kind: str, form: str, level: int, seeds: Iterable[int]) -> Iterator[Code]:
    """Yield the codes of a form at a level, in the way such drills are made today."""
    yield from (newest(checked(Code(kind, level, seed, form=form))) for seed in seeds)


def drills(kind: str, form: str, level: int, seeds: Iterable[int]) -> Iterator[Drill]:
    """Yield the drills of a form at a level."""
    yield from map(make, codes(kind, form, level, seeds))


def every_code(seeds: range, levels: Iterable[int] = LEVELS) -> Iterator[Code]:
    """Yield the codes of all forms at those of the levels that they have."""
    for level in levels:
        for kind, form in FORMS:
            if level in levels_of(kind):
                yield from codes(kind, form, level, seeds)


@cache
def two_hundred(kind: str, form: str, level: int) -> tuple[Drill, ...]:
    """Return the drills of seeds 1 to 200."""
    return tuple(drills(kind, form, level, range(1, 201)))


def some(kind: str, form: str, level: int) -> tuple[Drill, ...]:
    """Return two hundred drills of a level up to 4, forty of level 5, and five of the larger ones."""
    if level in SMALL:
        return two_hundred(kind, form, level)
    return tuple(drills(kind, form, level, fewer_when_larger(level, range(1, 41), 5)))


def stretch_of(drill: Drill) -> Stretch:
    """Return the lone stretch that a drill shows."""
    assert isinstance(drill.design, Stretch)
    return drill.design


def right_answer(drill: Drill) -> object:
    """Return an answer that is right: of outlines, a place inside each."""
    if isinstance(drill.question, FindStretches):
        return MarkedPlaces(
            frozenset(place_inside(drill, outline) for outline in drill.question.answer.edges)
        )
    return drill.question.answer


def place_inside(drill: Drill, outline: Iterable[int]) -> Point:
    """Return the mean of the ends of an outline's edges, which lies inside, as an outline is convex."""
    ends = [end for edge in outline for end in drill.pattern.ends(edge)]
    across, up = (sum(map(Fraction, values), Fraction()) for values in zip(*ends, strict=True))
    return Point(across / len(ends), up / len(ends))
