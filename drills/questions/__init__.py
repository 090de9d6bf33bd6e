"""The drills: kinds of question, codes, ways of asking, the certificate, JSON."""

from __future__ import annotations

from drills.questions.asking.inside import JoinPoints, MarkInsideLines, MarkTurningPoints
from drills.questions.asking.labels import COUNTING_UP_TO, MarkWrongLabels
from drills.questions.asking.steps import PlaceStep, ReadStep, Segment, with_directions_of
from drills.questions.asking.stretches import FindStretches, MarkedPlaces, Outlines
from drills.questions.certificate import certify
from drills.questions.code import (
    LARGEST_SEED,
    NO_FEATURES,
    Code,
    CodeError,
    Features,
    Recipe,
    Spec,
    parse_code,
)
from drills.questions.kind import Form, PaceFloor, QuestionKind
from drills.questions.labels import MISTAKES
from drills.questions.levels import ADDS, ALONE, FAIR_CUTS, LARGE, SEVERAL, SINGLE_STRETCHES
from drills.questions.question import AnyQuestion, Drill, Fields, Highlights, Marks, Question, Slip, Verdict
from drills.questions.registry import (
    KINDS,
    DrillError,
    checked,
    codes_for,
    codes_of,
    kind_of,
    make,
    newest,
    partners_of,
    question_from_json,
    read_code,
    skill_names,
    skill_of,
    skills_at,
    spec,
    top_level,
)

__all__ = [
    "ADDS",
    "ALONE",
    "COUNTING_UP_TO",
    "FAIR_CUTS",
    "KINDS",
    "LARGE",
    "LARGEST_SEED",
    "MISTAKES",
    "NO_FEATURES",
    "SEVERAL",
    "SINGLE_STRETCHES",
    "AnyQuestion",
    "Code",
    "CodeError",
    "Drill",
    "DrillError",
    "Features",
    "Fields",
    "FindStretches",
    "Form",
    "Highlights",
    "JoinPoints",
    "MarkInsideLines",
    "MarkTurningPoints",
    "MarkWrongLabels",
    "MarkedPlaces",
    "Marks",
    "Outlines",
    "PaceFloor",
    "PlaceStep",
    "Question",
    "QuestionKind",
    "ReadStep",
    "Recipe",
    "Segment",
    "Slip",
    "Spec",
    "Verdict",
    "certify",
    "checked",
    "codes_for",
    "codes_of",
    "kind_of",
    "make",
    "newest",
    "parse_code",
    "partners_of",
    "question_from_json",
    "read_code",
    "skill_names",
    "skill_of",
    "skills_at",
    "spec",
    "top_level",
    "with_directions_of",
]
