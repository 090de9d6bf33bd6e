"""Drills on a sheet of a person's own: every kind and form is asked of what is there to be asked of."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from drills.flatfold import check_angles, failing, folds
from drills.geometry import Chance
from drills.pattern import CreasePattern, Paper, build
from drills.questions import steps
from drills.questions.asking.inside import JoinPoints, MarkInsideLines, MarkTurningPoints
from drills.questions.asking.labels import MarkWrongLabels
from drills.questions.asking.steps import PlaceStep, ReadStep, Segment
from drills.questions.asking.stretches import FindStretches
from drills.questions.certificate import certify
from drills.questions.code import OwnCode, Spec
from drills.questions.labels import is_fair
from drills.questions.levels import LARGE
from drills.questions.question import AnyQuestion, Drill
from drills.questions.registry import KINDS, DrillError, short_form
from drills.structures import OwnSheet, find_stretches

_TRIES = 60
_FEW = 3


class OwnDrillError(DrillError):
    """A sheet of which something cannot be asked; its text is one sentence that says why."""

    def __init__(self, sentence: str) -> None:
        RuntimeError.__init__(self, sentence)
        self.faults = (sentence,)


class _Asked(NamedTuple):
    """What is asked, the skill's detail, and the pattern shown."""

    question: AnyQuestion
    detail: str
    shown: CreasePattern


def checked_own(code: OwnCode) -> OwnCode:
    """Return the code in its shortest form; CodeError where there is no such kind, form or seed."""
    return code._replace(form=short_form(code.kind, code.form, code.seed))


def make_own(sheet: OwnSheet, code: OwnCode) -> Drill:
    """Return the drill of a code on the sheet that it names; equal sheets and codes give equal drills.

    OwnDrillError says what is missing on the sheet, or wrong with it.
    """
    truth = sheet.pattern
    if check_angles(truth) or failing(truth, truth.labels(), folds):
        raise OwnDrillError("This sheet does not fold flat as it is; slantwise check says where.")
    kind = KINDS[code.kind]
    form = code.form or kind.first_form
    if code.kind not in _ASK:
        raise OwnDrillError(f"{kind.title} is not asked on a sheet of one's own; choose another kind.")
    question, detail, shown = _ASK[code.kind](truth, form, code.chance)
    several = len(kind.forms) > 1 or f"{code.kind} {detail}" not in kind.skills
    skill = f"{code.kind} {form} {detail}" if several else f"{code.kind} {detail}"
    spec = Spec(code.kind, kind.nearest_level(LARGE), form, skill, sheet, detail, own=code)
    faults = certify(truth, shown, question) if code.kind == "labels" else question.verify(shown)
    if faults:
        raise OwnDrillError(f"On this sheet {kind.title.lower()} cannot be asked for sure; try another seed.")
    return Drill(spec, sheet, shown, truth, question)


def _ask_steps(truth: CreasePattern, form: str, chance: Chance) -> _Asked:
    by_ratio = {ratio: steps.segments(truth, ratio, (*steps.ANY_ROLE, "other")) for ratio in steps.SLANTS}
    shown = [ratio for ratio, found in by_ratio.items() if found]
    if not shown:
        raise OwnDrillError("No slanted crease on this sheet joins two crossings of the grid.")
    ratio = chance.pick(shown)
    segment = chance.pick(by_ratio[ratio])
    if chance.one_in(2):
        segment = Segment(segment.end, segment.start, segment.edges[::-1])
    step = steps.step_of(truth, segment)
    if form == "read":
        return _Asked(ReadStep.of(segment, step, counts_repeats=True), ratio, truth.unlabelled())
    bare = build((), Paper(*truth.box))
    return _Asked(PlaceStep.of(truth.vertices[segment.start], step), ratio, bare)


def _ask_sinks(truth: CreasePattern, form: str, chance: Chance) -> _Asked:
    stretches = find_stretches(truth)
    inside = frozenset(edge for found in stretches for edge in found.inside)
    turning = sorted({vertex for found in stretches for vertex in found.turning_points})
    detail = "several" if len(stretches) > 1 else "equal few" if len(inside) <= _FEW else "equal many"
    if form == "mark":
        return _Asked(MarkInsideLines.of(inside), detail, truth.unlabelled())
    if not turning:
        raise OwnDrillError("No turning point is on this sheet; ask for its inside lines.")
    if form == "points":
        return _Asked(MarkTurningPoints.of(frozenset(turning)), detail, truth.unlabelled())
    start = chance.pick(turning)
    line = next(edge for edge in truth.around[start] if edge in inside)
    return _Asked(JoinPoints.of(start, truth.other_end(line, start), inside), detail, truth.unlabelled())


def _ask_labels(truth: CreasePattern, form: str, chance: Chance) -> _Asked:
    """Ask for one label that is switched, where switching it back is the one smallest repair."""
    level = KINDS["labels"].nearest_level(LARGE)
    likely = [edge for edge in truth.creases if truth.interior_ends[edge]]
    for edge in chance.shuffled(likely)[:_TRIES]:
        wrong = frozenset({edge})
        if is_fair(truth, wrong, level):
            return _Asked(MarkWrongLabels.of(wrong, level), "one", truth.switched(wrong))
    raise OwnDrillError("On this sheet no wrong label has a single smallest repair; ask for something else.")


def _ask_find(truth: CreasePattern, form: str, chance: Chance) -> _Asked:
    outlines = sorted((frozenset(found.outline) for found in find_stretches(truth)), key=sorted)
    return _Asked(FindStretches.of(tuple(outlines)), "roof", truth.unlabelled())


_ASK: Mapping[str, Callable[[CreasePattern, str, Chance], _Asked]] = {
    "steps": _ask_steps,
    "sinks": _ask_sinks,
    "labels": _ask_labels,
    "find": _ask_find,
}
ASKED_OF_OWN = tuple(_ASK)
"""The kinds that can be asked on a sheet of one's own; a kind without a row in _ASK is not."""
