"""The precreasing plan of a pattern."""

from __future__ import annotations

from drills.plan.planning import open_labels, plan
from drills.plan.stretch_plan import Crease, Dot, DotKind, StretchPlan, Way

__all__ = [
    "Crease",
    "Dot",
    "DotKind",
    "StretchPlan",
    "Way",
    "open_labels",
    "plan",
]
