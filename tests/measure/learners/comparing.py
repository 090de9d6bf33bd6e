"""The same learners with the same luck under every rule."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor

from tests.measure.learners.learner import drawn
from tests.measure.learners.numbers import Numbers
from tests.measure.learners.practising import Outcome, Practice
from tests.measure.learners.rules import Rule, at_random, in_blocks, ours
from tests.measure.learners.seeing import seeing

RULES: Mapping[str, Rule] = {"our rule": ours, "at random": at_random, "in blocks": in_blocks}
CEILING: Mapping[str, Rule] = {"seeing into heads": seeing}


def outcome(rule: Rule, numbers: Numbers, number: int) -> Outcome:
    """Return what came of the practice of one learner."""
    return Practice(drawn(numbers, f"person {number}"), rule, numbers, f"luck {number}").outcome()


def compared(
    rules: Mapping[str, Rule], numbers: Numbers, learners: int, pool: ProcessPoolExecutor | None = None
) -> Mapping[str, Sequence[Outcome]]:
    """Return what came of the practice of so many learners under each rule."""
    return {name: list(_outcomes(rule, numbers, learners, pool)) for name, rule in rules.items()}


def _outcomes(
    rule: Rule, numbers: Numbers, learners: int, pool: ProcessPoolExecutor | None
) -> Iterable[Outcome]:
    apply = pool.map if pool else map
    return apply(outcome, [rule] * learners, [numbers] * learners, range(learners))
