"""Answering with a place: the crossing of the bare grid where a step ends."""

from __future__ import annotations

from drills.exact.plane import Direction, Point, moved
from drills.pattern.places import short_place
from drills.questions.drill import Answer, Drill
from trainer.answering.hand import Hand
from trainer.board.arrows import Arrow
from trainer.board.look import Look
from trainer.board.scale import Scale

WAYS: dict[Arrow, Direction] = {
    "left": Direction(-1, 0),
    "right": Direction(1, 0),
    "up": Direction(0, 1),
    "down": Direction(0, -1),
}


class PlacingHand(Hand):
    """A cursor that goes square by square, begun at the start of the step."""

    def __init__(self, drill: Drill) -> None:
        super().__init__(drill)
        self.start = drill.question.start or Point(0, 0)
        self.at = self.start

    def go(self, arrow: Arrow) -> None:
        """Go one square; at the paper's edge it stays."""
        left, bottom, right, top = self.drill.pattern.box
        there = moved(self.at, WAYS[arrow])
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
        step = self.drill.question.step
        if step is None:
            return ""
        self.at = moved(self.start, Direction(step.across, 0), step.times)
        return "The squares across are counted for you; go on up or down."

    def answer(self) -> Answer | None:
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
        return (f"The dot is the start, at {short_place(self.drill.pattern, self.start)}.",)
