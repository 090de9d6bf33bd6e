"""The certificate: every drill is checked by a second route before it is shown.

It sees the sheet that is said to fold, the pattern shown, and the question with its answer, and
nothing of how they were made: no ranks, no roles, no design. It recomputes the angles, the labels and
the layers of the repaired sheet, and the question finds its answer again from where the creases run.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from drills.flatfold import check_angles, failing, folds, solve_layers
from drills.pattern import CreasePattern
from drills.questions.question import AnyQuestion


def certify(truth: CreasePattern, shown: CreasePattern, question: AnyQuestion) -> tuple[str, ...]:
    """Return what is wrong with a drill, one sentence a fault; empty where it may be shown.

    ``truth`` is the labelled sheet, ``shown`` what the question is asked of: the same creases with
    labels, without any, or the bare paper.
    """
    return (*_fold_faults(truth), *_shown_faults(truth, shown, question), *question.verify(shown))


@lru_cache(maxsize=64)
def _fold_faults(truth: CreasePattern) -> tuple[str, ...]:
    """Return why a labelled sheet does not fold flat; a layer order is sought only where each point folds."""
    faults = [f"The angles at vertex {vertex} do not fold flat." for vertex in check_angles(truth)]
    faults += [
        f"The labels at vertex {vertex} cannot fold." for vertex in failing(truth, truth.labels(), folds)
    ]
    faults += [
        f"The crease {edge} has no label." for edge in truth.creases if truth.edges[edge].label not in "MV"
    ]
    if not faults and solve_layers(truth).folds is not True:
        faults.append("No order of the layers was found for the sheet.")
    return tuple(faults)


def _shown_faults(truth: CreasePattern, shown: CreasePattern, question: AnyQuestion) -> Iterator[str]:
    """Yield how the pattern shown is not of the sheet; once repaired, its labels must be those that fold."""
    if shown.box != truth.box:
        yield "The paper shown is not the paper of the sheet."
    if not shown.creases:
        return
    if shown.vertices != truth.vertices or [e[:2] for e in shown.edges] != [e[:2] for e in truth.edges]:
        yield "The creases shown are not those of the sheet."
        return
    pairs = zip(question.repaired(shown).labels(), truth.labels(), strict=True)
    for edge, (label, true) in enumerate(pairs):
        if label not in (true, "U"):
            yield f"The crease {edge} is not repaired by the answer."
