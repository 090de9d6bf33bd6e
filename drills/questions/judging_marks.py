"""Judging marks: edges or vertices against those that were to be marked."""

from __future__ import annotations

from drills.geometry import Point, Step, direction_of, is_whole, move_between, step_between
from drills.pattern import number_of, short_place, step_in_words
from drills.questions.drill import Drill, Marks
from drills.questions.verdict import Highlights, Verdict
from drills.structures import faces_inside, outlines, parts_that_go_in

_NOUNS = {"edges": "inside line", "vertices": "turning point", "join": "point"}
_MARKED = {"edges": "crease", "vertices": "point", "join": "point"}


def judge_marks(drill: Drill, truth: Marks, given: Marks) -> Verdict:
    """Return the verdict on marked creases or points; misses and false alarms are told apart."""
    missed, extra = truth.items - given.items, given.items - truth.items
    return Verdict(
        right=not missed and not extra,
        answered=_answered(drill, truth, given),
        truth=_truth(drill, truth),
        why=_why(drill, truth),
        misses=len(missed),
        false_alarms=len(extra),
        lit=_lit(drill, truth, given),
    )


def counted(truth: Marks, given: Marks, noun: str) -> str:
    """Return what was marked, with how many right, missed and too many."""
    if not given.items:
        return f"You marked no {noun}."
    right = len(truth.items & given.items)
    missed, extra = len(truth.items) - right, len(given.items) - right
    parts = [f"{right} right"] + [f"{missed} missed"] * bool(missed) + [f"{extra} too many"] * bool(extra)
    return f"You marked {number_of(len(given.items), noun)}: {', '.join(parts)}."


def _answered(drill: Drill, truth: Marks, given: Marks) -> str:
    if drill.question.ask == "join" and given.items:
        return f"You chose point {_point(drill, given)}."
    return counted(truth, given, _MARKED[drill.question.ask])


def _truth(drill: Drill, truth: Marks) -> str:
    if drill.question.ask == "join":
        return f"It leads to point {_point(drill, truth)}."
    noun = _NOUNS[drill.question.ask]
    if not truth.items:
        return f"There is no {noun} on this sheet."
    return f"There {'is' if len(truth.items) == 1 else 'are'} {number_of(len(truth.items), noun)}."


def _point(drill: Drill, chosen: Marks) -> str:
    return short_place(drill.pattern, drill.pattern.vertices[min(chosen.items)])


def _why(drill: Drill, truth: Marks) -> str:
    if drill.question.ask == "join":
        start = drill.pattern.vertices[drill.question.start_vertex or 0]
        step = _line_in_words(start, drill.pattern.vertices[min(truth.items)])
        return f"All inside lines of a stretch run parallel; this one goes {step}."
    if drill.question.ask == "vertices":
        return "At a turning point an inside line meets a pleat line; the corners of the outline are none."
    if not outlines(drill.sheet):
        return "No outline is on this sheet: every crease runs along the grid or at 45 degrees."
    if not truth.items:
        return "Only a tip of the outline is on this sheet, and no crease runs inside it."
    return "Inside lines run across the outline and sink; its sides and the pleats around do not."


def _line_in_words(start: Point, end: Point) -> str:
    """Return the step of a line, and its count where the line joins two crossings of the grid."""
    if is_whole(start) and is_whole(end):
        return step_in_words(step_between(start, end), with_times=True)
    way = direction_of(move_between(start, end))
    return step_in_words(Step(way.dx, -way.dy))


def _lit(drill: Drill, truth: Marks, given: Marks) -> Highlights:
    going_in = parts_shaded(drill)
    right, missed, extra = truth.items & given.items, truth.items - given.items, given.items - truth.items
    if drill.question.ask == "edges":
        return Highlights(right=right, missed=missed, extra=extra, going_in=going_in)
    return Highlights(
        right_points=_points(drill, right),
        missed_points=_points(drill, missed),
        extra_points=_points(drill, extra),
        going_in=going_in,
    )


def parts_shaded(drill: Drill) -> tuple[tuple[int, ...], ...]:
    """Return the faces, as vertex cycles, of the parts that go in."""
    parts = parts_that_go_in(drill.sheet)
    return tuple(face for part in parts for face in faces_inside(drill.truth, part))


def _points(drill: Drill, vertices: frozenset[int]) -> frozenset[Point]:
    return frozenset(drill.pattern.vertices[vertex] for vertex in vertices)
