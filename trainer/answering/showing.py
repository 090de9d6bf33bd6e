"""How the board shows a verdict, and a hint."""

from __future__ import annotations

from dataclasses import replace

from drills.flatfold import faults
from drills.pattern import place
from drills.questions.drill import Drill, Marks
from drills.questions.verdict import Verdict
from drills.structures import outlines
from trainer.board import Look, Marked, points_at


def verdict_look(drill: Drill, verdict: Verdict, asked: Look) -> Look:
    """Return the board with what was right, missed and wrong, and the reason lit."""
    lit = verdict.lit
    return replace(
        asked,
        hidden=frozenset(),
        bare=drill.question.ask == "place",
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


def hint(drill: Drill) -> str:
    """Return a little help in words that leaves the answer to be found."""
    if drill.question.ask == "structures":
        return "Look for sides off the 45 degrees: a slanted stretch has four, in two pairs of parallels."
    if drill.question.ask in ("step", "place"):
        return "Follow the grid: first all squares across, then up or down, to where a crossing is met."
    if drill.question.ask == "edges" and drill.shows_labels:
        worth_counting = faults(drill.pattern) or drill.pattern.interior
        return f"Count mountains and valleys at {place(drill.pattern, worth_counting[0])}."
    asked = drill.answer.items if isinstance(drill.answer, Marks) else frozenset()
    places = {point: vertex for vertex, point in enumerate(drill.pattern.vertices) if vertex not in asked}
    corners = [places[point] for outline in outlines(drill.sheet) for point in outline if point in places]
    if not corners:
        return "Follow the slanted creases to the paper's edge: which of them has the outline on both sides?"
    at = place(drill.pattern, corners[0])
    return f"The outline has a corner at {at}; inside lines all run parallel."
