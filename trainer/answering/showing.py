"""How the board shows a verdict."""

from __future__ import annotations

from dataclasses import replace

from drills.questions import Drill, Verdict
from trainer.board import Look, Marked, points_at


def verdict_look(drill: Drill, verdict: Verdict, asked: Look) -> Look:
    """Return the board with what was right, missed and wrong, and the reason lit."""
    lit = verdict.lit
    return replace(
        asked,
        hidden=frozenset(),
        cursor_edge=None,
        cursor_at=None,
        marked=Marked(),
        right=Marked(lit.right, lit.right_points),
        missed=Marked(lit.missed, lit.missed_points),
        wrong=Marked(lit.extra, lit.extra_points),
        shaded=lit.going_in,
        staircase=lit.staircase,
        fault_points=points_at(drill.pattern, lit.faults),
    )
