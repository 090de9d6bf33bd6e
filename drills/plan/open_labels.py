"""Labels that are not given for what is planned: those with which the whole sheet folds flat."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from drills.check import check
from drills.pattern.crease_pattern import CreasePattern, Label
from drills.plan.stretch_plan import StretchPlan


def open_labels(pattern: CreasePattern, plans: Iterable[StretchPlan]) -> Mapping[int, Label]:
    """Return labels for open creases, by edge; none where all that is planned has labels, or none fold."""
    if all(each.is_labelled for each in plans):
        return {}
    return check(pattern).solved or {}
