"""The same learners with the same luck under every rule."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor

from tests.measure.learners.numbers import Numbers
from tests.measure.learners.numbers_b import NumbersB
from tests.measure.learners.practising import Outcome, Practice, learner_of
from tests.measure.learners.rules import RULES, Rule
from tests.measure.learners.seeing import Seeing

Makes = Callable[[], Rule]
CEILING: Mapping[str, Makes] = {"seeing into heads": Seeing}
FIRST = 200
"""Learners before this one were there when the rule was chosen."""


def outcome(rule: Makes, numbers: Numbers | NumbersB, number: int) -> Outcome:
    """Return what came of the practice of one learner."""
    return Practice(learner_of(numbers, f"person {number}"), rule(), f"luck {number}").outcome()


def compared(
    rules: Mapping[str, Makes],
    numbers: Numbers | NumbersB,
    learners: int,
    pool: ProcessPoolExecutor | None = None,
) -> Mapping[str, Sequence[Outcome]]:
    """Return what came of the practice of so many learners under each rule."""
    return {name: list(_outcomes(rule, numbers, learners, pool)) for name, rule in rules.items()}


def _outcomes(
    rule: Makes, numbers: Numbers | NumbersB, learners: int, pool: ProcessPoolExecutor | None
) -> Iterable[Outcome]:
    apply = pool.map if pool else map
    return apply(outcome, [rule] * learners, [numbers] * learners, range(FIRST, FIRST + learners))


__all__ = ["CEILING", "FIRST", "RULES", "compared", "outcome"]
