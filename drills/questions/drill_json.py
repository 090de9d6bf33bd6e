"""A drill as JSON: pattern, question and answer as plain values for one line of text."""

from __future__ import annotations

import json

from drills.fold_file import to_fold
from drills.geometry import Point, Step
from drills.questions.drill import Drill, Marks, Outlines, Question, Segment


def drill_to_json(drill: Drill) -> dict[str, object]:
    """Return a drill as JSON values; vertices and edges are indices into its pattern, y up."""
    code = drill.spec.code
    return {
        "code": drill.code,
        "kind": code.kind,
        "form": drill.spec.form,
        "level": code.level,
        "seed": code.seed,
        "skill": drill.spec.skill,
        "pattern": to_fold(drill.pattern),
        "question": _question(drill.question),
        "answer": _answer(drill),
    }


def drill_line(drill: Drill) -> str:
    """Return a drill as one line of JSON, the same characters on every system."""
    return json.dumps(drill_to_json(drill), ensure_ascii=True, separators=(", ", ": "))


def _question(question: Question) -> dict[str, object]:
    found: dict[str, object] = {"ask": question.ask}
    if question.lit is not None:
        found["segments"] = [_segment(question.lit)]
        found["repeats"] = question.counts_repeats
    if question.start is not None and question.step is not None:
        found |= {"from": _point(question.start), "step": _step(question.step)}
    if question.start_vertex is not None:
        found |= {"from": question.start_vertex, "hidden": sorted(question.hidden)}
    return found


def _answer(drill: Drill) -> dict[str, object]:
    answer = drill.answer
    if isinstance(answer, Step):
        return {"steps": [_step(answer)]}
    if isinstance(answer, Point):
        return {"point": _point(answer)}
    if isinstance(answer, Outlines):
        return {"structures": [sorted(outline) for outline in answer.edges]}
    return _marks(drill, answer)


def _marks(drill: Drill, answer: Marks) -> dict[str, object]:
    if drill.question.ask == "join":
        return {"vertex": min(answer.items)}
    return {str(drill.question.ask): sorted(answer.items)}


def _segment(segment: Segment) -> dict[str, object]:
    return {"from": segment.start, "to": segment.end, "edges": list(segment.edges)}


def _step(step: Step) -> dict[str, int]:
    return {"across": step.across, "down": step.down, "times": step.times}


def _point(point: Point) -> list[int]:
    """Return a crossing of the grid as two whole numbers."""
    return [int(point.x), int(point.y)]
