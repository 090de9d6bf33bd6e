"""A drill as JSON: pattern, question and answer as plain values for one line of text."""

from __future__ import annotations

import json

from drills.fold_file import to_fold
from drills.questions.question import AnyQuestion, Drill, Fields
from drills.questions.registry import KINDS


def drill_to_json(drill: Drill) -> dict[str, object]:
    """Return a drill of a code as JSON values; vertices and edges are indices into its pattern, y up."""
    code = drill.spec.code
    if code is None:
        raise ValueError("A drill of a lesson has no code.")
    return {
        "code": drill.code,
        "kind": drill.kind,
        "form": drill.form,
        "level": drill.level,
        "seed": code.seed,
        "skill": drill.skill,
        "pattern": to_fold(drill.pattern),
        "question": drill.question.to_json(),
        "answer": drill.question.answer_to_json(),
    }


def drill_line(drill: Drill) -> str:
    """Return a drill as one line of JSON, the same characters on every system."""
    return json.dumps(drill_to_json(drill), ensure_ascii=True, separators=(", ", ": "))


def question_from_json(fields: Fields) -> AnyQuestion:
    """Return the question of a drill's JSON; KeyError or TypeError where the fields are of no question."""
    asking = KINDS[fields["kind"]].forms[fields["form"]].question
    return asking.from_json(fields["question"], fields["answer"], fields["level"])
