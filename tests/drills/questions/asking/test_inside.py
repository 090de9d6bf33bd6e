"""What is said to marked inside lines and turning points, and to where a hidden line leads."""

from __future__ import annotations

import pytest

from drills.geometry import Point
from drills.pattern import Role
from drills.questions import Drill, Marks, Verdict, make, read_code
from drills.questions.asking.inside import _line_in_words
from tests.drills.questions.codes import drills
from tests.drills.questions.known import (
    SHEET,
    TURNING_POINTS,
    edge,
    join_points,
    mark_inside,
    mark_points,
    of_role,
    read_side,
    vertex,
)

MIDDLE, LOWER, UPPER = edge((1, 1), (9, 7)), edge((4, 2), (8, 5)), edge((2, 3), (6, 6))
SIDE, PLEAT = edge((1, 1), (4, 2)), edge((4, 2), (7, 2))
INSIDE_WHY = "Inside lines run within the outline and go in with the sink; all other creases stay out."
GOES_IN = "Inside lines run within the outline and go in with the sink."
A_SIDE = "You marked an outline side; inside lines run between the sides."


@pytest.mark.parametrize(
    ("marked", "right", "misses", "false_alarms", "answered", "why"),
    [
        ([MIDDLE, LOWER, UPPER], True, 0, 0, "You marked 3 creases: 3 right.", INSIDE_WHY),
        ([MIDDLE, LOWER], False, 1, 0, "You marked 2 creases: 2 right. You missed 1.", INSIDE_WHY),
        ([MIDDLE, LOWER, UPPER, SIDE], False, 0, 1, "You marked 4 creases: 3 right, 1 too many.", A_SIDE),
        (
            [MIDDLE, SIDE, PLEAT],
            False,
            2,
            2,
            "You marked 3 creases: 1 right, 2 too many. You missed 2.",
            f"{GOES_IN} You marked a pleat line; it stays outside. {A_SIDE}",
        ),
        (
            [SIDE],
            False,
            3,
            1,
            "You marked 1 crease: 0 right, 1 too many. You missed 3.",
            f"{GOES_IN} {A_SIDE}",
        ),
        ([], False, 3, 0, "You marked no crease.", INSIDE_WHY),
    ],
)
def test_misses_and_false_alarms_are_kept_apart(
    marked: list[int], right: bool, misses: int, false_alarms: int, answered: str, why: str
) -> None:
    """Counted, said and lit for themselves; the middle line belongs to the inside lines."""
    verdict = marks(mark_inside(), marked)
    assert (verdict.right, verdict.misses, verdict.false_alarms) == (right, misses, false_alarms)
    assert (verdict.answered, verdict.truth, verdict.why) == (
        answered,
        "There are 3 inside lines.",
        why,
    )
    assert verdict.lit.right == set(marked) & {MIDDLE, LOWER, UPPER}
    assert verdict.lit.missed == {MIDDLE, LOWER, UPPER} - set(marked)
    assert verdict.lit.extra == set(marked) & {SIDE, PLEAT}
    assert verdict.slip == ""


def marks(drill: Drill, items: list[int]) -> Verdict:
    """Return the verdict on what was marked."""
    return drill.judge(Marks(frozenset(items)))


def test_the_two_parts_that_go_in_are_shaded() -> None:
    """For two pleats a side each part has four corners' worth of faces on its side of the middle line."""
    parts = marks(mark_inside(), []).lit.going_in
    faces = [face for part in parts for face in part]
    assert len(parts) == 2
    drill = mark_inside()
    corners = {drill.truth.vertices[v] for face in faces for v in face}
    assert {(1, 1), (7, 3), (9, 7), (3, 5)} <= corners
    assert len(set(faces)) == len(faces) == 4
    slanted = of_role("outline") | of_role("inside")
    ends = {v for index in slanted for v in drill.truth.edges[index][:2]}
    assert {v for face in faces for v in face} <= ends


def test_turning_points_are_marked_one_by_one() -> None:
    """Corners are none; what was right, missed and too much is lit as points."""
    given = [vertex(4, 2), vertex(8, 5), vertex(1, 1)]
    verdict = marks(mark_points(), given)
    assert verdict.answered == "You marked 3 points: 2 right, 1 too many. You missed 2."
    assert verdict.truth == "There are 4 turning points."
    assert verdict.why == (
        "At a turning point an inside line meets a pleat line. You marked a corner; corners are no "
        "turning points."
    )
    assert verdict.lit.right_points == {(4, 2), (8, 5)}
    assert verdict.lit.missed_points == {(6, 6), (2, 3)}
    assert verdict.lit.extra_points == {(1, 1)}
    assert marks(mark_points(), [vertex(*place) for place in TURNING_POINTS]).right


def test_where_a_hidden_line_leads() -> None:
    """The end and the step are told; places count across and down from the top left corner."""
    right, wrong = marks(join_points(), [vertex(8, 5)]), marks(join_points(), [vertex(6, 6)])
    assert (right.right, right.misses, right.false_alarms) == (True, 0, 0)
    assert (wrong.right, wrong.misses, wrong.false_alarms) == (False, 1, 1)
    assert right.answered == "You chose point (8; 3)."
    assert wrong.answered == "You chose point (6; 2)."
    assert right.truth == wrong.truth == "It leads to point (8; 3)."
    assert right.why == "All inside lines of a stretch run parallel; this one goes 4 across 3 up, once."
    # from (4; 6) it is 2 across and 4 up to the point chosen
    assert wrong.why == f"{right.why} To the point you chose it would be 1 across 2 up, twice."
    assert wrong.lit.missed_points == {(8, 5)}
    assert wrong.lit.extra_points == {(6, 6)}
    assert marks(join_points(), []).answered == "You marked no point."


def test_a_sheet_without_inside_lines() -> None:
    """Marking none is right; a mark is a false alarm, and the sentence says what is on the sheet."""
    drill = next(filter(shows_a_tip, (make(read_code(f"sinks-4-{seed}.2")) for seed in range(100))))
    right, wrong = marks(drill, []), marks(drill, [drill.truth.creases[0]])
    assert (right.right, right.misses, right.false_alarms) == (True, 0, 0)
    assert (wrong.right, wrong.misses, wrong.false_alarms) == (False, 0, 1)
    assert right.truth == "There is no inside line on this sheet."
    assert right.why == "Only a tip of the outline is on this sheet, and no crease runs inside it."
    assert wrong.answered == "You marked 1 crease: 0 right, 1 too many."
    assert drill.question.marks == 1


def shows_a_tip(drill: Drill) -> bool:
    """Whether there is an outline on the sheet, and no inside line."""
    return drill.question.answer == Marks(frozenset()) and any(
        edge.role == "outline" for edge in drill.truth.edges
    )


def test_a_sheet_without_an_outline() -> None:
    """Where 45-degree roofs stand alone, it is said that nothing is slanted."""
    drill = next(
        made
        for made in drills("sinks", "mark", 4, range(200))
        if made.question.answer == Marks(frozenset()) and not shows_a_tip(made)
    )
    verdict = marks(drill, [])
    assert verdict.right
    assert verdict.why == "No outline is on this sheet: every crease runs along the grid or at 45 degrees."
    assert verdict.lit.going_in == ()


def test_an_unlabelled_sheet_is_not_judged_by_its_labels() -> None:
    """A question that shows no labels is one of marks."""
    assert not mark_inside().shows_labels
    assert not read_side().shows_labels


ROLE_WORDS = {"hinge": "a hinge", "ridge": "a ridge", "pleat": "a pleat line"}


@pytest.mark.parametrize("role", ROLE_WORDS)
def test_a_false_mark_is_told_what_it_is(role: Role) -> None:
    """By its role on the sheet."""
    (crease, *_) = sorted(of_role(role))
    verdict = marks(mark_inside(), [MIDDLE, LOWER, UPPER, crease])
    assert verdict.why == f"You marked {ROLE_WORDS[role]}; it stays outside."


def test_several_false_marks_are_told_together() -> None:
    """So many of each role."""
    hinges, ridges = sorted(of_role("hinge"))[:2], sorted(of_role("ridge"))[:1]
    verdict = marks(mark_inside(), [MIDDLE, LOWER, UPPER, *hinges, *ridges])
    assert verdict.why == "You marked a ridge and 2 hinges; they stay outside."


def test_points_that_turn_nothing_are_told_apart() -> None:
    """A corner, and a point off the outline."""
    points = [vertex(*point) for point in TURNING_POINTS]
    off = next(v for v, at in enumerate(SHEET.vertices) if at == (0, 0))
    assert marks(mark_points(), [*points, off]).why == "You marked a point off the outline."
    verdict = marks(mark_points(), [*points, vertex(1, 1), vertex(9, 7)])
    assert verdict.why == "You marked 2 corners; corners are no turning points."


def test_a_line_along_the_grid_is_told_by_its_one_number() -> None:
    """It has no step to be repeated."""
    told = [_line_in_words(Point(1, 1), end) for end in (Point(6, 1), Point(1, 3), Point(1, 0), Point(4, 2))]
    assert told == ["5 across", "2 up", "1 down", "3 across 1 up, once"]
