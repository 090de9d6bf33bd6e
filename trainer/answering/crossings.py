"""Answering on the bare grid, with a cursor that goes from crossing to crossing."""

from __future__ import annotations

from dataclasses import replace
from itertools import count

from drills.geometry import Direction, Point, moved
from drills.pattern import CreasePattern, place
from drills.questions import Drill, FindStretches, MarkedPlaces, PlaceStep
from drills.structures import lies_within, middle_of
from trainer.actions import DIGITS, LETTERS
from trainer.answering.answer_input import AnswerInput
from trainer.answering.letters import BY_LETTERS, LetteredInput, Places
from trainer.board import DOTS_ACROSS, DOTS_DOWN, FAR, Arrow, Dot, Letter, Look, Marked, Scale

ARROW_MOVES: dict[Arrow, Direction] = {
    "left": Direction(-1, 0),
    "right": Direction(1, 0),
    "up": Direction(0, 1),
    "down": Direction(0, -1),
}


def on_sheet(pattern: CreasePattern, at: Point) -> Point:
    """Return a place, or the nearest one on the paper."""
    left, bottom, right, top = pattern.box
    return Point(min(max(at.x, left), right), min(max(at.y, bottom), top))


def is_one_of(at: Point, number: int) -> bool:
    """Whether a crossing is one of those taken where of so many one is taken, spread over the grid."""
    return (at.x + (3 if number % 3 else 2) * at.y) % number == 0


class PlacingInput(AnswerInput[PlaceStep]):
    """A cursor that goes square by square, begun at the start of the step."""

    actions = frozenset({"far"})

    def __init__(self, drill: Drill, question: PlaceStep) -> None:
        super().__init__(drill, question)
        self.start = self.at = question.start

    def go(self, arrow: Arrow) -> None:
        """Go one square; at the paper's edge it stays."""
        self.at = on_sheet(self.drill.pattern, moved(self.at, ARROW_MOVES[arrow]))

    def far(self, arrow: Arrow) -> None:
        """Go five squares, or as far as the paper's edge."""
        self.at = on_sheet(self.drill.pattern, moved(self.at, ARROW_MOVES[arrow], FAR))

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


MOST_PLACES = len(DIGITS) * len(LETTERS)
STRIDE = 4
"""Squares from one stop of Tab to the next, in rows as far apart."""


class FindingInput(LetteredInput[FindStretches, Point]):
    """A cursor that goes over the bare grid, so that nothing is given away by where it stops."""

    actions = BY_LETTERS | {"mark", "nothing"}

    def __init__(self, drill: Drill, question: FindStretches) -> None:
        super().__init__(drill, question)
        left, bottom, _, top = drill.pattern.box
        self.at = Point(left, (bottom + top) // 2)  # in the middle many a stretch lies under the cursor
        self._toggled: list[Point] = []

    def go(self, arrow: Arrow) -> None:
        """Go one square; at the paper's edge it stays."""
        self.at = on_sheet(self.drill.pattern, moved(self.at, ARROW_MOVES[arrow]))

    def far(self, arrow: Arrow) -> None:
        """Go five squares, or as far as the paper's edge."""
        self.at = on_sheet(self.drill.pattern, moved(self.at, ARROW_MOVES[arrow], FAR))

    def places(self, scale: Scale) -> Places[Point]:
        """Return crossings in view inside the paper, so few that a digit and a letter are enough."""
        left, bottom, right, top = self.drill.pattern.box
        inside = (at for at in scale.crossings() if left < at.x < right and bottom < at.y < top)
        seen = [at for at in inside if scale.shows(at)]
        number = next(n for n in count(1) if sum(is_one_of(at, n) for at in seen) <= MOST_PLACES)
        return {at: at for at in seen if is_one_of(at, number)}

    def take(self, item: Point) -> None:
        """Put the cursor on a crossing, mark it or take its mark away."""
        self.at = item
        self.mark()

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
        self._toggle(near[0] if near else on_sheet(self.drill.pattern, place))

    def begin(self) -> str:
        """Mark the first of several stretches."""
        truth = self.question.answer
        if len(truth.edges) < 2:
            return ""
        self.marks = [middle_of(self.drill.pattern, truth.edges[0])]
        self.begun = frozenset(self.marks)
        return f"1 of {len(truth.edges)} is marked for you; mark the rest."

    def answer(self) -> MarkedPlaces | None:
        """Return the marks once there are own ones: that there is nothing to mark has a key of its own."""
        return MarkedPlaces(frozenset(self.marks)) if self.marks and self.has_own else None

    def answered_besides(self, given: object) -> str:
        """Return what was marked besides what was marked for the person."""
        if not self.begun or not isinstance(given, MarkedPlaces):
            return ""
        pattern, own = self.drill.pattern, MarkedPlaces(given.points - self.begun)
        left = tuple(
            outline
            for outline in self.question.answer.edges
            if not any(lies_within(pattern, outline, at) for at in self.begun)
        )
        return f"{self.begun_in_words()} {FindStretches.of(left).judge(self.drill, own).answered}"

    def nothing(self) -> MarkedPlaces:
        """Return the answer that there is no slanted stretch."""
        return MarkedPlaces(frozenset())

    def look(self) -> Look:
        """Return the board with cursor and marks."""
        marked = Marked(points=frozenset(self.marks))
        return replace(super().look(), scanned=True, cursor_at=self.at, marked=marked, letters=self.signs())

    def signs(self) -> tuple[Letter[Point], ...]:
        """Return the letters for the board, of a part only one in its middle, so that creases stay plain."""
        if self.lettered is None or self.lettered.open is not None:
            return super().signs()
        return self.lettered_signs(self.lettered.other_parts())

    def says(self) -> tuple[str, ...]:
        """Return where the cursor is, and how many places are marked."""
        marked = " (marked)" if self.at in self.marks else ""
        here = f"At {place(self.drill.pattern, self.at)}{marked}."
        return *self.says_of_letters("place"), here, self.says_of_marks()

    def _stops(self) -> list[Point]:
        left, bottom, right, top = (int(value) for value in self.drill.pattern.box)
        first = STRIDE // 2
        rows = range(top - first, bottom, -STRIDE)
        return [Point(x, y) for y in rows for x in range(left + first, right, STRIDE)]

    def _toggle(self, place: Point) -> None:
        self._toggled.append(place)
        self._flip(place)

    def _flip(self, place: Point) -> None:
        if place in self.marks:
            self.marks.remove(place)
        else:
            self.marks.append(place)
