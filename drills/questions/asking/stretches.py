"""Asking where the slanted stretches are: one mark inside each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, NamedTuple, Self

from drills.geometry import Point, Step, direction_of, half_planes, move_between
from drills.geometry import lies_within as within
from drills.pattern import CreasePattern, number_of, place, step_in_words
from drills.questions.asking.false_marks import false_places, why_no_stretch
from drills.questions.question import MAY_BE_NONE, Drill, Fields, Highlights, Question, Verdict, not_marked
from drills.structures import Join, find_stretches, lies_within, look_alike_at, middle_of

_NOUN, _NOUNS = "slanted stretch", "slanted stretches"


class Outlines(NamedTuple):
    """The slanted stretches of a sheet, in order: of each the edges of its outline."""

    edges: tuple[frozenset[int], ...]


class MarkedPlaces(NamedTuple):
    """Places of the sheet, each said to lie in a slanted stretch."""

    points: frozenset[Point]


@dataclass(frozen=True)
class FindStretches(Question[Outlines, MarkedPlaces]):
    """Where is a slanted stretch; there may be none."""

    ask: ClassVar[str] = "structures"
    takes: ClassVar[type] = MarkedPlaces
    asks_for_roles: ClassVar[bool] = True

    @classmethod
    def of(cls, outlines: tuple[frozenset[int], ...]) -> Self:
        """Return the question in its usual words."""
        says = (
            "Where is a slanted stretch? Put a mark inside each.",
            f"One mark for each is enough. {MAY_BE_NONE}",
        )
        return cls(says, Outlines(outlines))

    @property
    def marks(self) -> int:
        """How many marks the right answer takes; one where there is nothing to mark."""
        return max(1, len(self.answer.edges))

    def judge(self, drill: Drill, given: MarkedPlaces) -> Verdict:
        """Return the verdict on marked places; several marks in one stretch count as one."""
        pattern, truth = drill.pattern, self.answer.edges
        found = [each for each in truth if any(lies_within(pattern, each, at) for at in given.points)]
        missed = [outline for outline in truth if outline not in found]
        extra = sorted(at for at in given.points if self.is_outside(pattern, at))
        return Verdict(
            right=not missed and not extra,
            answered=_answered(given, len(found), len(missed), len(extra)),
            truth=_truth(len(truth)),
            why=self._why(drill, missed, extra),
            misses=len(missed),
            false_alarms=len(extra),
            lit=Highlights(
                right=frozenset().union(*found),
                missed=frozenset().union(*missed),
                outlines=truth,
                tips=tips_joined(drill, (missed or list(truth))[:1]),
                extra_points=frozenset(extra),
            ),
        )

    def taken_for(self, drill: Drill, given: MarkedPlaces) -> str:
        """Return the look-alike that was marked, rather another one than the drill turns on."""
        extra = sorted(at for at in given.points if self.is_outside(drill.pattern, at))
        alike = [like for at in extra if (like := look_alike_at(drill.design, at))]
        return next((like for like in alike if like != drill.spec.detail), "")

    def is_outside(self, pattern: CreasePattern, at: Point) -> bool:
        """Whether a place lies in no slanted stretch."""
        return not any(lies_within(pattern, outline, at) for outline in self.answer.edges)

    def _why(self, drill: Drill, missed: list[frozenset[int]], extra: list[Point]) -> str:
        truth, false = self.answer.edges, false_places(drill, extra)
        if extra and not missed:
            return false
        if not truth:
            return why_no_stretch(drill)
        told = (missed or list(truth))[0]
        return " ".join(filter(None, (self._sides(drill.pattern, told), what_for(drill, told), false)))

    def _sides(self, pattern: CreasePattern, outline: frozenset[int]) -> str:
        steps = " and ".join(side_steps(pattern, outline))
        if len(self.answer.edges) == 1:
            return f"Its sides are not at 45 degrees: they go {steps}."
        inside = place(pattern, _crossing_in(pattern, outline))
        return f"The sides of the one round {inside} are not at 45 degrees: they go {steps}."

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Find the stretches anew: their outlines must be the answer."""
        found = {frozenset(each.outline) for each in find_stretches(pattern)}
        answer = set(self.answer.edges)
        missing = [f"The stretch with edges {sorted(each)} is not in the answer." for each in found - answer]
        extra = [f"No stretch has edges {sorted(each)}, which are in the answer." for each in answer - found]
        doubled = ["A stretch is in the answer twice."] * (len(answer) < len(self.answer.edges))
        return (*missing, *extra, *doubled)

    def hint(self, drill: Drill) -> str:
        """Return what to look for."""
        return "Look for sides off the 45 degrees: a slanted stretch has four, in two pairs of parallels."

    def right_answer(self, drill: Drill) -> MarkedPlaces:
        """Return the middle of each stretch."""
        return MarkedPlaces(frozenset(middle_of(drill.pattern, outline) for outline in self.answer.edges))

    def how_to_answer(self) -> str:
        """Return what a typed answer looks like."""
        return 'answer with the tag of one crease of each, as in "aa ac", or "none"'

    def to_json(self) -> dict[str, object]:
        """Return the way of asking."""
        return {"ask": self.ask}

    def answer_to_json(self) -> dict[str, object]:
        """Return of each stretch the edges of its outline."""
        return {"structures": [sorted(outline) for outline in self.answer.edges]}

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        return cls.of(tuple(frozenset(outline) for outline in answer["structures"]))


def join_of(drill: Drill, outline: frozenset[int]) -> Join | None:
    """Return what a stretch joins, if both flap tips are on the paper."""
    middle = middle_of(drill.pattern, outline)
    left, bottom, right, top = drill.pattern.box
    for join in drill.design.joins():
        on_paper = all(left <= x <= right and bottom <= y <= top for x, y in join.tips)
        if on_paper and within(middle, half_planes(join.outline)):
            return join
    return None


def what_for(drill: Drill, outline: frozenset[int]) -> str:
    """Return what a stretch is for, in words; empty where its flap tips are not known."""
    join = join_of(drill, outline)
    if join is None:
        return ""
    (first, second), (across, down) = (place(drill.pattern, tip) for tip in join.tips), join.apart
    more = number_of(join.saved, "square")
    return (
        f"It joins flap tips {first} and {second}: {across} across and {down} down, yet {join.folded} apart "
        f"when folded. At 45 degrees that takes {more} more."
    )


def tips_joined(drill: Drill, outlines: Sequence[frozenset[int]]) -> frozenset[Point]:
    """Return the flap tips that stretches join, where they are known."""
    joins = (join_of(drill, outline) for outline in outlines)
    return frozenset(tip for join in joins if join for tip in join.tips)


def side_steps(pattern: CreasePattern, outline: frozenset[int]) -> list[str]:
    """Return the steps of an outline's sides in words, each once, seen from left to right."""
    ways = {direction_of(move_between(*sorted(pattern.ends(edge)))) for edge in outline}
    return [step_in_words(Step(way.dx, -way.dy)) for way in sorted(ways)]


def _crossing_in(pattern: CreasePattern, outline: frozenset[int]) -> Point:
    """Return the crossing of the grid nearest to the middle of an outline, that itself if it lies outside."""
    middle = middle_of(pattern, outline)
    near = Point(round(middle.x), round(middle.y))
    return near if lies_within(pattern, outline, near) else middle


def _answered(given: MarkedPlaces, found: int, missed: int, extra: int) -> str:
    if not given.points:
        return "You marked nothing."
    parts = [f"{found} found"] * bool(found) + [f"{extra} in no stretch"] * bool(extra)
    return f"You marked {number_of(len(given.points), 'place')}: {', '.join(parts)}." + not_marked(missed)


def _truth(number: int) -> str:
    if not number:
        return "There is no slanted stretch on this sheet."
    return f"There {'is' if number == 1 else 'are'} {number_of(number, _NOUN, _NOUNS)}."
