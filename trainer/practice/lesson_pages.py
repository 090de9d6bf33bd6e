"""The pages of the lesson up to level 3, and the lesson with those beyond: what each tells, its drills."""

from __future__ import annotations

from dataclasses import replace

from drills.questions import MAY_BE_NONE, Recipe
from trainer.practice.further_pages import FURTHER_PAGES
from trainer.practice.lesson import LessonPlan, Page, Part
from trainer.practice.lesson_drills import (
    COUNTS_REPEATS,
    LARGE,
    SMALL,
    SMALL_BASE,
    drill_on,
    to_switch,
    told_a_fault,
)
from trainer.practice.words import ON_A_PAGE

_FIRST_PAGES = (
    Page.of(
        "What a stretch is",
        Part(
            "Part of a base: flap tips where cells meet, and in one cell a slanted stretch (in full: "
            "Pythagorean stretch). Four ridges end at it.",
            drill_on(SMALL_BASE, "find", "mark", "roof", "Find the slanted stretch."),
            "worked",
        ),
        Part(
            "Why is it there? It saves paper: it joins two flap tips 8 across and 10 down, and they stand "
            "12 apart when folded. 45-degree ridges would leave 10.",
            drill_on(
                replace(SMALL_BASE, facing=1),
                "find",
                "mark",
                "roof",
                "Put a mark inside the slanted stretch.",
                "Arrows move, Space marks.",
            ),
        ),
    ),
    Page.of(
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
    Page.of(
        "Reading a side",
        Part(
            "A longer side repeats its step: go along it to the first crossing of the grid that it meets, "
            "then count how often. The squares across are counted for you.",
            drill_on(
                LARGE, "steps", "read", "1:3", "Read the lit side.", drawn_by="lesson 1", level=COUNTS_REPEATS
            ),
            "half",
        ),
        Part(
            "A side may run down, or to the left: go from the dot towards the arrow. Give the smallest "
            "step: 2 across 6 down is 1 across 3 down, twice.",
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
    Page.of(
        "Placing a step",
        Part(
            "On bare paper there is only the grid. Start at a dot, count across, then up or down: "
            "there is the next dot. The cursor has gone across for you.",
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
    Page.of(
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
    Page.of(
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
            "Here each side makes two steps, so one inside line joins the two far corners: the "
            "middle line. If you score the lines, score away from the hand that holds the paper.",
            drill_on(replace(LARGE, facing=2), "sinks", "mark", "equal few", "Mark every inside line."),
        ),
    ),
    Page.of(
        "Mountain first",
        Part(
            "Crease sides and inside lines as mountains: the paper need not be turned over. Then switch "
            "some to valleys (the mountain-valley assignment): at each point inside the sheet their "
            "numbers differ by 2.",
            to_switch(replace(SMALL, exchanged=True), 1, "Which one is to be a valley?"),
            "worked",
        ),
        Part(
            "A crease not yet switched puts both its ends out of balance; at the paper's edge only one "
            "end counts. Find two neighbouring points that are off and switch the crease between them.",
            to_switch(replace(LARGE, exchanged=True), 2, "Two are mountains still.", "Mark them."),
        ),
    ),
    Page.of(
        "What goes in",
        Part(
            "When the sheet folds flat, the two shaded parts, hatched and dotted, go in, one on either "
            "side of the middle line; f shows it. Folders say that a point sinks; the inside lines go in "
            "with the sink.",
            drill_on(LARGE, "sinks", "mark", "equal few", "Mark every line that goes in."),
            "worked",
        ),
        Part(
            "Ridges, hinges and pleat lines may point straight at the outline. They stay outside with "
            "the pleats.",
            drill_on(
                replace(SMALL, pleats=2, facing=3),
                "sinks",
                "mark",
                "equal few",
                "Mark every line that goes in.",
            ),
        ),
    ),
    Page.of(
        "Checking labels",
        Part(
            "Printed patterns have errors: count before you fold. One wrong label puts the counts off "
            "at both ends of its crease, or at its one end inside the sheet.",
            told_a_fault(
                drill_on(SMALL, "labels", "mark", "one", "Mark the wrong label.", drawn_by="lesson 1")
            ),
        ),
        Part(
            "Count at each point: 3 and 1, or 4 and 2, is right. Where two neighbouring points are off, "
            "the crease between them is wrong. In practice there may be nothing wrong; then press 0.",
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
    Page.of(
        "Among look-alikes",
        Part(
            "In a big pattern look for sides that run neither along the grid nor at 45 degrees. A "
            "45-degree roof (sawhorse) has none, nor has a 45-degree stretch (Elias stretch). One is "
            "marked for you.",
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
            "Where there is nothing to mark, press 0. The pages after this one are for the higher levels.",
            drill_on(
                Recipe("lesson/a", 14, 12, 2, needed=("roof", "diamond"), allowed=("roof", "diamond")),
                "find",
                "mark",
                "diamond",
                "Mark every slanted stretch.",
                MAY_BE_NONE,
            ),
        ),
    ),
)
LESSON = LessonPlan("Lesson", (*_FIRST_PAGES, *FURTHER_PAGES), why=ON_A_PAGE, are_turned=True)

AFTER_LESSON = (
    "That was the lesson: outline, turning points, inside lines, labels, and what the higher levels add.",
    "",
    "Today's minutes ask the same things, mixed, on sheets that grow with you.",
    "For a sheet of your own, slantwise plan FILE tells the same order of work with its numbers.",
)
"""What is said at the end."""
