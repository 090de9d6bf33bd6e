"""A small kind of question that lives in the tests only: how many inside lines there are.

It has a way of asking of its own, begins above level 1 and ends below the highest level. What it
takes to add it is what it takes to add any kind: this module, a row for the kind, a row for the way.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import ClassVar, Self

import pytest

from drills.geometry import Chance
from drills.pattern import CreasePattern, number_of
from drills.questions import (
    KINDS,
    NO_FEATURES,
    AnyQuestion,
    Code,
    Drill,
    Features,
    Fields,
    Form,
    Highlights,
    PaceFloor,
    Question,
    QuestionKind,
    Spec,
    Verdict,
    make,
    skills_at,
    spec,
)
from drills.structures import Stretch, draw, find_stretches
from trainer.answering import NumbersInput
from trainer.text.asked import TextManner, put_as_said, read_number, tell_truth
from trainer.ways_of_asking import WAYS, WayOfAsking


@dataclass(frozen=True)
class CountLines(Question[int, int]):
    """How many inside lines are there."""

    ask: ClassVar[str] = "count"
    takes: ClassVar[type] = int
    asks_for_roles: ClassVar[bool] = True

    @classmethod
    def of(cls, number: int) -> Self:
        """Return the question in its usual words."""
        return cls(("How many inside lines are there?", "Type the number."), number)

    def judge(self, drill: Drill, given: int) -> Verdict:
        """Return the verdict on a number."""
        right = given == self.answer
        return Verdict(
            right=right,
            answered=f"You counted {given}.",
            truth=f"There are {number_of(self.answer, 'inside line')}.",
            why="Inside lines run across the outline.",
            misses=int(not right),
            lit=Highlights(right=_inside(drill.pattern)),
        )

    def verify(self, pattern: CreasePattern) -> tuple[str, ...]:
        """Count the pleats that turn at the sides instead: one line fewer."""
        (found,) = find_stretches(pattern)
        shallow, steep = found.units
        lines = (shallow or 0) + (steep or 0) - 1
        return () if lines == self.answer else (f"There are {lines} inside lines.",)

    def hint(self, drill: Drill) -> str:
        """Return how lines are counted."""
        return "Count the turning points on one side of the outline."

    def right_answer(self, drill: Drill) -> int:
        """Return the number."""
        return self.answer

    def how_to_answer(self) -> str:
        """Return what a typed answer looks like."""
        return 'answer with a number, as in "3"'

    def to_json(self) -> dict[str, object]:
        """Return the way of asking."""
        return {"ask": self.ask}

    def answer_to_json(self) -> dict[str, object]:
        """Return the number."""
        return {"lines": self.answer}

    @classmethod
    def from_json(cls, question: Fields, answer: Fields, level: int) -> Self:
        """Return the question of these fields."""
        return cls.of(answer["lines"])


def _inside(pattern: CreasePattern) -> frozenset[int]:
    return frozenset(edge for found in find_stretches(pattern) for edge in found.inside)


def plan(code: Code, form: str, features: Features, chance: Chance) -> Spec:
    """Return a stretch of equal sides with as many pleats around as the level says, at most two."""
    units = 1 + chance.below(code.level - 1)
    stretch = Stretch((units, units), pleats=min(code.level, 2), exchanged=chance.one_in(2))
    shape = "few" if units == 1 else "many"
    return Spec.of(code, form, f"toy {shape}", stretch, shape)


def make_drill(planned: Spec, chance: Chance) -> Drill:
    """Return the drill of a spec."""
    (sheet,) = planned.sheets()
    truth = draw(sheet)
    # 2 units a side have 3 inside lines of 1, 2 and 1 pieces: counted by their ends on the outline
    lines = 2 * sheet.units[0] - 1 if isinstance(sheet, Stretch) else 0
    return Drill(planned, sheet, truth.unlabelled(), truth, CountLines.of(lines))


KIND = QuestionKind(
    title="Counting lines",
    forms={"number": Form("count", CountLines)},
    skills={"toy few": "counting one line", "toy many": "counting several lines"},
    partners=(("toy few", "toy many"),),
    lowest=2,
    highest=4,
    in_placing=False,
    stretch_is_given=True,
    pace_floor=PaceFloor(2_000, is_each=False),
    missed_words="the number missed",
    taken_words="",
    versions={("number", 3): (NO_FEATURES, frozenset({"nothing new"}))},
    plan=plan,
    make=make_drill,
)
_ASKING: type[AnyQuestion] = CountLines
_AS_TEXT = TextManner(put_as_said, read_number, tell_truth)


@contextmanager
def toy_kind() -> Iterator[None]:
    """Add the kind and its way of asking, and take both away again; what may bear its name comes back."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(KINDS, "toy", KIND)
        patch.setitem(WAYS, _ASKING, WayOfAsking(NumbersInput, _AS_TEXT))
        _forget()
        yield
    _forget()


def _forget() -> None:
    for remembered in (make, skills_at, spec):
        remembered.cache_clear()
