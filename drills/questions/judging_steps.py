"""Judging steps: a step read from a crease, or the crossing where a step ends."""

from __future__ import annotations

from drills.geometry import Point, Step
from drills.pattern import short_place, step_in_words, step_with_directions, times
from drills.questions.drill import Drill, Segment
from drills.questions.verdict import Highlights, Slip, Verdict


def with_directions_of(numbers: Step, lit: Step) -> Step:
    """Return a step given as bare numbers with the directions of the lit arrow."""
    across = abs(numbers.across) if lit.across > 0 else -abs(numbers.across)
    down = abs(numbers.down) if lit.down > 0 else -abs(numbers.down)
    return Step(across, down, numbers.times)


def judge_step(drill: Drill, truth: Step, given: Step) -> Verdict:
    """Return the verdict on a step; bigger steps on the right line and exchanged numbers are slips."""
    counted = drill.question.counts_repeats
    right, slip = _compare(truth, given, counted)
    return Verdict(
        right=right,
        answered=f"You read {_words(given, truth, counted)}.",
        truth=_truth(truth, given, slip, counted),
        why=_why(truth, given, right, counted),
        misses=int(not right),
        slip=slip,
        lit=_lit(drill, truth),
    )


def _compare(truth: Step, given: Step, counted: bool) -> tuple[bool, Slip]:
    if given.across == 0 or given.down == 0:
        return False, ""
    reduced = given.smallest()
    if not counted:
        truth, given, reduced = (step._replace(times=1) for step in (truth, given, reduced))
    if given == truth:
        return True, ""
    if reduced == truth:
        return True, "not smallest"
    swapped = (abs(reduced.down), abs(reduced.across), reduced.times)
    if swapped == (abs(truth.across), abs(truth.down), truth.times):
        return True, "exchanged"
    return False, ""


def _words(step: Step, other: Step, counted: bool) -> str:
    """Return a step in words that tell it from the other one, to the left or right where need be."""
    if step.across * other.across < 0:
        return step_with_directions(step if counted else step._replace(times=1))
    return step_in_words(step, with_times=counted)


def _truth(truth: Step, given: Step, slip: Slip, counted: bool) -> str:
    words = _words(truth, given, counted or (slip == "not smallest" and truth.times > 1))
    if slip == "not smallest":
        return f"Right line; the smallest step is {words}."
    if slip == "exchanged":
        return f"The right numbers the other way round: it is {words}."
    return f"It is {words}."


def _why(truth: Step, given: Step, right: bool, counted: bool) -> str:
    if not right and counted and given.across * given.down and given.smallest()[:2] == truth[:2]:
        return f"The step is right; the lit part makes it {times(truth.times)}."
    squares = step_in_words(truth)
    return f"From its start the crease meets the next crossing of the grid {squares}."


def judge_place(drill: Drill, truth: Point, given: Point) -> Verdict:
    """Return the verdict on the crossing where a step was said to end."""
    step, start = drill.question.step, drill.question.start
    if step is None or start is None:
        raise TypeError(f"{drill.code} does not ask for a place")
    right = given == truth
    return Verdict(
        right=right,
        answered=f"You chose {short_place(drill.pattern, given)}.",
        truth=f"It ends at {short_place(drill.pattern, truth)}.",
        why=_way_to(step),
        misses=int(not right),
        lit=Highlights(
            staircase=staircase(start, step),
            right_points=frozenset({truth} if right else ()),
            missed_points=frozenset(() if right else {truth}),
            extra_points=frozenset(() if right else {given}),
        ),
    )


def _way_to(step: Step) -> str:
    """Return how the end of a step is counted out."""
    total = Step(step.across * step.times, step.down * step.times)
    if step.times == 1:
        return f"Count along the grid: {step_in_words(step)}."
    return f"{step_in_words(step, with_times=True)}: that is {step_in_words(total)} in all."


def _lit(drill: Drill, truth: Step) -> Highlights:
    segment = drill.question.lit
    if not isinstance(segment, Segment):
        raise TypeError(f"{drill.code} lights no crease")
    return Highlights(
        staircase=staircase(drill.pattern.vertices[segment.start], truth), right=frozenset(segment.edges)
    )


def staircase(start: Point, step: Step) -> tuple[Point, ...]:
    """Return the points of a step's stairs: across, then down or up, as often as it repeats."""
    points = [start]
    for _ in range(step.times):
        x, y = points[-1]
        points += [Point(x + step.across, y), Point(x + step.across, y - step.down)]
    return tuple(points)
