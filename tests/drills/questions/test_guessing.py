"""No answer can be learnt by heart: the best one given to every drill is right in one of three at most."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator

import pytest

from drills.geometry import Point, Step
from drills.questions import ALONE, Drill, Marks, Outlines, ReadStep, make
from tests.drills.questions.codes import PLACES, codes

FEW, MORE, MANY = 60, 120, 300


def counted() -> Iterator[tuple[str, str, int, int]]:
    """Yield every form and level with how many drills are counted: of the larger sheets as time allows.

    Of labels one drill in five has nothing wrong; among 60 of them that alone may come to a third.
    """
    for kind, form, level in PLACES:
        yield kind, form, level, MANY if level <= ALONE else MORE if kind == "labels" else FEW


QUICK = [(kind, form, level, FEW) for kind, form, level in PLACES if level < 3 and kind != "find"]
LATER = [pytest.param(*place, marks=pytest.mark.long) for place in counted()]


@pytest.mark.parametrize(("kind", "form", "level", "number"), [*QUICK, *LATER])
def test_the_best_constant_answer_is_right_in_one_of_three_at_most(
    kind: str, form: str, level: int, number: int
) -> None:
    """Told by places on the sheet, and by tags as they are typed."""
    made = [make(code) for code in codes(kind, form, level, range(number))]
    for told in (by_place, by_number):
        ((answer, most),) = Counter(map(told, made)).most_common(1)
        assert 3 * most <= number, (answer, most)


def by_place(drill: Drill) -> Hashable:
    """Return the right answer, marks told by where they are from the top left corner."""
    answer = drill.question.answer
    if isinstance(drill.question, ReadStep):
        return typed(answer, drill.question.counts_repeats)
    if isinstance(answer, Outlines):
        return frozenset(creases_from_corner(drill, edges) for edges in answer.edges)
    if isinstance(answer, Marks) and drill.question.marks_points:
        return frozenset(from_corner(drill, drill.pattern.vertices[vertex]) for vertex in answer.items)
    if isinstance(answer, Marks):
        return creases_from_corner(drill, answer.items)
    return from_corner(drill, answer) if isinstance(answer, Point) else answer


def typed(step: Step, counts_repeats: bool) -> tuple[int, ...]:
    """Return the numbers of a step; without directions they are taken in the arrow's."""
    numbers = abs(step.across), abs(step.down), step.times
    return numbers if counts_repeats else numbers[:2]


def creases_from_corner(drill: Drill, edges: Iterable[int]) -> frozenset[frozenset[Point]]:
    """Return creases by their ends."""
    return frozenset(frozenset(from_corner(drill, end) for end in drill.truth.ends(edge)) for edge in edges)


def from_corner(drill: Drill, point: Point) -> Point:
    """Return how far a point is to the right of the top left corner, and below it."""
    left, _, _, top = drill.pattern.box
    return Point(point.x - left, top - point.y)


def by_number(drill: Drill) -> Hashable:
    """Return the right answer by the numbers that tags are made of; what has none is told by place."""
    answer = drill.question.answer
    return answer.items if isinstance(answer, Marks) else by_place(drill)
