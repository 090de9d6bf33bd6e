from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from drills.flatfold import fold
from drills.geometry import Point, step_between
from drills.pattern import CreasePattern, straight_runs
from drills.questions import Marks, certify
from drills.structures import Roof, Sheet, draw
from tests.trainer.practice.making import measured
from trainer.practice.lesson import Lesson, Part
from trainer.practice.lesson_drills import LARGE, SMALL
from trainer.practice.lesson_pages import LESSON

PAGES = len(LESSON.pages)
PARTS = [
    pytest.param(part, id=f"{page.title}, part {number}")
    for page in LESSON.pages
    for number, part in enumerate(page.parts, 1)
]


@pytest.mark.parametrize("part", PARTS)
def test_every_drill_of_the_lesson_passes_the_certificate(part: Part) -> None:
    """Each has one answer that is certain, and is the same each time."""
    drill = part.make()
    assert certify(drill.truth, drill.pattern, drill.question) == ()
    assert drill.judge(drill.question.right_answer(drill)).right
    assert part.make() == drill
    assert drill.question.says


@pytest.mark.parametrize("part", PARTS)
def test_a_part_tells_in_a_few_sentences(part: Part) -> None:
    """Five at most, and none that a person would have to scroll for beside the board; a table may follow."""
    prose, *_ = part.tells.splitlines()
    assert 1 <= len(re.findall(r"[.?](?: |$)", prose)) <= 5
    assert len(prose) <= 200


def test_pages_are_worked_first_then_half_worked_then_alone() -> None:
    """Every page ends with a drill of the person's own."""
    assert all(page.parts[-1].stage == "alone" for page in LESSON.pages)
    stages = [page.parts[0].stage for page in LESSON.pages]
    assert stages[:5] == ["worked", "worked", "half", "half", "half"]


def test_the_full_name_is_told_at_the_first_mention() -> None:
    """After that it is the slanted stretch."""
    first, *others = [part.tells for page in LESSON.pages for part in page.parts]
    assert "slanted stretch (in full: Pythagorean stretch)" in first
    assert not any("Pythagorean" in tells for tells in others)


def test_dots_and_scoring_are_told_with_care() -> None:
    """A mat under thin paper, a blade away from the hand: common practice, no source."""
    told = [part.tells for page in LESSON.pages for part in page.parts]
    (dots, *_) = [tells for tells in told if "pencil dot" in tells]
    (scoring,) = [tells for tells in told if "score" in tells]
    assert "a mat under it" in dots
    assert "away from the hand that holds the paper" in scoring


def test_the_stretch_keeps_its_tips_further_apart() -> None:
    """12 squares when folded, on 8 by 10 squares; a 45-degree roof of that size leaves 10."""
    (page, *_) = LESSON.pages
    assert "8 across and 10 down, and they stand 12 apart when folded. 45-degree ridges would leave 10." in (
        page.parts[1].tells
    )
    drill = page.parts[1].make()
    (join,) = drill.design.joins()
    assert join.apart == (8, 10)
    roof = draw(Sheet(Roof(10, 8, ("side", "side")), pleats=0))
    assert folded_apart(drill.truth, *join.tips) == 12**2
    assert folded_apart(roof, Point(0, 0), Point(10, 8)) == 10**2


def folded_apart(pattern: CreasePattern, one: Point, other: Point) -> Fraction:
    """Return the square of the distance of two vertices of the folded sheet, in squares of the grid."""
    folded = fold(pattern)

    def apart(first: int, second: int) -> int:
        return sum((a - b) ** 2 for a, b in zip(folded.points[first], folded.points[second], strict=True))

    edge = pattern.edges[0]
    length = sum((a - b) ** 2 for a, b in zip(*pattern.ends(0), strict=True))
    ends = pattern.vertices.index(one), pattern.vertices.index(other)
    return Fraction(apart(*ends) * length) / apart(edge.start, edge.end)


def test_inside_lines_go_4_across_3_up_once_or_twice() -> None:
    """On the sheet that says so; and every step of a side ends at a turning point or a corner."""
    pattern = draw(LARGE)
    ends = [
        (pattern.vertices[run.vertices[0]], pattern.vertices[run.vertices[-1]])
        for run in straight_runs(pattern, "inside")
    ]
    steps = [step_between(*sorted(pair)) for pair in ends]
    assert sorted(steps) == [(4, -3, 1), (4, -3, 1), (4, -3, 2)]
    sides = [edge for edge in pattern.creases if pattern.edges[edge].role == "outline"]
    assert {step_between(*sorted(pattern.ends(edge))) for edge in sides} == {(3, -1, 1), (1, -2, 1)}


def test_what_is_to_be_switched_are_mountains_of_the_stretch() -> None:
    """Sides and inside lines are creased as mountains; on the first sheet none of them is a valley yet."""
    (page,) = [page for page in LESSON.pages if page.title == "Mountain first"]
    for part in page.parts:
        drill = part.make()
        assert isinstance(drill.question.answer, Marks)
        for edge in drill.question.answer.items:
            assert drill.pattern.edges[edge].role in ("inside", "outline")
            assert (drill.pattern.edges[edge].label, drill.truth.edges[edge].label) == ("M", "V")
    first = page.parts[0].make().pattern
    assert {edge.label for edge in first.edges if edge.role in ("inside", "outline")} == {"M"}


def test_wrong_labels_show_at_both_ends_of_their_crease() -> None:
    """As the text says: the counts are off at two points."""
    (page,) = [page for page in LESSON.pages if page.title == "Checking labels"]
    for part in page.parts:
        drill = part.make()
        assert isinstance(drill.question.answer, Marks)
        (wrong,) = drill.question.answer.items
        faults = drill.judge(drill.question.right_answer(drill)).lit.counts
        assert {count.vertex for count in faults} == set(drill.truth.interior_ends[wrong])
        assert len(faults) == 2


def test_a_lesson_goes_through_all_parts() -> None:
    """Page by page, part by part; nothing is left to be reached at the end."""
    lesson = Lesson(LESSON)
    for number, page in enumerate(LESSON.pages, 1):
        for part in page.parts:
            drill = lesson.next_drill()
            assert drill is not None
            assert drill == part.make()
            assert (lesson.tells, lesson.stage) == (part.tells, part.stage)
            assert (lesson.progress, lesson.reached) == (f"{number} of {PAGES}", number)
            lesson.keep(drill, drill.judge(drill.question.right_answer(drill)), measured(), helped=False)
    assert lesson.next_drill() is None
    assert lesson.is_over
    assert lesson.reached == 0


def test_pages_are_turned_on_and_back() -> None:
    """Back leads to the beginning of the page first; there is no page before the first or after the last."""
    lesson = Lesson(LESSON, 2)
    first, second = (part.make() for part in LESSON.pages[1].parts)
    assert [lesson.next_drill(), lesson.next_drill()] == [first, second]
    assert lesson.turn_back()
    assert lesson.next_drill() == first
    assert lesson.turn_back()
    assert lesson.next_drill() == LESSON.pages[0].parts[0].make()
    assert not lesson.turn_back()
    assert all(lesson.turn_on() for _ in LESSON.pages[1:])
    assert not lesson.turn_on()
    assert lesson.next_drill() == LESSON.pages[-1].parts[0].make()


@pytest.mark.parametrize(("page", "begins"), [(0, 1), (4, 4), (PAGES, PAGES), (PAGES + 1, 1), (-1, 1)])
def test_a_lesson_begins_at_the_page_that_was_reached(page: int, begins: int) -> None:
    """At the first one where there is no such page."""
    lesson = Lesson(LESSON, page)
    assert lesson.reached == begins
    assert lesson.next_drill() == LESSON.pages[begins - 1].parts[0].make()


def test_the_opening_says_where_the_lesson_goes_on() -> None:
    """Nothing before it is begun, or where there is no such page."""
    assert LESSON.page_in_words(4) == f", page 4 of {PAGES}"
    assert [LESSON.page_in_words(page) for page in (0, PAGES + 1)] == ["", ""]


def test_sheets_fit_a_small_window() -> None:
    """14 by 12 squares at most, as on the first four levels."""
    for page in LESSON.pages:
        for part in page.parts:
            left, bottom, right, top = part.make().pattern.box
            assert right - left <= 14
            assert top - bottom <= 12
    assert replace(SMALL, pleats=2).size == (8, 7)
