"""The first three minutes: what each page tells, and its drill, for someone new to the words."""

from __future__ import annotations

from drills.questions import KINDS
from trainer.practice.lesson import LessonPlan, Page, Part
from trainer.practice.lesson_drills import SMALL, drill_on
from trainer.practice.words import SHOWN_ONCE

_PAGES = (
    Page.of(
        KINDS["steps"].title,
        Part(
            "Most creases run along the grid or at 45 degrees. The five slanted ones make a slanted "
            "stretch (Pythagorean stretch): four sides, its outline, and a line inside.",
            drill_on(
                SMALL,
                "steps",
                "read",
                "1:3",
                "Read the lit side: how many squares across, how many up?",
                drawn_by="walk",
            ),
        ),
    ),
    Page.of(
        KINDS["sinks"].title,
        Part(
            "When the sheet folds, the two triangles inside the outline go in, and with them the inside "
            "line between. Arrows go from point to point, < and > turn to a crease, Space marks it; or "
            "click it.",
            drill_on(SMALL, "sinks", "mark", "equal few", "Mark the inside line.", drawn_by="walk"),
        ),
    ),
    Page.of(
        KINDS["labels"].title,
        Part(
            "M is a mountain, V a valley. At every point inside the sheet their numbers differ by 2. "
            "One label is wrong: find two points that are off, with one crease between them.",
            drill_on(SMALL, "labels", "mark", "one", "Mark the wrong label.", drawn_by="walk 3"),
        ),
    ),
)
FIRST_MINUTES = LessonPlan("The first three minutes", _PAGES, why=SHOWN_ONCE, are_turned=False)
"""Three small tasks on one smallest sheet, each shown how."""
