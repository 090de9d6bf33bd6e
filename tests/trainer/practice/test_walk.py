from __future__ import annotations

from drills.questions import certify
from tests.drills.questions.codes import right_answer
from tests.trainer.practice.making import measured
from trainer.practice.first_minutes import SHEET, Walk, pages


def test_the_first_minutes_are_three_pages_on_one_smallest_sheet() -> None:
    """Read a side, mark the inside line, find the wrong label: all on one stretch of one pleat a side."""
    walk = Walk()
    shown = []
    while (drill := walk.next_drill()) is not None:
        shown.append(drill)
        assert walk.progress == f"{len(shown)} of 3"
        assert walk.tells == pages()[len(shown) - 1].tells
        walk.keep(drill, drill.judge(right_answer(drill)), measured(), helped=False)
    assert [drill.question.ask for drill in shown] == ["step", "edges", "edges"]
    assert [drill.shows_labels for drill in shown] == [False, False, True]
    assert {drill.truth for drill in shown} == {shown[0].truth}
    assert SHEET.units == (1, 1)


def test_the_pages_are_drills_that_pass_the_certificate() -> None:
    """Each has one answer, to be marked once: one step, one inside line, one label."""
    for page in pages():
        assert certify(page.drill.truth, page.drill.pattern, page.drill.question) == ()
        assert page.drill.question.marks == 1
        assert page.drill.judge(right_answer(page.drill)).right


def test_the_wrong_label_shows_where_the_text_says() -> None:
    """Mountains and valleys do not differ by 2 at the ends of one crease, both inside the sheet."""
    drill = pages()[2].drill
    verdict = drill.judge(right_answer(drill))
    (wrong,) = verdict.lit.right
    assert verdict.lit.faults == set(drill.truth.interior_ends[wrong])
    assert len(verdict.lit.faults) == 2
