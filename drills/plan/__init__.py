"""The precreasing plan of a pattern."""

from __future__ import annotations

from drills.plan.planning import open_labels, plan
from drills.plan.stretch_plan import Crease, Dot, DotKind, RepeatedStep, StretchPlan

__all__ = ["Crease", "Dot", "DotKind", "RepeatedStep", "StretchPlan", "open_labels", "plan"]
