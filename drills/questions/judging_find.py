"""Judging places: one inside each slanted stretch, none outside them."""

from __future__ import annotations

from drills.geometry import Point, Step, direction_of, move_between
from drills.pattern import number_of, short_place, step_in_words
from drills.questions.drill import Drill, MarkedPlaces, Outlines
from drills.questions.judging_marks import parts_shaded
from drills.questions.verdict import Highlights, Verdict
from drills.structures import lies_within

_NOUN, _NOUNS = "slanted stretch", "slanted stretches"


def judge_find(drill: Drill, truth: Outlines, given: MarkedPlaces) -> Verdict:
    """Return the verdict on marked places; several marks in one stretch count as one."""
    found = [o for o in truth.edges if any(lies_within(drill.pattern, o, spot) for spot in given.points)]
    missed = [outline for outline in truth.edges if outline not in found]
    extra = sorted(spot for spot in given.points if is_outside(drill, truth, spot))
    return Verdict(
        right=not missed and not extra,
        answered=_answered(given, len(found), len(missed), len(extra)),
        truth=_truth(len(truth.edges)),
        why=_why(drill, truth, missed, extra),
        misses=len(missed),
        false_alarms=len(extra),
        lit=Highlights(
            right=frozenset().union(*found),
            missed=frozenset().union(*missed),
            extra_points=frozenset(extra),
            going_in=parts_shaded(drill),
        ),
    )


def is_outside(drill: Drill, truth: Outlines, spot: Point) -> bool:
    """Whether a place lies in no slanted stretch."""
    return not any(lies_within(drill.pattern, outline, spot) for outline in truth.edges)


def _answered(given: MarkedPlaces, found: int, missed: int, extra: int) -> str:
    if not given.points:
        return "You marked nothing."
    parts = [f"{found} found"] + [f"{missed} missed"] * bool(missed)
    parts += [f"{number_of(extra, 'mark')} in none"] * bool(extra)
    return f"You marked {number_of(len(given.points), 'place')}: {', '.join(parts)}."


def _truth(number: int) -> str:
    if not number:
        return "There is no slanted stretch on this sheet."
    return f"There {'is' if number == 1 else 'are'} {number_of(number, _NOUN, _NOUNS)}."


def _why(drill: Drill, truth: Outlines, missed: list[frozenset[int]], extra: list[Point]) -> str:
    if not truth.edges:
        return "Every crease here runs along the grid or at 45 degrees, so nothing is slanted."
    if not missed and extra:
        return f"{short_place(drill.pattern, extra[0])} lies outside the slanted sides."
    outline = (missed or list(truth.edges))[0]
    steps = " and ".join(side_steps(drill, outline))
    if len(truth.edges) == 1:
        return f"Its sides are not at 45 degrees: they go {steps}."
    return f"The sides of the one at {_corner(drill, outline)} are not at 45 degrees: they go {steps}."


def _corner(drill: Drill, outline: frozenset[int]) -> str:
    """Return the place of an outline's first point from the top left."""
    ends = {end for edge in outline for end in drill.pattern.ends(edge)}
    return short_place(drill.pattern, min(ends, key=lambda end: (-end.y, end.x)))


def side_steps(drill: Drill, outline: frozenset[int]) -> list[str]:
    """Return the steps of an outline's sides in words, each once, seen from left to right."""
    ways = {direction_of(move_between(*sorted(drill.pattern.ends(edge)))) for edge in outline}
    return [step_in_words(Step(way.dx, -way.dy)) for way in sorted(ways)]
