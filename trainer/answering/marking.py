"""Answering with marks: a cursor on the pattern, and what has been marked."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import replace
from typing import TypeVar

from drills.pattern import place_of
from drills.questions import (
    Drill,
    JoinPoints,
    MarkInsideLines,
    MarkQuestion,
    Marks,
    MarkTurningPoints,
    MarkWrongLabels,
)
from trainer.answering.letters import BY_LETTERS, LetteredInput, Places
from trainer.board import (
    Arrow,
    Cursor,
    Letter,
    Look,
    Marked,
    Scale,
    Track,
    crease_in_words,
    creases_near,
    halfway,
    in_view,
    points_at,
    points_near,
    track_of,
)

Asked = TypeVar("Asked", bound=MarkQuestion)


class MarkingInput(LetteredInput[Asked, int], ABC):
    """A cursor on the pattern and the marks in the order they were made."""

    actions = BY_LETTERS | {"mark", "nothing"}

    def __init__(self, drill: Drill, question: Asked, track: Track) -> None:
        super().__init__(drill, question)
        self.track = track
        lit = sorted(question.lit_points)
        self.cursor: Cursor = track.at(lit[0]) if lit else track.start()
        self._toggled: list[int] = []
        self._clicked: tuple[Scale, int, int] | None = None

    def go(self, arrow: Arrow) -> None:
        """Go to the next point that way."""
        self.cursor = self.track.moved(self.cursor, arrow)

    def far(self, arrow: Arrow) -> None:
        """Go to a point about five squares that way."""
        self.cursor = self.track.far(self.cursor, arrow)

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
        truth = self.question.answer
        if len(truth.items) < 2:
            return ""
        self.marks = sorted(truth.items)[: len(truth.items) // 2]
        self.begun = frozenset(self.marks)
        return f"{len(self.marks)} of {len(truth.items)} are marked for you; mark the rest."

    def answer(self) -> Marks | None:
        """Return the marks once there are own ones: that there is nothing to mark has a key of its own."""
        return Marks(frozenset(self.marks)) if self.marks and self.has_own else None

    def answered_besides(self, given: object) -> str:
        """Return what was marked besides what was marked for the person."""
        if not self.begun or not isinstance(given, Marks):
            return ""
        own, left = Marks(given.items - self.begun), Marks(self.question.answer.items - self.begun)
        return f"{self.begun_in_words()} {own.counted_against(left, self.question.marked)}"

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
        """Return a vertex's place as it is written."""
        return place_of(self.drill.pattern, vertex)

    def _toggle(self, item: int) -> None:
        self._toggled.append(item)
        self._flip(item)

    def _flip(self, item: int) -> None:
        if item in self.marks:
            self.marks.remove(item)
        else:
            self.marks.append(item)


class CreasesInput(MarkingInput[MarkInsideLines | MarkWrongLabels]):
    """Marks on creases; with labels or with inside lines asked for, the words leave out what is asked."""

    actions = BY_LETTERS | {"turn_left", "turn_right", "mark", "nothing"}

    def __init__(self, drill: Drill, question: MarkInsideLines | MarkWrongLabels) -> None:
        super().__init__(drill, question, track_of(drill.pattern))

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

    def places(self, scale: Scale) -> Places[int]:
        """Return the creases in view, by their middles or by an end in view."""
        pattern = self.drill.pattern
        creases = (edge for edge in pattern.creases if edge not in self.question.hidden)
        seen = {edge: pattern.ends(edge) for edge in creases if in_view(scale, pattern.ends(edge))}
        return {
            edge: next(filter(scale.shows, (halfway(*ends), *ends)), ends[0]) for edge, ends in seen.items()
        }

    def take(self, item: int) -> None:
        """Put the cursor on a crease and mark it, or take its mark away."""
        self.cursor = self.track.on(item)
        self.mark()

    def look(self) -> Look:
        """Return the board with cursor, marks and letters."""
        return replace(
            super().look(),
            cursor_edge=self.cursor.edge,
            cursor_at=self.drill.pattern.vertices[self.cursor.vertex],
            marked=Marked(edges=frozenset(self.marks)),
            letters=self.signs(),
        )

    def says(self) -> tuple[str, ...]:
        """Return the point, the crease under the cursor, and how many are marked."""
        pattern, (vertex, edge, *_) = self.drill.pattern, self.cursor
        said = [f"You are at point {self.at_point(vertex)}."]
        if edge is not None:
            marked = " (marked)" if edge in self.marks else ""
            role, label = not self.question.asks_for_roles, self.drill.shows_labels
            said.append(f"Lit: {crease_in_words(pattern, edge, vertex, role=role, label=label)}{marked}.")
        return *self.says_of_letters("crease"), *said, self.says_of_marks()

    def _ends(self, edge: int) -> tuple[int, int]:
        return self.drill.pattern.edges[edge].start, self.drill.pattern.edges[edge].end


class PointsInput(MarkingInput[MarkTurningPoints | JoinPoints]):
    """Marks on points."""

    def __init__(self, drill: Drill, question: MarkTurningPoints | JoinPoints) -> None:
        super().__init__(drill, question, track_of(drill.pattern, hidden=question.hidden))

    def under_cursor(self) -> int | None:
        """Return the vertex under the cursor."""
        return self.cursor.vertex

    def near(self, scale: Scale, x: float, y: float) -> tuple[int, ...]:
        """Return the points near a click."""
        return tuple(v for v in points_near(self.drill.pattern, scale, x, y) if v in self.track.vertices)

    def put_on(self, item: int, scale: Scale, x: float, y: float) -> None:
        """Put the cursor on a point."""
        self.cursor = self.track.at(item)

    def places(self, scale: Scale) -> Places[int]:
        """Return the points in view; those on the paper's edge turn nothing and are left out."""
        left, bottom, right, top = self.drill.pattern.box
        places = ((vertex, self.drill.pattern.vertices[vertex]) for vertex in self.track.vertices)
        return {
            vertex: at
            for vertex, at in places
            if scale.shows(at) and left < at.x < right and bottom < at.y < top
        }

    def take(self, item: int) -> None:
        """Put the cursor on a point and mark it, or take its mark away."""
        self.cursor = self.track.at(item)
        self.mark()

    def look(self) -> Look:
        """Return the board with cursor, marks and letters."""
        pattern = self.drill.pattern
        return replace(
            super().look(),
            cursor_at=pattern.vertices[self.cursor.vertex],
            marked=Marked(points=points_at(pattern, self.marks)),
            letters=tuple(Letter(pattern.vertices[of], sign) for of, sign in self.signs()),
        )

    def says(self) -> tuple[str, ...]:
        """Return the point under the cursor, and how many are marked."""
        marked = " (marked)" if self.cursor.vertex in self.marks else ""
        return (
            *self.says_of_letters("point"),
            f"At point {self.at_point(self.cursor.vertex)}{marked}.",
            self.says_of_marks(),
        )


class JoiningInput(PointsInput):
    """One point to be chosen: the one under the cursor. It begins at the lit point."""

    actions = BY_LETTERS

    def __init__(self, drill: Drill, question: JoinPoints) -> None:
        super().__init__(drill, question)
        self.start = question.start
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

    def answer(self) -> Marks | None:
        """Return the point under the cursor, once it has left the lit one."""
        return None if self.cursor.vertex == self.start else Marks(frozenset({self.cursor.vertex}))

    def missing(self) -> str:
        """Return what to do."""
        return "Move the cursor to the point at the other end first."

    def says(self) -> tuple[str, ...]:
        """Return the lit point and the one under the cursor."""
        return (
            *self.says_of_letters("point", "go there"),
            f"The lit point is {self.at_point(self.start)}.",
            f"The cursor is at {self.at_point(self.cursor.vertex)}.",
        )
