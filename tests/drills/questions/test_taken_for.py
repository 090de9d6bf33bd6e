"""A wrong answer that is the right one of a look-alike says so: which pairs there are is common practice."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from drills.geometry import Move, Point, Step, moved
from drills.questions import Drill, MarkedPlaces, Marks, PlaceStep, codes_for, make
from drills.structures import look_alike_at


def drill_of(skill: str, level: int, seed: int = 0) -> Drill:
    """Return the first drill of a skill at a level from a seed on."""
    return make(next(codes_for(skill, level, seed)))


def in_its_directions(step: Step, across: int, down: int) -> Step:
    """Return a step with other numbers that runs the same way, the longer number where the longer one was."""
    numbers = sorted((across, down), reverse=abs(step.across) > abs(step.down))
    right, down = (1 if way > 0 else -1 for way in step[:2])
    return Step(right * numbers[0], down * numbers[1], step.times)


@pytest.mark.parametrize(
    ("skill", "numbers", "taken_for"),
    [
        ("steps read 1:2", (1, 3), "steps read 1:3"),
        ("steps read 1:3", (1, 2), "steps read 1:2"),
        ("steps read 1:3", (1, 4), "steps read 1:4"),
        ("steps read 3:4", (2, 3), "steps read 2:3"),
        ("steps read 1:2", (4, 9), ""),
        ("steps read 1:2", (1, 1), ""),
    ],
)
def test_a_step_read_as_another(skill: str, numbers: tuple[int, int], taken_for: str) -> None:
    """By its ratio, whatever way it runs; a ratio without a skill is none's."""
    drill = drill_of(skill, 3)
    verdict = drill.judge(in_its_directions(drill.question.answer, *numbers))
    assert (verdict.right, verdict.taken_for) == (False, taken_for)
    assert drill.judge(drill.question.answer).taken_for == ""


def test_a_right_ratio_in_another_direction_is_taken_for_nothing() -> None:
    """Nor is a slip, which is right."""
    drill = drill_of("steps read 1:2", 3)
    step = drill.question.answer
    assert drill.judge(step._replace(across=-step.across)).taken_for == ""
    assert drill.judge(Step(step.across * 2, step.down * 2, step.times)).taken_for == ""


def test_a_step_placed_as_another() -> None:
    """Made as often as was asked."""
    drill = drill_of("steps place 1:2", 3)
    asked = drill.question
    assert isinstance(asked, PlaceStep)
    end = in_its_directions(asked.step, 1, 3).end_from(asked.start)
    assert drill.judge(end).taken_for == "steps place 1:3"
    off = moved(asked.start, Move(Fraction(1, 2), Fraction(1)))
    assert drill.judge(off).taken_for == drill.judge(asked.start).taken_for == ""


def test_a_look_alike_marked_as_a_stretch() -> None:
    """That of the drill's own skill is what it trains; the same sheet asked for another skill names it."""
    drill = drill_of("find roof", 2)
    roof = next(at for at in middles(drill) if look_alike_at(drill.design, at) == "roof")
    marked = MarkedPlaces(frozenset({roof}))
    assert drill.judge(marked).taken_for == ""
    other = replace(drill, spec=replace(drill.spec, skill="find pleats", detail="pleats"))
    assert other.judge(marked).taken_for == "find roof"
    assert other.judge(other.question.right_answer(other)).taken_for == ""


def middles(drill: Drill) -> list[Point]:
    """Return the middles of the squares of a sheet."""
    left, bottom, right, top = map(int, drill.pattern.box)
    half = Fraction(1, 2)
    return [Point(x + half, y + half) for x in range(left, right) for y in range(bottom, top)]


@pytest.mark.parametrize(("shape", "other"), [("equal few", "unequal"), ("equal many", "several")])
def test_a_ridge_marked_as_an_inside_line(shape: str, other: str) -> None:
    """Any other crease too many is taken for no skill."""
    for mine, theirs in ((shape, other), (other, shape)):
        for seed in range(50):
            drill = drill_of(f"sinks mark {mine}", 4, seed)
            creases = drill.truth.creases
            roles = {drill.truth.edges[crease].role: crease for crease in creases}
            if {"ridge", "outline"} <= roles.keys():
                break
        marked = drill.question.answer.items
        assert drill.judge(Marks(marked | {roles["ridge"]})).taken_for == f"sinks mark {theirs}"
        assert drill.judge(Marks(marked | {roles["outline"]})).taken_for == ""


def test_labels_taken_for_well_and_for_wrong() -> None:
    """No label marked is the answer of a faultless sheet, one marked there that of one wrong label."""
    wrong, well = drill_of("labels one", 2), drill_of("labels nothing", 2)
    assert wrong.judge(Marks(frozenset())).taken_for == "labels nothing"
    some = next(crease for crease in wrong.pattern.creases if crease not in wrong.question.answer.items)
    assert wrong.judge(Marks(frozenset({some}))).taken_for == ""
    assert well.judge(Marks(frozenset({some}))).taken_for == "labels one"
    assert well.judge(Marks(frozenset())).taken_for == ""
