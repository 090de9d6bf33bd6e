"""Whole bases: a sheet cut into cells with a block in each, flap tips where they meet, hinges, labels."""

from __future__ import annotations

from drills.structures.bases.base import Base, Drawn, Plan, drawn_after, drawn_on
from drills.structures.bases.drawing import draw_base, plans_of
from drills.structures.bases.hinges import HingePaths
from drills.structures.bases.layout import Wanted
from drills.structures.bases.prepared import PREPARED, Style

__all__ = [
    "PREPARED",
    "Base",
    "Drawn",
    "HingePaths",
    "Plan",
    "Style",
    "Wanted",
    "draw_base",
    "drawn_after",
    "drawn_on",
    "plans_of",
]
