"""Asking for a step: read it from a crease, or place it on the bare grid."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, NamedTuple, Self

from drills.geometry import Direction, Point, Step, is_whole, ratio_of, step_between
from drills.pattern import CreasePattern, place, step_in_words, step_with_directions, times
from drills.questions.question import Drill, Fields, Highlights, Question, Slip, Verdict

RATIOS = ("1:2", "1:3", "3:4")
LIKES: Mapping[str, frozenset[str]] = {
    "1:4": frozenset(("1:4", "1:5", "1:7")),
    "2:3": frozenset(("2:3", "2:5", "3:5", "3:7", "5:12", "8:15", "7:24", "20:21")),
}
"""The steps of the other triangles, by the one they are practised with."""

_FOLLOW_THE_GRID = "Count along the grid: all squares across first, then those up or down."
_IN_TEXT = 'answer as in "1 across 2 up" or "1 2"'
_REPEATED = ', for a step made twice "1 across 2 up x 2"'


class Segment(NamedTuple):
    """A straight row of edges from one vertex to another."""

    start: int
    end: int
    edges: tuple[int, ...]


@dataclass(frozen=True)
class ReadStep(Question[Step, Step]):
    """Which step does the lit crease make from its start; ``counts_repeats``: and how often."""

    ask: ClassVar[str] = "step"
    takes: ClassVar[type] = Step

    lit: Segment
    counts_repeats: bool

    @classmethod
    def of(cls, lit: Segment, answer: Step, counts_repeats: bool) -> Self:
        """Return the question in its usual words."""
        says = (
            "Which step does the lit crease make from its start?",
            "Give the smallest: squares across, squares down or up"
            + (", and how often it repeats." if counts_repeats else "."),
        )
        return cls(says, answer, lit, counts_repeats)

    @property
    def lit_points(self) -> frozenset[int]:
        """The start of the step."""
        return frozenset({self.lit.start})

    def judge(self, drill: Drill, given: Step) -> Verdict:
        """Return the verdict on a step; bigger steps on the right line and exchanged numbers are slips."""
        right, slip = self._compared(given)
        start = drill.pattern.vertices[self.lit.start]
        return Verdict(
            right=right,
            answered=f"You read {_words(given, self.answer, self.counts_repeats)}.",
            truth=self._truth(given, slip),
            why=self._why(given, right),
            misses=int(not right),
            slip=slip,
            lit=Highlights(staircase=staircase(start, self.answer), right=frozenset(self.lit.edges)),
        )

    def taken_for(self, drill: Drill, given: Step) -> str:
        """Return the ratio that was read, where there is a skill of it."""
        return _known_ratio(given.smallest().direction) if given.across * given.down else ""

    def _compared(self, given: Step) -> tuple[bool, Slip]:
        if given.across == 0 or given.down == 0:
            return False, ""
        truth, reduced = self.answer, given.smallest()
        if not self.counts_repeats:
            truth, given, reduced = (step._replace(times=1) for step in (truth, given, reduced))
        if given == truth:
            return True, ""
        if reduced == truth:
            return True, "not smallest"
        swapped = with_directions_of(Step(reduced.down, reduced.across, reduced.times), truth)
        if swapped == truth and reduced == with_directions_of(reduced, truth):
            return True, "exchanged"
        return False, ""

    def _truth(self, given: Step, slip: Slip) -> str:
        with_times = self.counts_repeats or (slip == "not smallest" and self.answer.times > 1)
        words = _words(self.answer, given, with_times)
        if slip == "not smallest":
            return f"Right line; the smallest step is {words}."
        if slip == "exchanged":
            return f"The right numbers the other way round: it is {words}."
        return f"It is {words}."

    def _why(self, given: Step, right: bool) -> str:
        is_step = given.across * given.down and given.smallest()[:2] == self.answer[:2]
        if not right and self.counts_repeats and is_step:
            return f"The step is right; the lit part makes it {times(self.answer.times)}."
        squares = step_in_words(self.answer)
        return f"From its start the crease meets the next crossing of the grid {squares}."

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Walk the lit edges one by one: they must run straight, and so far as the answer says."""
        step, here = self.answer, self.lit.start
        ways: set[Direction] = set()
        for edge in self.lit.edges:
            if here not in pattern.edges[edge][:2]:
                return (f"The lit edge {edge} does not go on from vertex {here}.",)
            ways.add(pattern.direction(edge, here))
            here = pattern.other_end(edge, here)
        if here != self.lit.end or ways != {step.direction}:
            return (
                f"The lit crease is no straight line to vertex {self.lit.end} in the answer's direction.",
            )
        if step.smallest() != step:
            return ("The answer is not the smallest step.",)
        if step.end_from(pattern.vertices[self.lit.start]) != pattern.vertices[here]:
            return (f"The answer's step does not end at vertex {here}.",)
        return ()

    def hint(self, drill: Drill) -> str:
        """Return how a step is counted out."""
        return _FOLLOW_THE_GRID

    def right_answer(self, drill: Drill) -> Step:
        """Return the step."""
        return self.answer

    def how_to_answer(self) -> str:
        """Return what a typed step looks like."""
        return _IN_TEXT + (_REPEATED if self.counts_repeats else "")

    def to_json(self) -> dict[str, object]:
        """Return the lit segment, and whether repeats are asked for."""
        segment = {"from": self.lit.start, "to": self.lit.end, "edges": list(self.lit.edges)}
        return {"ask": self.ask, "segments": [segment], "repeats": self.counts_repeats}

    def answer_to_json(self) -> dict[str, object]:
        """Return the step."""
        return {"steps": [self.answer._asdict()]}

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        (segment,), (step,) = question["segments"], answer["steps"]
        lit = Segment(segment["from"], segment["to"], tuple(segment["edges"]))
        return cls.of(lit, Step(**step), question["repeats"])


@dataclass(frozen=True)
class PlaceStep(Question[Point, Point]):
    """On the bare grid: where does a step from a start end."""

    ask: ClassVar[str] = "place"
    takes: ClassVar[type] = Point

    start: Point
    step: Step

    @classmethod
    def of(cls, start: Point, step: Step) -> Self:
        """Return the question in its usual words."""
        said = f"{step_with_directions(step)}."
        says = ("Where does this step end?", said, "Put the cursor on that crossing.")
        return cls(says, step.end_from(start), start, step)

    def judge(self, drill: Drill, given: Point) -> Verdict:
        """Return the verdict on the crossing where the step was said to end."""
        right, truth = given == self.answer, self.answer
        return Verdict(
            right=right,
            answered=f"You chose {place(drill.pattern, given)}.",
            truth=f"It ends at {place(drill.pattern, truth)}.",
            why=self._way(),
            misses=int(not right),
            lit=Highlights(
                staircase=staircase(self.start, self.step),
                right_points=frozenset({truth} if right else ()),
                missed_points=frozenset(() if right else {truth}),
                extra_points=frozenset(() if right else {given}),
            ),
        )

    def taken_for(self, drill: Drill, given: Point) -> str:
        """Return the ratio of the step that ends there, made as often as was asked."""
        if not is_whole(given) or given.x == self.start.x or given.y == self.start.y:
            return ""
        made = step_between(self.start, given)
        return _known_ratio(made.direction) if made.times == self.step.times else ""

    def _way(self) -> str:
        """Return how the end of the step is counted out."""
        step = self.step
        total = Step(step.across * step.times, step.down * step.times)
        if step.times == 1:
            return f"Count along the grid: {step_in_words(step)}."
        return f"{step_in_words(step, with_times=True)}: that is {step_in_words(total)} in all."

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Count the squares out once more; the end must lie on the sheet."""
        x, y = self.start
        for _ in range(self.step.times):
            x, y = x + self.step.across, y - self.step.down
        left, bottom, right, top = pattern.box
        if (x, y) != self.answer:
            return ("The step does not end at the answer.",)
        if not (left <= x <= right and bottom <= y <= top):
            return ("The step ends off the sheet.",)
        return ()

    def hint(self, drill: Drill) -> str:
        """Return how a step is counted out."""
        return _FOLLOW_THE_GRID

    def right_answer(self, drill: Drill) -> Point:
        """Return the crossing."""
        return self.answer

    def how_to_answer(self) -> str:
        """Return what a typed crossing looks like."""
        return 'answer as in "4,2", squares across and then down from the top left corner'

    def to_json(self) -> dict[str, object]:
        """Return the start and the step."""
        return {"ask": self.ask, "from": _whole(self.start), "step": self.step._asdict()}

    def answer_to_json(self) -> dict[str, object]:
        """Return the crossing."""
        return {"point": _whole(self.answer)}

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        asked = cls.of(Point(*question["from"]), Step(**question["step"]))
        return cls(asked.says, Point(*answer["point"]), asked.start, asked.step)


def practised_as(direction: Direction) -> str:
    """Return the ratio that a slanted direction is practised as."""
    low, high = ratio_of(direction)
    ratio = f"{low}:{high}"
    return next((name for name, likes in LIKES.items() if ratio in likes), ratio)


def _known_ratio(direction: Direction) -> str:
    ratio = practised_as(direction)
    return ratio if ratio in RATIOS or ratio in LIKES else ""


def with_directions_of(numbers: Step, lit: Step) -> Step:
    """Return a step given as bare numbers with the directions of the lit arrow."""
    across = abs(numbers.across) if lit.across > 0 else -abs(numbers.across)
    down = abs(numbers.down) if lit.down > 0 else -abs(numbers.down)
    return Step(across, down, numbers.times)


def staircase(start: Point, step: Step) -> tuple[Point, ...]:
    """Return the points of a step's stairs: across, then down or up, as often as it repeats."""
    points = [start]
    for _ in range(step.times):
        x, y = points[-1]
        points += [Point(x + step.across, y), Point(x + step.across, y - step.down)]
    return tuple(points)


def _words(step: Step, other: Step, counted: bool) -> str:
    """Return a step in words that tell it from the other one, to the left or right where need be."""
    if step.across * other.across < 0:
        return step_with_directions(step if counted else step._replace(times=1))
    return step_in_words(step, with_times=counted)


def _whole(point: Point) -> list[int]:
    """Return a crossing of the grid as two whole numbers."""
    return [int(point.x), int(point.y)]
