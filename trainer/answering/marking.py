"""Answering with marks: a cursor on the pattern, and what has been marked."""

from __future__ import annotations

from abc import ABC, abstractmethod

from drills.pattern.places import short_place
from drills.questions.drill import Answer, Drill, Marks
from trainer.answering.hand import Hand
from trainer.board.arrows import Arrow
from trainer.board.cursor import Cursor, Track
from trainer.board.scale import Scale


class MarkingHand(Hand, ABC):
    """A cursor on the pattern and the marks in the order they were made."""

    def __init__(self, drill: Drill, track: Track) -> None:
        super().__init__(drill)
        self.track = track
        self.cursor: Cursor = track.start()
        self.marks: list[int] = []
        self._toggled: list[int] = []
        self._clicked: tuple[Scale, int, int] | None = None

    def go(self, arrow: Arrow) -> None:
        """Go to the next point that way."""
        self.cursor = self.track.moved(self.cursor, arrow)

    def next_point(self, back: bool) -> None:
        """Go to the next or last point in reading order."""
        self.cursor = self.track.next_point(self.cursor, back)

    def mark(self) -> None:
        """Mark what is under the cursor, or take its mark away."""
        if (under := self.under_cursor()) is not None:
            self._toggle(under)

    def undo(self) -> None:
        """Take the last marking or unmarking back."""
        if self._toggled:
            self._flip(self._toggled.pop())

    def point_at(self, scale: Scale, x: float, y: float) -> None:
        """Mark what is nearest; clicked again on the spot, what is next nearest, at last nothing."""
        near = self.near(scale, x, y)
        again = self._clicked == (scale, int(x), int(y))
        self._clicked = (scale, int(x), int(y))
        last = self.under_cursor()
        if not near:
            return
        if again and last in near and last in self.marks:
            self._toggle(last)
            near = near[near.index(last) + 1 :]
        for item in near[:1]:
            self.put_on(item, scale, x, y)
            if not (again and item in self.marks):
                self.mark()

    def begin(self) -> str:
        """Mark half of what is to be marked, where that is more than one."""
        truth = self.drill.answer
        if not isinstance(truth, Marks) or len(truth.items) < 2:
            return ""
        self.marks = sorted(truth.items)[: len(truth.items) // 2]
        return f"{len(self.marks)} of {len(truth.items)} are marked for you; mark the rest."

    def answer(self) -> Answer | None:
        """Return the marks once there are any: that there is nothing to mark has a key of its own."""
        return Marks(frozenset(self.marks)) if self.marks else None

    def missing(self) -> str:
        """Return what to do."""
        return "Nothing is marked; press 0 if there is nothing to mark."

    @abstractmethod
    def under_cursor(self) -> int | None:
        """Return the crease or the vertex that Space would mark."""

    @abstractmethod
    def near(self, scale: Scale, x: float, y: float) -> tuple[int, ...]:
        """Return what may be meant by a click there, nearest first."""

    @abstractmethod
    def put_on(self, item: int, scale: Scale, x: float, y: float) -> None:
        """Put the cursor on a crease or a vertex."""

    def at_point(self, vertex: int) -> str:
        """Return a vertex's place in short, as in "3,1"."""
        return short_place(self.drill.pattern, self.drill.pattern.vertices[vertex])

    def _toggle(self, item: int) -> None:
        self._toggled.append(item)
        self._flip(item)

    def _flip(self, item: int) -> None:
        if item in self.marks:
            self.marks.remove(item)
        else:
            self.marks.append(item)
