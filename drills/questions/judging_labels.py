"""Judging labels: the switched ones, no more and no fewer, or another set that is right as well."""

from __future__ import annotations

from collections import Counter

from drills.flatfold import fault_in_words, faults, solve_layers
from drills.pattern import number_of
from drills.questions.drill import Drill, Marks
from drills.questions.judging_marks import counted
from drills.questions.verdict import Highlights, Verdict

LABELS = {"M": "mountain", "V": "valley"}
_ALL_WELL = "At every point mountains and valleys differ by 2, and small angles lie between one of each."


def judge_labels(drill: Drill, truth: Marks, given: Marks) -> Verdict:
    """Return the verdict on labels marked as wrong."""
    missed, extra = truth.items - given.items, given.items - truth.items
    if extra and folds_too(drill, given):
        return _fewer_would_do(drill, truth, given)
    why, lit = _why(drill, missed, given)
    return Verdict(
        right=not missed and not extra,
        answered=counted(truth, given, "label"),
        truth=_truth(drill, truth),
        why=why,
        misses=len(missed),
        false_alarms=len(extra),
        lit=Highlights(
            right=truth.items & given.items,
            missed=missed,
            extra=extra,
            faults=lit,
        ),
    )


def folds_too(drill: Drill, given: Marks) -> bool:
    """Whether switching the marked labels gives a sheet that folds flat, layers and all."""
    mended = drill.pattern.switched(given.items)
    return not faults(mended) and solve_layers(mended).folds is True


def _fewer_would_do(drill: Drill, truth: Marks, given: Marks) -> Verdict:
    return Verdict(
        right=True,
        answered=f"You marked {number_of(len(given.items), 'label')}.",
        truth=f"Also folds; fewer would do: {number_of(len(truth.items), 'label')}.",
        why=_why(drill, frozenset(), Marks(frozenset()))[0],
        slip="more than needed",
        lit=Highlights(right=truth.items, faults=frozenset(faults(drill.pattern))),
    )


def _truth(drill: Drill, truth: Marks) -> str:
    if not truth.items:
        return "Nothing is wrong on this sheet."
    counts = Counter(LABELS[drill.truth.edges[edge].label] for edge in truth.items)
    (first, number), *others = sorted(counts.items())
    if len(truth.items) == 1:
        return f"1 label is wrong; it should be a {first}."
    if not others:
        whole = "both" if number == 2 else f"all {number}"
        return f"{number} labels are wrong; {whole} should be {first}s."
    shares = [number_of(count, label) for label, count in sorted(counts.items())]
    return f"{len(truth.items)} labels are wrong; they should be {' and '.join(shares)}."


def _why(drill: Drill, missed: frozenset[int], given: Marks) -> tuple[str, frozenset[int]]:
    """Return what is wrong at a point, and all such points: at a missed label's end, if there is one.

    Where none was missed but some are too many it is told what is wrong once those are switched too.
    """
    mended = drill.pattern.switched(given.items)
    left = faults(mended)
    if given.items and left and not missed:
        fault = fault_in_words(mended, left[0])
        return f"With yours switched, {fault[0].lower()}{fault[1:]}", frozenset(left)
    broken = faults(drill.pattern)
    if not broken:
        return _ALL_WELL, frozenset()
    ends = {end for edge in missed for end in drill.pattern.edges[edge][:2]}
    told = next((vertex for vertex in broken if vertex in ends), broken[0])
    return fault_in_words(drill.pattern, told), frozenset(broken)
