"""What is said to places marked as lying in slanted stretches."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from drills.geometry import Point
from drills.questions import Drill, FindStretches, MarkedPlaces, Outlines, Verdict
from drills.structures import Mirrored, Sheet, Stretch, draw, drawn_outlines, lies_within, look_alike_at
from tests.drills.questions.codes import drills, levels_of, place_inside, place_outside, right_answer, some
from tests.drills.questions.known import find_stretch, of_role

INSIDE = ((5, 4), (6, 5))
CORNERS = ((1, 1), (7, 3), (9, 7), (3, 5))
ON_PLEATS = "You marked pleats: nothing is slanted there."
SIDE_WORDS = "Its sides are not at 45 degrees: they go 1 across 2 up and 3 across 1 up."


def on_known(*places: tuple[int, int]) -> Verdict:
    """Return the verdict on places of the sheet with one stretch, 10 x 8 squares."""
    return spots(find_stretch(), *(Point(x, y) for x, y in places))


def spots(drill: Drill, *places: Point) -> Verdict:
    """Return the verdict on places."""
    return drill.judge(MarkedPlaces(frozenset(places)))


@pytest.mark.parametrize(
    ("places", "right", "misses", "false_alarms", "answered", "why"),
    [
        ([(5, 4)], True, 0, 0, "You marked 1 place: 1 found.", SIDE_WORDS),
        (INSIDE, True, 0, 0, "You marked 2 places: 1 found.", SIDE_WORDS),
        ([], False, 1, 0, "You marked nothing.", SIDE_WORDS),
        (
            [(9, 1)],
            False,
            1,
            1,
            "You marked 1 place: 1 in no stretch. You missed 1.",
            f"{SIDE_WORDS} {ON_PLEATS}",
        ),
        (
            [(5, 4), (9, 1)],
            False,
            0,
            1,
            "You marked 2 places: 1 found, 1 in no stretch.",
            ON_PLEATS,
        ),
        (
            [(9, 1), (2, 6), (6, 4)],
            False,
            0,
            2,
            "You marked 3 places: 1 found, 2 in no stretch.",
            ON_PLEATS,
        ),
    ],
)
def test_misses_and_false_alarms_are_kept_apart(
    places: list[tuple[int, int]], right: bool, misses: int, false_alarms: int, answered: str, why: str
) -> None:
    """Counted, said and lit for themselves; several marks in one stretch count as one."""
    verdict = on_known(*places)
    assert (verdict.right, verdict.misses, verdict.false_alarms) == (right, misses, false_alarms)
    assert (verdict.answered, verdict.truth, verdict.why) == (answered, "There is 1 slanted stretch.", why)
    assert verdict.slip == ""
    assert verdict.lit.right == (of_role("outline") if not misses else set())
    assert verdict.lit.missed == (of_role("outline") if misses else set())
    assert len(verdict.lit.extra_points) == false_alarms


@pytest.mark.parametrize("corner", CORNERS)
def test_sides_and_corners_belong_to_the_stretch(corner: tuple[int, int]) -> None:
    """A mark on a corner counts as inside; one square outward it is a false alarm."""
    assert on_known(corner).right
    outward = tuple(value + (1 if value > 4 else -1) for value in corner)
    assert on_known((outward[0], outward[1])).false_alarms == 1


def test_places_between_the_crossings_are_judged_exactly() -> None:
    """The middle of a side is inside, a hundredth beyond it is not."""
    middle = Point(Fraction(5, 2), Fraction(3, 2))
    assert spots(find_stretch(), middle).right
    assert not spots(find_stretch(), Point(middle.x, middle.y - Fraction(1, 100))).right


def two_that_touch() -> Drill:
    """Return the drill of a smallest stretch and its mirror image, which share a corner."""
    sheet = Sheet(Mirrored(Stretch((1, 1), hinges=("shallow", "steep"))), 1)
    truth = draw(sheet)
    question = FindStretches.of(drawn_outlines(sheet))
    return replace(find_stretch(), design=sheet, truth=truth, pattern=truth.unlabelled(), question=question)


def test_a_mark_on_a_shared_corner_finds_both() -> None:
    """Whoever puts it there has seen both, and no mark of theirs lies outside."""
    drill = two_that_touch()
    assert isinstance(drill.question.answer, Outlines)
    ends = [
        {end for edge in outline for end in drill.pattern.ends(edge)}
        for outline in drill.question.answer.edges
    ]
    (shared,) = ends[0] & ends[1]
    verdict = spots(drill, shared)
    assert (verdict.right, verdict.misses, verdict.false_alarms) == (True, 0, 0)
    assert verdict.answered == "You marked 1 place: 2 found."
    assert verdict.truth == "There are 2 slanted stretches."


def test_one_of_two_is_missed() -> None:
    """A mark in one leaves the other missed, and its outline alone is lit so."""
    drill = two_that_touch()
    assert isinstance(drill.question.answer, Outlines)
    first, second = drill.question.answer.edges
    verdict = spots(drill, place_inside(drill, first))
    assert (verdict.misses, verdict.lit.right, verdict.lit.missed) == (1, first, second)
    assert verdict.answered == "You marked 1 place: 1 found. You missed 1."


def test_one_of_several_is_named_by_a_crossing_within_it_alone() -> None:
    """Where two touch, the corner that they share would name both."""
    drill = two_that_touch()
    for each in drill.question.answer.edges:
        (other,) = set(drill.question.answer.edges) - {each}
        why = spots(drill, place_inside(drill, other)).why
        (named,) = re.findall(r"round \((\d+); (\d+)\)", why)
        left, _, _, top = drill.pattern.box
        at = Point(left + int(named[0]), top - int(named[1]))
        assert lies_within(drill.pattern, each, at)
        assert not lies_within(drill.pattern, other, at)


def test_where_there_is_nothing_every_mark_is_a_false_alarm() -> None:
    """Marking nothing is right; what is said is true of every crease."""
    drill = next(
        made for made in drills("find", "mark", 2, range(60)) if made.question.answer == Outlines(())
    )
    right, wrong = spots(drill), spots(drill, Point(1, 1), Point(2, 2))
    assert (right.right, right.misses, right.false_alarms) == (True, 0, 0)
    assert (wrong.right, wrong.misses, wrong.false_alarms) == (False, 0, 2)
    assert right.answered == "You marked nothing."
    assert wrong.answered == "You marked 2 places: 2 in no stretch."
    assert right.truth == wrong.truth == "There is no slanted stretch on this sheet."
    assert right.why == "Every crease here runs along the grid or at 45 degrees, so nothing is slanted."
    assert drill.question.marks == 1
    for edge in drill.truth.creases:
        (x, y), (u, v) = drill.truth.ends(edge)
        assert x == u or y == v or abs(x - u) == abs(y - v)


@pytest.mark.parametrize("level", levels_of("find"))
def test_leaving_one_out_and_one_too_many_is_told_at_every_level(level: int) -> None:
    """The mean of an outline lies in its stretch and in no other, some crossing of the grid in none."""
    for drill in some("find", "mark", level, 3):
        assert isinstance(drill.question.answer, Outlines)
        given = right_answer(drill)
        assert isinstance(given, MarkedPlaces)
        assert len(given.points) == len(drill.question.answer.edges)
        for spot in given.points:
            verdict = drill.judge(MarkedPlaces(given.points - {spot}))
            assert (verdict.right, verdict.misses, verdict.false_alarms) == (False, 1, 0)
            where = "Its sides" if len(drill.question.answer.edges) == 1 else "The sides of the one round "
            assert verdict.why.startswith(where)
            assert " are not at 45 degrees: they go " in verdict.why
        beyond = place_outside(drill)
        verdict = drill.judge(MarkedPlaces(given.points | {beyond}))
        assert (verdict.misses, verdict.false_alarms) == (0, 1)
        assert verdict.lit.extra_points == {beyond}


@pytest.mark.parametrize(
    ("kind", "why"),
    [
        ("roof", "You marked a roof: no side is slanted."),
        ("diamond", "You marked a 45-degree stretch: no side is slanted."),
        ("tips", "You marked three flap tips joined by slanted lines: triangles, each with three ridges, "),
        (
            "band",
            "You marked a band of slanted ridges: they run on to the paper's edge and close no outline.",
        ),
        ("twist", "You marked a twist: nothing runs inside its outline, "),
    ],
)
def test_a_look_alike_is_named(kind: str, why: str) -> None:
    """A mark in the middle of each look-alike is told what it is on, and by what that differs."""
    named = 0
    for level in levels_of("find"):
        for drill in (*some("find", "mark", level), *drills("find", "mark", level, WITH_TWISTS)):
            for at in middles_of(drill, kind):
                right = right_answer(drill)
                assert isinstance(right, MarkedPlaces)
                verdict = drill.judge(MarkedPlaces(right.points | {at}))
                assert verdict.why.startswith(why)
                named += 1
    assert named


WITH_TWISTS = range(60, 66)


def middles_of(drill: Drill, kind: str) -> list[Point]:
    """Return the middles of the look-alikes of a kind that lie on the sheet and in nothing smaller."""
    left, bottom, right, top = drill.pattern.box
    found = []
    for each in drill.design.look_alikes():
        x, y = (Fraction(sum(values), 4) for values in zip(*each.corners, strict=True))
        if each.kind == kind and left < x < right and bottom < y < top:
            found.append(Point(x, y))
    return [at for at in found if look_alike_at(drill.design, at) == kind]


def test_look_alikes_lie_where_no_crease_is_slanted() -> None:
    """Whatever is drawn strictly inside the corners of one runs along the grid or at 45 degrees."""
    for level in levels_of("find"):
        for drill in some("find", "mark", level):
            for edge in drill.pattern.creases if drill.skill not in ("find tips", "find band") else ():
                (a, b), (c, d) = drill.pattern.ends(edge)
                middle = Point(Fraction(a + c) / 2, Fraction(b + d) / 2)
                if look_alike_at(drill.design, middle):
                    assert a == c or b == d or abs(a - c) == abs(b - d)


def test_marks_in_several_places_are_told_together() -> None:
    """So many in a roof, so many on pleats."""
    for drill in drills("find", "mark", 6, range(40)):
        roofs, right = middles_of(drill, "roof"), right_answer(drill)
        assert isinstance(right, MarkedPlaces)
        outside = place_outside(drill)
        if roofs and look_alike_at(drill.design, outside) is None:
            verdict = drill.judge(MarkedPlaces(right.points | {roofs[0], outside}))
            assert verdict.why == "No stretch is at 2 of your marks: 1 in a roof, 1 on pleats only."
            return
    pytest.fail("no such drill")
