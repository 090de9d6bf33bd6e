"""Drills put together by hand on one known sheet, whatever the codes of today give.

The sheet is the 3-4-5 stretch with two pleats a side and one around, 10 x 8 squares: S (1, 1), A (7, 3),
T (9, 7), B (3, 5); turning points (4, 2), (8, 5), (6, 6), (2, 3); three inside lines 4 across 3 up.
"""

from __future__ import annotations

from collections.abc import Iterable

from drills.geometry import Point, Step
from drills.pattern import CreasePattern, Paper, Role, build
from drills.questions import (
    AnyQuestion,
    Code,
    Drill,
    FindStretches,
    JoinPoints,
    MarkInsideLines,
    Marks,
    MarkTurningPoints,
    MarkWrongLabels,
    PlaceStep,
    ReadStep,
    Segment,
    Spec,
    Verdict,
)
from drills.structures import Stretch, draw

STRETCH = Stretch((2, 2))
SHEET = draw(STRETCH)
TURNING_POINTS = ((4, 2), (8, 5), (6, 6), (2, 3))


def vertex(x: int, y: int) -> int:
    """Return the vertex of the sheet at a place, y up."""
    return SHEET.vertices.index(Point(x, y))


def edge(*ends: tuple[int, int]) -> int:
    """Return the edge of the sheet between two places."""
    wanted = {vertex(*end) for end in ends}
    return next(index for index, each in enumerate(SHEET.edges) if {each.start, each.end} == wanted)


SIDE, MIDDLE, PLEAT = edge((1, 1), (4, 2)), edge((1, 1), (9, 7)), edge((4, 2), (7, 2))
ALL_WELL = (
    "At every point mountains and valleys differ by 2, an angle smaller than both its neighbours lies "
    "between one of each, and the layers do not cross."
)


def of_role(role: Role) -> frozenset[int]:
    """Return the edges of a role."""
    return frozenset(index for index, each in enumerate(SHEET.edges) if each.role == role)


def read_side(counts_repeats: bool = True, back: bool = False) -> Drill:
    """Return the drill that asks for the step of the shallow side: from S to A 3 across 1 up, twice."""
    places = [(7, 3), (4, 2), (1, 1)] if back else [(1, 1), (4, 2), (7, 3)]
    edges = edge(*places[:2]), edge(*places[1:])
    lit = Segment(vertex(*places[0]), vertex(*places[2]), edges)
    step = Step(-3, 1, 2) if back else Step(3, -1, 2)
    return _drill("steps", "read", SHEET.unlabelled(), ReadStep.of(lit, step, counts_repeats))


def place_side() -> Drill:
    """Return the drill that asks where 3 across 1 up, twice, ends from S."""
    question = PlaceStep.of(Point(1, 1), Step(3, -1, 2))
    return _drill("steps", "place", build((), Paper(*SHEET.box)), question)


def mark_inside() -> Drill:
    """Return the drill that asks for the three inside lines."""
    return _drill("sinks", "mark", SHEET.unlabelled(), MarkInsideLines.of(of_role("inside")))


def mark_points() -> Drill:
    """Return the drill that asks for the four turning points."""
    points = frozenset(vertex(*point) for point in TURNING_POINTS)
    return _drill("sinks", "points", SHEET.unlabelled(), MarkTurningPoints.of(points))


def join_points() -> Drill:
    """Return the drill that asks where the line from (4, 2) leads: to (8, 5)."""
    question = JoinPoints.of(vertex(4, 2), vertex(8, 5), of_role("inside"))
    return _drill("sinks", "join", SHEET.unlabelled(), question)


def wrong_labels(wrong: Iterable[int]) -> Drill:
    """Return the drill in which these labels are switched."""
    chosen = frozenset(wrong)
    return _drill("labels", "mark", SHEET.switched(chosen), MarkWrongLabels.of(chosen, level=3))


def find_stretch() -> Drill:
    """Return the drill that asks where the one slanted stretch is."""
    return _drill("find", "mark", SHEET.unlabelled(), FindStretches.of((of_role("outline"),)))


def _drill(kind: str, form: str, shown: CreasePattern, question: AnyQuestion) -> Drill:
    spec = Spec.of(Code(kind, 3, 1), form, f"{kind} of the tests", STRETCH, "")
    return Drill(spec, STRETCH, shown, SHEET, question)


def judged(drill: Drill, marked: list[int]) -> Verdict:
    """Return the verdict on labels marked as wrong."""
    return drill.judge(Marks(frozenset(marked)))
