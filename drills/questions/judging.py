"""Judging an answer: by the manner of asking, whatever the kind of question."""

from __future__ import annotations

from drills.geometry import Point, Step
from drills.questions import judging_find, judging_labels, judging_marks, judging_steps
from drills.questions.drill import Answer, Drill, MarkedPlaces, Marks, Outlines
from drills.questions.verdict import Verdict
from drills.structures import middle_of


def right_answer(drill: Drill) -> Answer:
    """Return an answer that is right: what is true, as a person would give it."""
    if isinstance(drill.answer, Outlines):
        return MarkedPlaces(frozenset(middle_of(drill.pattern, outline) for outline in drill.answer.edges))
    return drill.answer


def judge(drill: Drill, given: Answer) -> Verdict:
    """Return the verdict on an answer; TypeError where it is not of the sort the question asks for."""
    if isinstance(given, Step) and isinstance(drill.answer, Step):
        return judging_steps.judge_step(drill, drill.answer, given)
    if isinstance(given, Point) and isinstance(drill.answer, Point):
        return judging_steps.judge_place(drill, drill.answer, given)
    if isinstance(given, Marks) and isinstance(drill.answer, Marks):
        if drill.question.ask == "edges" and drill.shows_labels:
            return judging_labels.judge_labels(drill, drill.answer, given)
        return judging_marks.judge_marks(drill, drill.answer, given)
    if isinstance(given, MarkedPlaces) and isinstance(drill.answer, Outlines):
        return judging_find.judge_find(drill, drill.answer, given)
    raise TypeError(f"{drill.code} asks for {type(drill.answer).__name__}, not {type(given).__name__}")
