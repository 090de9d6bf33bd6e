"""What holds for every way of asking: judging, helping, and telling itself as JSON and back."""

from __future__ import annotations

import json

import pytest

from drills.geometry import Point, Step
from drills.questions import KINDS, MarkedPlaces, Marks, question_from_json
from tests.drills.questions.codes import FORMS, PLACES, drills, right_answer, some


@pytest.mark.parametrize(("kind", "form", "level"), PLACES)
def test_the_right_answer_is_right(kind: str, form: str, level: int) -> None:
    """With no slip, miss or false alarm, and three sentences to say so; so is the one that is shown."""
    for drill in some(kind, form, level, 5):
        verdict = drill.judge(right_answer(drill))
        assert verdict.right, drill.code
        assert (verdict.slip, verdict.misses, verdict.false_alarms) == ("", 0, 0)
        said = (verdict.answered, verdict.truth, verdict.why)
        assert all(sentence.endswith(".") and sentence == sentence.strip() for sentence in said)
        lit = verdict.lit
        assert not any((lit.missed, lit.extra, lit.missed_points, lit.extra_points))
        assert drill.judge(drill.question.right_answer(drill)).right


@pytest.mark.parametrize(("kind", "form"), FORMS)
def test_an_answer_of_another_sort_is_refused(kind: str, form: str) -> None:
    """A step, a point, marks and places are not mistaken for each other."""
    (drill,) = drills(kind, form, KINDS[kind].lowest, [1])
    for given in (Step(1, 2), Point(1, 2), Marks(frozenset({1})), MarkedPlaces(frozenset({Point(1, 2)}))):
        if type(given) is not drill.question.takes:
            with pytest.raises(TypeError, match=" takes "):
                drill.judge(given)


@pytest.mark.parametrize(("kind", "form", "level"), PLACES)
def test_a_question_is_read_back_from_json(kind: str, form: str, level: int) -> None:
    """From the text of it alone: the same question, with the same answer, that holds on the same sheet."""
    for drill in some(kind, form, level, 3):
        again = question_from_json(json.loads(drill.to_line()))
        assert again == drill.question
        assert again.verify(drill.pattern) == ()
