"""Answering on the bare grid, with a cursor that goes from crossing to crossing."""

from __future__ import annotations

from dataclasses import replace

from drills.geometry import Direction, Point, moved
from drills.pattern import place
from drills.questions import Drill, FindStretches, MarkedPlaces, PlaceStep
from drills.structures import middle_of
from trainer.answering.answer_input import AnswerInput
from trainer.board import DOTS_ACROSS, DOTS_DOWN, Arrow, Dot, Look, Marked, Scale

ARROW_MOVES: dict[Arrow, Direction] = {
    "left": Direction(-1, 0),
    "right": Direction(1, 0),
    "up": Direction(0, 1),
    "down": Direction(0, -1),
}


class PlacingInput(AnswerInput[PlaceStep]):
    """A cursor that goes square by square, begun at the start of the step."""

    def __init__(self, drill: Drill, question: PlaceStep) -> None:
        super().__init__(drill, question)
        self.start = self.at = question.start

    def go(self, arrow: Arrow) -> None:
        """Go one square; at the paper's edge it stays."""
        left, bottom, right, top = self.drill.pattern.box
        there = moved(self.at, ARROW_MOVES[arrow])
        if left <= there.x <= right and bottom <= there.y <= top:
            self.at = there

    def undo(self) -> None:
        """Go back to the start."""
        self.at = self.start

    def point_at(self, scale: Scale, x: float, y: float) -> None:
        """Put the cursor on the nearest crossing."""
        self.at = scale.crossing_near(x, y)

    def begin(self) -> str:
        """Go the way across."""
        step = self.question.step
        self.at = moved(self.start, Direction(step.across, 0), step.times)
        return "The squares across are counted for you; go on up or down."

    def answer(self) -> Point | None:
        """Return the crossing under the cursor, once it has left the start."""
        return None if self.at == self.start else self.at

    def missing(self) -> str:
        """Return what to do."""
        return "Move the cursor to where the step ends first."

    def look(self) -> Look:
        """Return the bare grid with the start and the cursor."""
        return Look(bare=True, points=frozenset({self.start}), cursor_at=self.at)

    def says(self) -> tuple[str, ...]:
        """Return where the start is; the cursor's place would be counting for the person."""
        return (f"The dot is the start, at {place(self.drill.pattern, self.start)}.",)


STRIDE = 4
"""Squares from one stop of Tab to the next, in rows as far apart."""


class FindingInput(AnswerInput[FindStretches]):
    """A cursor that goes over the bare grid, so that nothing is given away by where it stops."""

    actions = frozenset({"mark", "nothing"})

    def __init__(self, drill: Drill, question: FindStretches) -> None:
        super().__init__(drill, question)
        left, bottom, _, top = drill.pattern.box
        self.at = Point(left, (bottom + top) // 2)  # in the middle many a stretch lies under the cursor
        self.marks: list[Point] = []
        self._toggled: list[Point] = []

    def go(self, arrow: Arrow) -> None:
        """Go one square; at the paper's edge it stays."""
        left, bottom, right, top = self.drill.pattern.box
        there = moved(self.at, ARROW_MOVES[arrow])
        if left <= there.x <= right and bottom <= there.y <= top:
            self.at = there

    def next_point(self, back: bool) -> None:
        """Go to the next or last stop: every fourth crossing of every fourth row, from the top left."""
        stops = self._stops()
        place = stops.index(self.at) if self.at in stops else -1 + back
        self.at = stops[(place + (-1 if back else 1)) % len(stops)]

    def mark(self) -> None:
        """Mark the crossing, or take its mark away."""
        self._toggle(self.at)

    def undo(self) -> None:
        """Take the last marking or unmarking back."""
        if self._toggled:
            self._flip(self._toggled.pop())

    def point_at(self, scale: Scale, x: float, y: float) -> None:
        """Mark the crossing in the cell that is clicked, or else the very place; or take such a mark away."""
        self.at = scale.crossing_near(x, y)
        place = scale.point(Dot(int(x * DOTS_ACROSS), int(y * DOTS_DOWN)))
        if scale.cell(self.at) == scale.cell(place):
            place = self.at
        near = [mark for mark in self.marks if scale.cell(mark) == scale.cell(place)]
        self._toggle(near[0] if near else self._within(place))

    def begin(self) -> str:
        """Mark the first of several stretches."""
        truth = self.question.answer
        if len(truth.edges) < 2:
            return ""
        self.marks = [middle_of(self.drill.pattern, truth.edges[0])]
        return f"1 of {len(truth.edges)} is marked for you; mark the rest."

    def answer(self) -> MarkedPlaces | None:
        """Return the marks once there are any: that there is nothing to mark has a key of its own."""
        return MarkedPlaces(frozenset(self.marks)) if self.marks else None

    def nothing(self) -> MarkedPlaces:
        """Return the answer that there is no slanted stretch."""
        return MarkedPlaces(frozenset())

    def missing(self) -> str:
        """Return what to do."""
        return "Nothing is marked; press 0 if there is nothing to mark."

    def look(self) -> Look:
        """Return the board with cursor and marks."""
        marked = Marked(points=frozenset(self.marks))
        return replace(super().look(), scanned=True, cursor_at=self.at, marked=marked)

    def says(self) -> tuple[str, ...]:
        """Return where the cursor is, and how many places are marked."""
        marked = " (marked)" if self.at in self.marks else ""
        return f"At {place(self.drill.pattern, self.at)}{marked}.", f"Marked: {len(self.marks)}"

    def _stops(self) -> list[Point]:
        left, bottom, right, top = (int(value) for value in self.drill.pattern.box)
        first = STRIDE // 2
        rows = range(top - first, bottom, -STRIDE)
        return [Point(x, y) for y in rows for x in range(left + first, right, STRIDE)]

    def _within(self, place: Point) -> Point:
        """Return a place, or the nearest one on the paper."""
        left, bottom, right, top = self.drill.pattern.box
        return Point(min(max(place.x, left), right), min(max(place.y, bottom), top))

    def _toggle(self, place: Point) -> None:
        self._toggled.append(place)
        self._flip(place)

    def _flip(self, place: Point) -> None:
        if place in self.marks:
            self.marks.remove(place)
        else:
            self.marks.append(place)
