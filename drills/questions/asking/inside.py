"""Asking for what is inside an outline: its inside lines, its turning points, what a line joins."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Self

from drills.geometry import (
    FACINGS,
    Move,
    Point,
    Step,
    cross,
    direction_of,
    is_whole,
    move_between,
    step_between,
)
from drills.pattern import CreasePattern, mixed, number_of, place_of, step_in_words
from drills.questions.asking.false_marks import false_creases, false_points
from drills.questions.asking.marking import MarkQuestion
from drills.questions.question import MAY_BE_NONE, Drill, Fields, Marks
from drills.structures import Found, find_stretches, outlines

_PAIRS = (("equal few", "unequal"), ("equal many", "several"))
ALIKE: Mapping[str, str] = {one: other for pair in _PAIRS for one, other in (pair, pair[::-1])}
"""Shapes of a stretch where a ridge is easily taken for an inside line; common practice, no source."""


@dataclass(frozen=True)
class MarkInsideLines(MarkQuestion):
    """Which creases run inside an outline; there may be none."""

    ask: ClassVar[str] = "edges"
    marked: ClassVar[str] = "crease"
    asks_for_roles: ClassVar[bool] = True

    corners: frozenset[int] = frozenset()

    @classmethod
    def of(cls, edges: frozenset[int], corners: frozenset[int] = frozenset()) -> Self:
        """Return the question in its usual words; with corners it is asked of the outline that has them."""
        says = (
            "Mark every inside line (interior sink line): each crease that runs inside an outline.",
            MAY_BE_NONE,
        )
        of_one = (
            "Mark every inside line (interior sink line) of the outline whose corners are lit.",
            "All others stay as they are.",
        )
        return cls(of_one if corners else says, Marks(edges), corners)

    @property
    def lit_points(self) -> frozenset[int]:
        """The corners of the outline that it is asked of, where it is one of several."""
        return self.corners

    def taken_for(self, drill: Drill, given: Marks) -> str:
        """Return the shape where ridges lie beside inside lines as they do here, if a ridge was marked."""
        edges = drill.truth.edges
        has_ridge = any(edges[edge].role == "ridge" for edge in given.items)
        return ALIKE.get(drill.spec.detail, "") if has_ridge else ""

    def truth_in_words(self, drill: Drill) -> str:
        """Return how many inside lines there are."""
        return _how_many(len(self.answer.items), "inside line", bool(self.corners))

    def why(self, drill: Drill, given: Marks) -> str:
        """Return what tells inside lines from the rest, or why there are none."""
        if not outlines(drill.design):
            return "No outline is on this sheet: every crease runs along the grid or at 45 degrees."
        if not self.answer.items:
            return "Only a tip of the outline is on this sheet, and no crease runs inside it."
        false = false_creases(drill, given.items - self.answer.items, self.corners)
        if false and self.answer.items <= given.items:
            return false
        told = "Inside lines run within the outline and go in with the sink"
        return f"{told}. {false}" if false else f"{told}; all other creases stay out."

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Find the stretches anew: their inside lines must be the answer."""
        asked = _asked_of(pattern, self.corners)
        found = frozenset(edge for each in asked for edge in each.inside)
        return _differences(found, self.answer.items, "crease", "an inside line")

    def to_json(self) -> dict[str, object]:
        """Return the way of asking, and the corners of the outline where one is asked of."""
        return {"ask": self.ask, **_corners_to_json(self.corners)}

    def hint(self, drill: Drill) -> str:
        """Return a corner of the outline."""
        return _corner_hint(drill, frozenset())

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        return cls.of(frozenset(answer["edges"]), frozenset(question.get("corners", ())))


@dataclass(frozen=True)
class MarkTurningPoints(MarkQuestion):
    """Which points of the outline, off its corners, are met by an inside line and a pleat line."""

    ask: ClassVar[str] = "vertices"
    marked: ClassVar[str] = "point"
    marks_points: ClassVar[bool] = True

    corners: frozenset[int] = frozenset()

    @classmethod
    def of(cls, vertices: frozenset[int], corners: frozenset[int] = frozenset()) -> Self:
        """Return the question in its usual words; with corners it is asked of the outline that has them."""
        which = "of the outline whose corners are lit" if corners else "on the outline"
        says = (
            f"Mark every turning point: each point {which} where an inside line meets a pleat line.",
            "Corners of the outline and points on the paper's edge do not count.",
        )
        return cls(says, Marks(vertices), corners)

    @property
    def lit_points(self) -> frozenset[int]:
        """The corners of the outline that it is asked of, where it is one of several."""
        return self.corners

    def truth_in_words(self, drill: Drill) -> str:
        """Return how many turning points there are."""
        return _how_many(len(self.answer.items), "turning point", bool(self.corners))

    def why(self, drill: Drill, given: Marks) -> str:
        """Return what a turning point is."""
        false = false_points(drill, given.items - self.answer.items)
        if false and self.answer.items <= given.items:
            return false
        told = "At a turning point an inside line meets a pleat line"
        return f"{told}. {false}" if false else f"{told}; the corners of the outline are none."

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Find the stretches anew: their turning points must be the answer."""
        asked = _asked_of(pattern, self.corners)
        found = frozenset(vertex for each in asked for vertex in each.turning_points)
        return _differences(found, self.answer.items, "vertex", "a turning point")

    def to_json(self) -> dict[str, object]:
        """Return the way of asking, and the corners of the outline where one is asked of."""
        return {"ask": self.ask, **_corners_to_json(self.corners)}

    def hint(self, drill: Drill) -> str:
        """Return a corner of the outline."""
        return _corner_hint(drill, self.answer.items)

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        return cls.of(frozenset(answer["vertices"]), frozenset(question.get("corners", ())))


@dataclass(frozen=True)
class JoinPoints(MarkQuestion):
    """The inside lines hidden: to which point does the one from the lit point lead."""

    ask: ClassVar[str] = "join"
    marked: ClassVar[str] = "point"
    marks_points: ClassVar[bool] = True

    start: int
    inside: frozenset[int]

    @classmethod
    def of(cls, start: int, end: int, inside: frozenset[int]) -> Self:
        """Return the question in its usual words."""
        says = (
            "To which point does the inside line from the lit point lead?",
            "The inside lines are hidden.",
        )
        return cls(says, Marks(frozenset({end})), start, inside)

    @property
    def end(self) -> int:
        """The vertex that the line leads to."""
        (end,) = self.answer.items
        return end

    @property
    def hidden(self) -> frozenset[int]:
        """The inside lines."""
        return self.inside

    @property
    def lit_points(self) -> frozenset[int]:
        """The start."""
        return frozenset({self.start})

    def answered(self, drill: Drill, given: Marks) -> str:
        """Return the point chosen."""
        if not given.items:
            return given.counted_against(self.answer, self.marked)
        return f"You chose point {_point(drill, min(given.items))}."

    def truth_in_words(self, drill: Drill) -> str:
        """Return the point that the line leads to."""
        return f"It leads to point {_point(drill, self.end)}."

    def why(self, drill: Drill, given: Marks) -> str:
        """Return the step of the line."""
        points = drill.pattern.vertices
        start, end = points[self.start], points[self.end]
        told = f"All inside lines of a stretch run parallel; this one goes {_line_in_words(start, end)}."
        for chosen in given.items - self.answer.items:
            if cross(move_between(start, end), move_between(start, points[chosen])) == 0:
                return f"{told} The point you chose lies in line with it, but no inside line ends there."
            return f"{told} To the point you chose it would be {_line_in_words(start, points[chosen])}."
        return told

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Aim from the start the way the inside lines run: one end of such lines alone must lie there."""
        found = [each for each in find_stretches(pattern) if self.start in each.turning_points]
        if len(found) != 1:
            return (f"Vertex {self.start} is a turning point of {len(found)} stretches.",)
        hidden = frozenset(edge for each in find_stretches(pattern) for edge in each.inside)
        faults = _differences(hidden, self.inside, "crease", "hidden")
        return faults + _differences(
            _aimed_at(pattern, found[0], self.start), self.answer.items, "vertex", "where the line leads"
        )

    def hint(self, drill: Drill) -> str:
        """Return a corner of the outline."""
        return _corner_hint(drill, self.answer.items)

    def how_to_answer(self) -> str:
        """Return what a typed point looks like."""
        return 'answer with one tag, as in "ac"'

    def to_json(self) -> dict[str, object]:
        """Return the start and what is hidden."""
        return {"ask": self.ask, "from": self.start, "hidden": sorted(self.inside)}

    def answer_to_json(self) -> dict[str, object]:
        """Return the vertex that the line leads to."""
        return {"vertex": self.end}

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        return cls.of(question["from"], answer["vertex"], frozenset(question["hidden"]))


def corners_of(pattern: CreasePattern, found: Found) -> frozenset[int]:
    """Return the corners of a stretch that are on the paper, by vertex."""
    return frozenset(vertex for vertex, point in enumerate(pattern.vertices) if point in found.corners)


def _asked_of(pattern: CreasePattern, corners: frozenset[int]) -> list[Found]:
    """Return the stretches that are asked about: all, or the one that has these corners."""
    return [each for each in find_stretches(pattern) if not corners or corners_of(pattern, each) == corners]


def _corners_to_json(corners: frozenset[int]) -> dict[str, object]:
    return {"corners": sorted(corners)} if corners else {}


def _how_many(number: int, noun: str, of_one: bool) -> str:
    if of_one:
        return f"The lit outline has {number_of(number, noun)}."
    if not number:
        return f"There is no {noun} on this sheet."
    return f"There {'is' if number == 1 else 'are'} {number_of(number, noun)}."


def _point(drill: Drill, vertex: int) -> str:
    return place_of(drill.pattern, vertex)


def _line_in_words(start: Point, end: Point) -> str:
    """Return the step of a line, and its count where the line joins two crossings of the grid."""
    move = move_between(start, end)
    if move.dy == 0:
        return f"{mixed(max(move.dx, -move.dx))} across"
    if move.dx == 0:
        return f"{mixed(max(move.dy, -move.dy))} {'up' if move.dy > 0 else 'down'}"
    if is_whole(start) and is_whole(end):
        return step_in_words(step_between(start, end), with_times=True)
    way = direction_of(move)
    return step_in_words(Step(way.dx, -way.dy))


def _corner_hint(drill: Drill, asked: frozenset[int]) -> str:
    """Return where a corner of an outline is, one that is not asked for."""
    points = {point: vertex for vertex, point in enumerate(drill.pattern.vertices) if vertex not in asked}
    corners = [points[point] for outline in outlines(drill.design) for point in outline if point in points]
    if not corners:
        return "Follow the slanted creases to the paper's edge: which of them has the outline on both sides?"
    return f"The outline has a corner at {_point(drill, corners[0])}; inside lines all run parallel."


def _aimed_at(pattern: CreasePattern, found: Found, start: int) -> frozenset[int]:
    """Return the ends of a stretch's inside lines that lie the way these lines run from a point."""
    ends = {vertex for edge in found.inside for vertex in pattern.edges[edge][:2]} - {start}
    way = Move(*FACINGS[found.facing].of(Point(*found.triangle.inside)))
    here = pattern.vertices[start]
    return frozenset(v for v in ends if cross(way, move_between(here, pattern.vertices[v])) == 0)


def _differences(found: frozenset[int], answer: frozenset[int], item: str, what: str) -> tuple[str, ...]:
    """Return a sentence for each item that is found but not in the answer, or the other way round."""
    missing = (f"The {item} {number} is {what}, but not in the answer." for number in sorted(found - answer))
    extra = (f"The {item} {number} is not {what}, but in the answer." for number in sorted(answer - found))
    return (*missing, *extra)
