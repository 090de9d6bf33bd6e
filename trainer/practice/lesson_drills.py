"""The drills of the lesson: those of the practice, on chosen sheets and in the lesson's own words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache, partial
from typing import TypeAlias

from drills.flatfold import fault_in_words, faults
from drills.geometry import Chance
from drills.pattern import CreasePattern, step_with_directions
from drills.questions import KINDS, Drill, MarkWrongLabels, PlaceStep, Recipe, Spec
from drills.structures import Stretch, draw

Making: TypeAlias = Callable[[], Drill]

COUNTS_REPEATS = 3
"""The level from which on it is asked how often a step repeats."""


def drill_on(
    sheet: Stretch | Recipe, kind: str, form: str, detail: str, *says: str, seed: str = "", level: int = 1
) -> Making:
    """Return how to make a drill of a kind on a sheet, its question put in these words."""
    spec = Spec(kind, level, form, f"{kind} {detail}", sheet, detail)
    return partial(_made, spec, seed, says)


def counted_for(making: Making) -> Making:
    """Return how to make the same drill of labels with the counts at one point told."""
    return partial(_counted, making)


def to_switch(sheet: Stretch, number: int, *says: str) -> Making:
    """Return how to ask which creases of a stretch, mountains still, are to be valleys: so many of them."""
    return partial(_half_switched, sheet, number, says)


@lru_cache(maxsize=64)
def _made(spec: Spec, seed: str, says: tuple[str, ...]) -> Drill:
    drill = KINDS[spec.kind].make(spec, Chance(f"lesson {seed}"))
    if isinstance(drill.question, PlaceStep):
        says += (f"{step_with_directions(drill.question.step)}.",)
    return replace(drill, question=replace(drill.question, says=says))


def _counted(making: Making) -> Drill:
    drill = making()
    told = fault_in_words(drill.pattern, faults(drill.pattern)[0])
    return replace(drill, question=replace(drill.question, says=(*drill.question.says, told)))


def _half_switched(sheet: Stretch, number: int, says: tuple[str, ...]) -> Drill:
    truth = draw(sheet)
    still = frozenset(valleys(truth)[:number])
    spec = Spec("labels", 1, "mark", "labels one", sheet, "one")
    question = replace(MarkWrongLabels.of(still, 1), says=says)
    return Drill(spec, sheet, truth.switched(still), truth, question)


def valleys(truth: CreasePattern) -> list[int]:
    """Return the valleys among the creases that are folded first as mountains, inside lines before sides."""
    roles = ("inside", "outline")
    found = [
        edge for edge in truth.creases if truth.edges[edge].label == "V" and truth.edges[edge].role in roles
    ]
    return sorted(found, key=lambda edge: (roles.index(truth.edges[edge].role), edge))
