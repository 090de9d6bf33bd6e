"""How the drills of a lesson are made: on a sheet and in words that its page chooses, by no code."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache, partial
from itertools import combinations
from typing import ClassVar

from drills.flatfold import fault_in_words, faults
from drills.geometry import Chance
from drills.pattern import CreasePattern, step_with_directions
from drills.questions import KINDS, AnySheet, Drill, MarkWrongLabels, PlaceStep, Spec
from drills.structures import Base, Plan, Stretch, draw
from trainer.practice.making import DrillMaker

COUNTS_REPEATS = 3
"""The level from which on it is asked how often a step repeats."""

SMALL = Stretch((1, 1), ("steep", "shallow"), pleats=1)
LARGE = Stretch((2, 2), ("steep", "shallow"), pleats=1)
SMALL_BASE = Base(Plan(16, 16, ("stretch",), has_axis=False, seed=2), crop=(4, 1, 0, 3))
"""Most of a base of 16 x 16, so much that it fits a small window: one stretch, in a cell of 10 by 8."""


@dataclass(frozen=True)
class MarkValleys(MarkWrongLabels):
    """Which creases, folded as mountains first, are to be valleys; nothing is wrong with the sheet."""

    marked: ClassVar[str] = "crease"

    def truth_in_words(self, drill: Drill) -> str:
        """Return how many are to be switched."""
        number = len(self.answer.items)
        return "1 mountain is to be a valley." if number == 1 else f"{number} mountains are to be valleys."


def drill_on(
    sheet: AnySheet,
    kind: str,
    form: str,
    detail: str,
    *says: str,
    drawn_by: str = "lesson ",
    level: int = 1,
) -> DrillMaker:
    """Return how to make a drill of a kind on a sheet, drawn by a name, its question put in these words."""
    return partial(_made, Spec(kind, level, form, f"{kind} {detail}", sheet, detail), drawn_by, says)


def told_a_fault(make: DrillMaker) -> DrillMaker:
    """Return how to make the same drill of labels with what is wrong at one point told."""
    return partial(_told, make)


def to_switch(sheet: Stretch, number: int, *says: str) -> DrillMaker:
    """Return how to ask which creases of a stretch, mountains still, are to be valleys: so many of them."""
    return partial(_half_switched, sheet, number, says)


@lru_cache(maxsize=64)
def _made(spec: Spec, drawn_by: str, says: tuple[str, ...]) -> Drill:
    drill = KINDS[spec.kind].make(spec, Chance(drawn_by))
    if isinstance(drill.question, PlaceStep):
        says += (f"{step_with_directions(drill.question.step)}.",)
    return replace(drill, question=replace(drill.question, says=says))


def _told(make: DrillMaker) -> Drill:
    """Return the drill with a fault told, the one that counting does not show if there is such a one."""
    drill = make()
    told = fault_in_words(drill.pattern, faults(drill.pattern)[-1])
    return replace(drill, question=replace(drill.question, says=(*drill.question.says, told)))


@lru_cache(maxsize=64)
def _half_switched(sheet: Stretch, number: int, says: tuple[str, ...]) -> Drill:
    truth = draw(sheet)
    choices = map(frozenset, combinations(valleys(truth), number))
    still = next(each for each in choices if joining_faults(truth.switched(each)) == each)
    spec = Spec("labels", 1, "mark", "labels one", sheet, "one")
    question = replace(MarkValleys.of(still, 1), says=says)
    return Drill(spec, sheet, truth.switched(still), truth, question)


def joining_faults(pattern: CreasePattern) -> frozenset[int]:
    """Return the creases that join two points which cannot fold as labelled."""
    broken = set(faults(pattern))
    return frozenset(edge for edge in pattern.creases if broken.issuperset(pattern.edges[edge][:2]))


def valleys(truth: CreasePattern) -> list[int]:
    """Return the valleys among the creases that are folded first as mountains, inside lines before sides."""
    roles = ("inside", "outline")
    found = [
        edge for edge in truth.creases if truth.edges[edge].label == "V" and truth.edges[edge].role in roles
    ]
    return sorted(found, key=lambda edge: (roles.index(truth.edges[edge].role), edge))
