"""The precreasing plan, from blank paper: the grid, then what lies on it, in an order that can be folded."""

from __future__ import annotations

from drills.plan.grid import GridPlan, Reference, grid_of, halvings
from drills.plan.sheet import Fold, FoldKind, Marks, SheetPlan, plan_sheet
from drills.plan.stretches import (
    Crease,
    Dot,
    DotKind,
    RepeatedStep,
    StretchPlan,
    open_labels,
    plan,
)

__all__ = [
    "Crease",
    "Dot",
    "DotKind",
    "Fold",
    "FoldKind",
    "GridPlan",
    "Marks",
    "Reference",
    "RepeatedStep",
    "SheetPlan",
    "StretchPlan",
    "grid_of",
    "halvings",
    "open_labels",
    "plan",
    "plan_sheet",
]
