from __future__ import annotations

from drills.questions import certify
from tests.drills.questions.codes import right_answer
from tests.trainer.practice.making import measured
from trainer.practice.first_minutes import FIRST_MINUTES
from trainer.practice.lesson import Lesson
from trainer.practice.lesson_drills import SMALL


def test_the_first_minutes_are_three_pages_on_one_smallest_sheet() -> None:
    """Read a side, mark the inside line, find the wrong label: all on one stretch of one pleat a side."""
    lesson = Lesson(FIRST_MINUTES)
    shown = []
    while (drill := lesson.next_drill()) is not None:
        shown.append(drill)
        assert lesson.progress == f"{len(shown)} of 3"
        assert lesson.tells == FIRST_MINUTES.pages[len(shown) - 1].parts[0].tells
        lesson.keep(drill, drill.judge(right_answer(drill)), measured(), helped=False)
    assert [drill.question.ask for drill in shown] == ["step", "edges", "edges"]
    assert [drill.shows_labels for drill in shown] == [False, False, True]
    assert {drill.truth for drill in shown} == {shown[0].truth}
    assert SMALL.units == (1, 1)


def test_the_pages_are_drills_that_pass_the_certificate() -> None:
    """Each has one answer, to be marked once: one step, one inside line, one label."""
    for page in FIRST_MINUTES.pages:
        drill = page.parts[0].make()
        assert certify(drill.truth, drill.pattern, drill.question) == ()
        assert drill.question.marks == 1
        assert drill.judge(right_answer(drill)).right


def test_the_wrong_label_shows_where_the_text_says() -> None:
    """Mountains and valleys do not differ by 2 at the ends of one crease, both inside the sheet."""
    drill = FIRST_MINUTES.pages[2].parts[0].make()
    verdict = drill.judge(right_answer(drill))
    (wrong,) = verdict.lit.right
    assert {count.vertex for count in verdict.lit.counts} == set(drill.truth.interior_ends[wrong])
    assert len(verdict.lit.counts) == 2
