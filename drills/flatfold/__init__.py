"""Flat folding: single vertices, labels and their repairs, layers, and one report on all of it."""

from __future__ import annotations

from drills.flatfold.check import (
    MOST_AT_A_POINT,
    Report,
    angle_fault_in_words,
    check_pattern,
    fault_in_words,
    faults,
)
from drills.flatfold.conditions import Conditions, bits, conditions_of
from drills.flatfold.folded import TearingError, cells_of, fold
from drills.flatfold.labels import (
    clusters,
    completions,
    is_only_repair,
    is_settled_by_counting,
    is_settled_in_full,
    smallest_repairs,
)
from drills.flatfold.layered_labels import LayeredLabels
from drills.flatfold.limit import UNLIMITED, Limit, OutOfTimeError
from drills.flatfold.missing import Missing, Way, completed, find_missing
from drills.flatfold.rounded import folds_rounded
from drills.flatfold.shape import FoldedShape, Rim, Side, Stack, folded_shape
from drills.flatfold.small_angles import Crowded, crowded
from drills.flatfold.solve import (
    CrossingError,
    LayerSolution,
    Order,
    contradiction,
    find_order,
    label_pairs,
    solve_layers,
)
from drills.flatfold.vertex import (
    AnyAngle,
    Rule,
    Run,
    balances,
    check_angles,
    counts_at,
    failing,
    folds,
    folds_flat,
    is_kawasaki,
    smallest_run,
    turns_around,
    valid_at,
    without_run,
)

__all__ = [
    "MOST_AT_A_POINT",
    "UNLIMITED",
    "AnyAngle",
    "Conditions",
    "CrossingError",
    "Crowded",
    "FoldedShape",
    "LayerSolution",
    "LayeredLabels",
    "Limit",
    "Missing",
    "Order",
    "OutOfTimeError",
    "Report",
    "Rim",
    "Rule",
    "Run",
    "Side",
    "Stack",
    "TearingError",
    "Way",
    "angle_fault_in_words",
    "balances",
    "bits",
    "cells_of",
    "check_angles",
    "check_pattern",
    "clusters",
    "completed",
    "completions",
    "conditions_of",
    "contradiction",
    "counts_at",
    "crowded",
    "failing",
    "fault_in_words",
    "faults",
    "find_missing",
    "find_order",
    "fold",
    "folded_shape",
    "folds",
    "folds_flat",
    "folds_rounded",
    "is_kawasaki",
    "is_only_repair",
    "is_settled_by_counting",
    "is_settled_in_full",
    "label_pairs",
    "smallest_repairs",
    "smallest_run",
    "solve_layers",
    "turns_around",
    "valid_at",
    "without_run",
]
