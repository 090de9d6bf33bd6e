"""Across and down: read the step of a slanted crease, or place a step on the bare grid."""

from __future__ import annotations

from drills.exact.chance import Chance
from drills.exact.plane import is_whole
from drills.exact.step import ratio_of, step_between
from drills.pattern.building import Paper, build
from drills.pattern.crease_pattern import CreasePattern, Role
from drills.pattern.runs import Run, straight_runs
from drills.questions.code import Code
from drills.questions.drill import Drill, Question, Segment
from drills.questions.levels import EQUAL, UNEQUAL, Level, stretch_at
from drills.questions.spec import Spec
from drills.questions.words import step_with_directions
from drills.structures.stretch import draw

FORMS = ("read", "place")
RATIOS = ("1:2", "1:3", "3:4")
_NAMES = {"read": "reading a step of {} and {}", "place": "placing a step of {} and {}"}
SKILLS = {
    f"steps {form} {ratio}": _NAMES[form].format(*ratio.split(":")) for form in FORMS for ratio in RATIOS
}

_LEVELS = (
    Level(((1, 1),), (0,)),
    Level(((1, 1),), (1, 2, 3)),
    Level(EQUAL, (0, 1, 2, 3)),
    Level(EQUAL + UNEQUAL, (1, 2, 3), (0, 1, 2, 3), cropped=True),
)
REPEATS_FROM = 3


def plan(code: Code, form: str, chance: Chance) -> Spec:
    """Return the spec of a code: one stretch of the level and the ratio of the crease to be read."""
    ratio = chance.pick(RATIOS)
    return Spec(code, form, f"steps {form} {ratio}", stretch_at(_LEVELS[code.level - 1], chance), ratio)


def make(spec: Spec, chance: Chance) -> Drill:
    """Return the drill of a spec."""
    truth = draw(spec.stretch)
    segment = chance.pick(segments(truth, spec.detail))
    if chance.one_in(2):
        segment = Segment(segment.end, segment.start, segment.edges[::-1])
    return _read(spec, truth, segment) if spec.form == "read" else _place(spec, truth, segment)


def segments(pattern: CreasePattern, ratio: str) -> list[Segment]:
    """Return the slanted creases of a ratio, each from its first to its last crossing of the grid."""
    roles: tuple[Role, ...] = ("outline", "inside")
    runs = [run for role in roles for run in straight_runs(pattern, role)]
    found = [segment for run in runs if (segment := _between_crossings(pattern, run))]
    return [segment for segment in found if _ratio(pattern, segment) == ratio]


def _ratio(pattern: CreasePattern, segment: Segment) -> str:
    low, high = ratio_of(pattern.direction(segment.edges[0], segment.start))
    return f"{low}:{high}"


def _between_crossings(pattern: CreasePattern, run: Run) -> Segment | None:
    """Return the part of a run between its first and last crossing of the grid, if it has two."""
    whole = [at for at, vertex in enumerate(run.vertices) if is_whole(pattern.vertices[vertex])]
    if len(whole) < 2:
        return None
    first, last = whole[0], whole[-1]
    return Segment(run.vertices[first], run.vertices[last], run.edges[first:last])


def _read(spec: Spec, truth: CreasePattern, segment: Segment) -> Drill:
    repeats = spec.code.level >= REPEATS_FROM
    says = (
        "Which step does the lit crease make from its start?",
        "Give the smallest: squares across, squares down or up"
        + (", and how often it repeats." if repeats else "."),
    )
    answer = step_between(truth.vertices[segment.start], truth.vertices[segment.end])
    question = Question("step", says, lit=segment, counts_repeats=repeats)
    return Drill(spec, truth.unlabelled(), truth, question, answer)


def _place(spec: Spec, truth: CreasePattern, segment: Segment) -> Drill:
    start, end = truth.vertices[segment.start], truth.vertices[segment.end]
    step = step_between(start, end)
    says = ("Where does this step end?", f"{step_with_directions(step)}.", "Put the cursor on that crossing.")
    question = Question("place", says, start=start, step=step)
    return Drill(spec, build((), Paper(*truth.box)), truth, question, end)
