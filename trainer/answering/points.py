"""Answering with points: marks on them, or the one that an inside line leads to."""

from __future__ import annotations

from dataclasses import replace

from drills.questions.drill import Answer, Drill, Marks
from trainer.answering.marking import MarkingHand
from trainer.board.cursor import track_of
from trainer.board.hits import points_near
from trainer.board.look import Look, Marked, points_at
from trainer.board.scale import Scale


class PointsHand(MarkingHand):
    """Marks on points."""

    def __init__(self, drill: Drill) -> None:
        super().__init__(drill, track_of(drill.pattern, hidden=drill.question.hidden))

    def under_cursor(self) -> int | None:
        """Return the vertex under the cursor."""
        return self.cursor.vertex

    def near(self, scale: Scale, x: float, y: float) -> tuple[int, ...]:
        """Return the points near a click."""
        return tuple(v for v in points_near(self.drill.pattern, scale, x, y) if v in self.track.vertices)

    def put_on(self, item: int, scale: Scale, x: float, y: float) -> None:
        """Put the cursor on a point."""
        self.cursor = self.track.at(item)

    def look(self) -> Look:
        """Return the board with cursor and marks."""
        pattern = self.drill.pattern
        return replace(
            super().look(),
            cursor_at=pattern.vertices[self.cursor.vertex],
            marked=Marked(points=points_at(pattern, self.marks)),
        )

    def says(self) -> tuple[str, ...]:
        """Return the point under the cursor, and how many are marked."""
        marked = " (marked)" if self.cursor.vertex in self.marks else ""
        return (
            f"At point {self.at_point(self.cursor.vertex)}{marked}.",
            f"Marked: {len(self.marks)}",
        )


class JoiningHand(PointsHand):
    """One point to be chosen: the one under the cursor. It begins at the lit point."""

    def __init__(self, drill: Drill) -> None:
        super().__init__(drill)
        self.start = drill.question.start_vertex or 0
        self.cursor = self.track.at(self.start)

    def mark(self) -> None:
        """Nothing is marked: the cursor is the answer."""

    def undo(self) -> None:
        """Go back to the lit point."""
        self.cursor = self.track.at(self.start)

    def point_at(self, scale: Scale, x: float, y: float) -> None:
        """Put the cursor on the nearest point."""
        if near := self.near(scale, x, y):
            self.put_on(near[0], scale, x, y)

    def answer(self) -> Answer | None:
        """Return the point under the cursor, once it has left the lit one."""
        return None if self.cursor.vertex == self.start else Marks(frozenset({self.cursor.vertex}))

    def missing(self) -> str:
        """Return what to do."""
        return "Move the cursor to the point at the other end first."

    def look(self) -> Look:
        """Return the board with the lit point and the cursor, the inside lines hidden."""
        return replace(super().look(), points=points_at(self.drill.pattern, [self.start]))

    def says(self) -> tuple[str, ...]:
        """Return the lit point and the one under the cursor."""
        return (
            f"The lit point is {self.at_point(self.start)}.",
            f"The cursor is at {self.at_point(self.cursor.vertex)}.",
        )
