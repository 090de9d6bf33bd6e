"""How much of one skill's practice counts for another."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp

from drills.questions import kind_of, partners_of, skill_names
from tests.measure.learners.numbers import Numbers


def likeness(numbers: Numbers) -> Mapping[str, Mapping[str, float]]:
    """Return for each skill the skills that its practice counts for, and the part from 0 to 1."""
    return {one: dict(_carried_over(one, numbers)) for one in skill_names()}


def _carried_over(one: str, numbers: Numbers) -> list[tuple[str, float]]:
    alike = [other for other in skill_names() if kind_of(other)[0] == kind_of(one)[0]]
    return [(other, exp(-_distance(one, other, numbers))) for other in alike]


def _distance(one: str, other: str, numbers: Numbers) -> float:
    if one == other:
        return 0.0
    if other in partners_of(one):
        return numbers.distance_if_confusable
    if _without_form(one) == _without_form(other):
        return numbers.distance_if_same_but_for_form
    return numbers.distance_in_kind


def _without_form(skill: str) -> tuple[str, ...]:
    _, form = kind_of(skill)
    return tuple(word for word in skill.split(" ") if word != form)
