"""Answering with marks on creases."""

from __future__ import annotations

from dataclasses import replace

from drills.questions.drill import Drill
from trainer.answering.marking import MarkingHand
from trainer.board.cursor import track_of
from trainer.board.hits import creases_near, points_near
from trainer.board.look import Look, Marked
from trainer.board.scale import Scale
from trainer.board.words import crease_in_words


class CreasesHand(MarkingHand):
    """Marks on creases; with labels or with inside lines asked for, the words leave out what is asked."""

    def __init__(self, drill: Drill) -> None:
        super().__init__(drill, track_of(drill.pattern))

    def turn(self, clockwise: bool) -> None:
        """Go to the next crease round the point."""
        self.cursor = self.track.turned(self.cursor, clockwise)

    def under_cursor(self) -> int | None:
        """Return the crease under the cursor."""
        return self.cursor.edge

    def near(self, scale: Scale, x: float, y: float) -> tuple[int, ...]:
        """Return the creases near a click."""
        return creases_near(self.drill.pattern, scale, x, y)

    def put_on(self, item: int, scale: Scale, x: float, y: float) -> None:
        """Put the cursor on a crease, at the end nearer to the click."""
        near = [v for v in points_near(self.drill.pattern, scale, x, y) if v in self.track.vertices]
        self.cursor = self.track.on(item, near[0] if near and near[0] in self._ends(item) else None)

    def look(self) -> Look:
        """Return the board with cursor and marks."""
        return replace(
            super().look(),
            cursor_edge=self.cursor.edge,
            cursor_at=self.drill.pattern.vertices[self.cursor.vertex],
            marked=Marked(edges=frozenset(self.marks)),
        )

    def says(self) -> tuple[str, ...]:
        """Return the point, the crease under the cursor, and how many are marked."""
        pattern, (vertex, edge, *_) = self.drill.pattern, self.cursor
        question = self.drill.question
        said = [f"You are at point {self.at_point(vertex)}."]
        if edge is not None:
            marked = " (marked)" if edge in self.marks else ""
            role, label = not question.role_asked, self.drill.shows_labels
            said.append(f"Lit: {crease_in_words(pattern, edge, vertex, role=role, label=label)}{marked}.")
        return *said, f"Marked: {len(self.marks)}"

    def _ends(self, edge: int) -> tuple[int, int]:
        return self.drill.pattern.edges[edge].start, self.drill.pattern.edges[edge].end
