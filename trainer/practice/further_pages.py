"""The pages of the lesson for the higher levels: the smallest angle, unequal sides, cuts, other triangles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drills.geometry import Direction
from drills.questions import COUNTING_UP_TO, Recipe
from drills.structures import TRIANGLES, Stretch
from trainer.practice.lesson import Page, Part
from trainer.practice.lesson_drills import COUNTS_REPEATS, LARGE, SMALL, drill_on, told_a_fault

BEYOND_COUNTING = COUNTING_UP_TO + 1
UNEQUAL = replace(LARGE, units=(2, 1))
CUT = replace(LARGE, crop=(3, 0, 0, 0))
WIDE = replace(LARGE, widths=(2, 2, 2))
OF_5_12_13 = Stretch((1, 1), ("steep", "shallow"), triangle=TRIANGLES[1], widths=(1, 1, 1))


def table_of_steps() -> Iterator[str]:
    """Yield a line for each triangle: the steps of sides and inside lines, and the pleats it needs."""
    yield "         sides   inside wide"
    for each in TRIANGLES:
        sides = f"{_step(each.shallow)} {_step(each.steep)}"
        yield f"{each.name:<9}{sides} {_step(each.inside):<6} {each.width}"


def _step(way: Direction) -> str:
    return f"{way.dx}-{way.dy}"


FURTHER_PAGES = (
    Page.of(
        "The smallest angle",
        Part(
            "Right counts are not enough: an angle smaller than both its neighbours needs one mountain "
            "and one valley.",
            told_a_fault(
                drill_on(
                    replace(SMALL, pleats=2),
                    "labels",
                    "mark",
                    "pair",
                    "Mark the two wrong labels.",
                    drawn_by="lesson 8",
                    level=BEYOND_COUNTING,
                )
            ),
        ),
        Part(
            "Counts alone would switch one crease here, the one between the two points that are off. The "
            "smallest angle says no: two are wrong, and they meet at its point.",
            drill_on(
                replace(LARGE, facing=2),
                "labels",
                "mark",
                "pair",
                "Mark the two wrong labels.",
                drawn_by="lesson 13",
                level=BEYOND_COUNTING,
            ),
        ),
    ),
    Page.of(
        "Unequal sides",
        Part(
            "Two sides make two steps here, two only one. Then no line joins the far corners: there is "
            "no middle line. From each far corner an inside line leads to a turning point; one "
            "is marked.",
            drill_on(UNEQUAL, "sinks", "mark", "unequal", "Mark every inside line."),
            "half",
        ),
        Part(
            "Pleat lines round equal sides close into rings; round unequal ones they spiral. When it "
            "folds flat, two triangles go in, with a strip between them.",
            drill_on(
                replace(UNEQUAL, units=(1, 2), pleats=2),
                "sinks",
                "join",
                "unequal",
                "To which point does the line from the dot lead?",
                "It is hidden.",
            ),
        ),
    ),
    Page.of(
        "Cut by the paper's edge",
        Part(
            "The paper's edge may cut a stretch. What is on the paper is asked, no more: a piece of an "
            "inside line counts, a point on the paper's edge is no turning point. One is "
            "marked.",
            drill_on(CUT, "sinks", "mark", "equal few", "Mark every inside line."),
            "half",
        ),
        Part(
            "What still tells a stretch: slanted sides, and inside lines that begin at them. Here two "
            "of its corners lie beyond the paper's edge.",
            drill_on(
                Recipe("lesson/59", 14, 12, 2, needed=("stretch", "roof"), is_cut=True),
                "find",
                "mark",
                "roof",
                "Mark every slanted stretch.",
            ),
        ),
    ),
    Page.of(
        "Other triangles, other pleats",
        Part(
            "Other right triangles give whole steps too. Wide: the narrowest pleats with all turning "
            "points on crossings.\n" + "\n".join(table_of_steps()),
            drill_on(
                OF_5_12_13,
                "steps",
                "read",
                "1:4",
                "The lit side.",
                drawn_by="lesson 1",
                level=COUNTS_REPEATS,
            ),
            "worked",
        ),
        Part(
            "Pleats may be wider than the triangle needs. Here they are 2 squares wide: half as many "
            "turn at each side, and of three inside lines one is left.",
            drill_on(WIDE, "sinks", "mark", "equal few", "Mark every inside line."),
        ),
        Part(
            "Pleats narrower than it needs leave turning points between crossings: here two lie on "
            "halves. Crease the outline, then dot them where it crosses a line of the grid.",
            drill_on(OF_5_12_13, "sinks", "points", "equal few", "Mark every turning point."),
        ),
    ),
)
