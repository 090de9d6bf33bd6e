"""The pages of the lesson and of the first three minutes: what each tells, and the drills that follow."""

from __future__ import annotations

from dataclasses import replace

from drills.questions import KINDS, Recipe
from drills.structures import Stretch
from trainer.practice.lesson import LessonPlan, Page, Part, counted_for, drill_on, to_switch
from trainer.practice.words import ON_A_PAGE, SHOWN_ONCE

COUNTS_REPEATS = 3
"""The level from which on it is asked how often a step repeats."""

SMALL = Stretch((1, 1), ("steep", "shallow"), pleats=1)
LARGE = Stretch((2, 2), ("steep", "shallow"), pleats=1)


def _page(title: str, *parts: Part) -> Page:
    return Page(title, parts)


_LESSON_PAGES = (
    _page(
        "What a stretch is",
        Part(
            "Pleats turn at 45-degree ridges. Here four such ridges stop at a slanted parallelogram, "
            "and the pleats shift along its sides: a slanted stretch (in full: Pythagorean stretch).",
            drill_on(replace(SMALL, pleats=2), "find", "mark", "pleats", "Find the slanted stretch."),
            "worked",
        ),
        Part(
            "Why is it there? It saves paper. This one fills 6 by 8 squares; folded, its far corners "
            "stand 10 squares apart. 45-degree ridges in its place would leave 8.",
            drill_on(
                replace(LARGE, facing=1),
                "find",
                "mark",
                "pleats",
                "Put a mark inside the slanted stretch.",
                "Arrows move, Space marks.",
            ),
        ),
    ),
    _page(
        "Outline first",
        Part(
            "Crease the outline first. Its corners lie on crossings of the grid: put a pencil dot on "
            "each (thin paper wants a mat under it) and go from dot to dot. Count the squares across, "
            "then those up or down.",
            drill_on(SMALL, "steps", "read", "1:3", "Read the lit side.", drawn_by="lesson 1"),
            "worked",
        ),
        Part(
            "Two sides are shallow, two are steep. Opposite sides run parallel, so they make the same "
            "step. This is a steep one.",
            drill_on(
                SMALL, "steps", "read", "1:2", "Read the lit side.", "Type two numbers.", drawn_by="lesson 1"
            ),
        ),
    ),
    _page(
        "Reading a side",
        Part(
            "A longer side repeats its step. Go along it to the first crossing of the grid that it "
            "meets: that is the step. Then count how often it goes. The squares across are counted for "
            "you.",
            drill_on(
                LARGE, "steps", "read", "1:3", "Read the lit side.", drawn_by="lesson 1", level=COUNTS_REPEATS
            ),
            "half",
        ),
        Part(
            "A side may run down, or to the left: go from the dot towards the arrow. Give the smallest "
            "step: 2 across 4 down is 1 across 2 down, twice.",
            drill_on(
                replace(LARGE, facing=3),
                "steps",
                "read",
                "1:2",
                "Read the lit side.",
                drawn_by="lesson 3",
                level=COUNTS_REPEATS,
            ),
        ),
    ),
    _page(
        "Placing a step",
        Part(
            "On bare paper there is only the grid. Start at a dot, count across, then up or down: "
            "there is the next dot. The way across is gone for you.",
            drill_on(
                SMALL, "steps", "place", "1:3", "Put the cursor where this step ends.", drawn_by="lesson 1"
            ),
            "half",
        ),
        Part(
            "A step that goes twice leads twice as far: 3 across 1 up, twice, is 6 across 2 up.",
            drill_on(
                LARGE, "steps", "place", "1:2", "Put the cursor where this step ends.", drawn_by="lesson 1"
            ),
        ),
    ),
    _page(
        "Turning points",
        Part(
            "Where a pleat line from outside meets a side, an inside line begins: a turning point. It "
            "gets a pencil dot too. Corners are no turning points. Two are marked for you.",
            drill_on(LARGE, "sinks", "points", "equal few", "Mark the other turning points."),
            "half",
        ),
        Part(
            "Here each step of a side ends at a turning point or at a corner.",
            drill_on(replace(LARGE, facing=1), "sinks", "points", "equal few", "Mark every turning point."),
        ),
    ),
    _page(
        "Inside lines",
        Part(
            "With the outline creased, the inside lines follow from point to point. All of one stretch "
            "run parallel; here each goes 4 across 3 up, once or twice.",
            drill_on(
                LARGE,
                "sinks",
                "join",
                "equal few",
                "To which point does the line from the dot lead?",
                "It is hidden.",
                drawn_by="lesson 1",
            ),
        ),
        Part(
            "Here all four sides make two steps, so one inside line joins the two far corners: the "
            "middle line. If you score the lines, score away from the hand that holds the paper.",
            drill_on(replace(LARGE, facing=2), "sinks", "mark", "equal few", "Mark every inside line."),
        ),
    ),
    _page(
        "Mountain first",
        Part(
            "Crease sides and inside lines all as mountains: so the paper need not be turned over. "
            "Then switch some to valley, until at every point inside the sheet mountains and valleys "
            "differ by 2.",
            to_switch(replace(SMALL, exchanged=True), 1, "Which one is to be a valley?"),
            "worked",
        ),
        Part(
            "Inside lines take turns: mountain, valley, mountain. Here all is switched but for one "
            "piece of a side and one inside line.",
            to_switch(replace(LARGE, exchanged=True), 2, "Two are mountains still. Mark them to be valleys."),
        ),
    ),
    _page(
        "What goes in",
        Part(
            "When the sheet collapses, the two shaded parts slide in, one on either side of the middle "
            "line. Nothing gathers at the centre. The inside lines sink with them.",
            drill_on(LARGE, "sinks", "mark", "equal few", "Mark every line that sinks."),
            "worked",
        ),
        Part(
            "Ridges, hinges and pleat lines may point straight at the outline. They stay outside with "
            "the pleats and do not sink.",
            drill_on(
                replace(SMALL, pleats=2, facing=3),
                "sinks",
                "mark",
                "equal few",
                "Mark every line that sinks.",
            ),
        ),
    ),
    _page(
        "Checking labels",
        Part(
            "Printed patterns have errors: count before you fold. One wrong label makes the counts "
            "wrong at both ends of its crease.",
            counted_for(
                drill_on(SMALL, "labels", "mark", "one", "Mark the wrong label.", drawn_by="lesson 1")
            ),
        ),
        Part(
            "Now count yourself, point by point: 3 and 1, or 4 and 2. In practice there may be nothing "
            "wrong; then press 0.",
            drill_on(
                replace(SMALL, facing=2),
                "labels",
                "mark",
                "one",
                "Mark the label that is wrong.",
                drawn_by="lesson 2",
            ),
        ),
    ),
    _page(
        "Among look-alikes",
        Part(
            "In a big pattern look for sides that run neither along the grid nor at 45 degrees. A "
            "45-degree roof has none, nor has a 45-degree stretch, which is a diamond. One is marked "
            "for you.",
            drill_on(
                Recipe("lesson/b", 14, 12, 3, needed=("stretch", "roof")),
                "find",
                "mark",
                "roof",
                "Mark every slanted stretch.",
            ),
            "half",
        ),
        Part(
            "The last one. Here too there may be nothing to mark; then press 0.",
            drill_on(
                Recipe("lesson/a", 14, 12, 2, needed=("roof", "diamond"), allowed=("roof", "diamond")),
                "find",
                "mark",
                "diamond",
                "Mark every slanted stretch.",
            ),
        ),
    ),
)
LESSON = LessonPlan("Lesson", _LESSON_PAGES, why=ON_A_PAGE, are_turned=True)

AFTER_LESSON = (
    "That was the lesson: outline, turning points, inside lines, labels, and where to look.",
    "",
    "Today's minutes ask the same things, mixed, on sheets that grow with you.",
    "For a sheet of your own, slantwise plan FILE tells the same order of work with its numbers.",
)
"""What is said at the end."""

_FIRST_PAGES = (
    _page(
        KINDS["steps"].title,
        Part(
            "Most creases run along the grid or at 45 degrees. The four slanted ones are the outline "
            "of a slanted stretch (Pythagorean stretch). Each goes from dot to dot in whole squares.",
            drill_on(SMALL, "steps", "read", "1:3", "Read the lit side.", drawn_by="walk"),
        ),
    ),
    _page(
        KINDS["sinks"].title,
        Part(
            "When the sheet folds, the two triangles inside the outline go in. The line between them "
            "sinks. Arrows go from point to point, < and > turn to a crease, Space marks it; or "
            "click it.",
            drill_on(SMALL, "sinks", "mark", "equal few", "Mark the inside line.", drawn_by="walk"),
        ),
    ),
    _page(
        KINDS["labels"].title,
        Part(
            "M is a mountain, V a valley. At every point inside the sheet their numbers differ by 2. "
            "One label is wrong, so the count is off at the ends of its crease.",
            drill_on(SMALL, "labels", "mark", "one", "Mark the wrong label.", drawn_by="walk 3"),
        ),
    ),
)
FIRST_MINUTES = LessonPlan("The first three minutes", _FIRST_PAGES, why=SHOWN_ONCE, are_turned=False)
"""Three small tasks on one smallest sheet, each shown how."""
