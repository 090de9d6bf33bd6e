"""A chooser that sees into the learner's head: about what the best rule could reach, and no rule can."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from drills.questions import kind_of, partners_of, skill_names
from tests.measure.learners.former import Asked
from tests.measure.learners.learner import Learner
from tests.measure.learners.parts import LearnerB, taught
from tests.measure.learners.rules import Moment, OfBefore, level_of_drill

LASTS_DAYS = 30
"""In model B what is there after so many days counts."""
HIGHEST = 6


class Seeing(OfBefore):
    """Takes the drill that adds most to the test's right answers a minute, for each second."""

    def choose(self, moment: Moment) -> Asked:
        """Return the drill worth most; in model B of any level, in model A of the person's."""
        learner, minute = moment.learner, moment.minute
        if isinstance(learner, LearnerB):
            return _most_in_b(learner, minute)
        worth = worths(learner, minute)

        def gain_a_second(skill: str) -> float:
            level = level_of_drill(skill, self.level(kind_of(skill)[0]))
            gain = sum(worth[other] * amount for other, amount in learner.gains(skill, minute).items())
            return gain / learner.usual_seconds(skill, level, minute)

        return self.at_level(max(self.open(), key=gain_a_second))


class Test(NamedTuple):
    """What a test would find: the chance of a right answer and the seconds, by skill."""

    chances: Mapping[str, float]
    times: Mapping[str, float]

    @classmethod
    def of(cls, learner: Learner | LearnerB, minute: float) -> Test:
        """Return what it would find now."""
        level = {skill: level_of_drill(skill, learner.numbers.tested_at_level) for skill in skill_names()}
        chances = {skill: learner.chance_of_right(skill, level[skill], minute) for skill in skill_names()}
        times = {skill: learner.usual_seconds(skill, level[skill], minute) for skill in skill_names()}
        return cls(chances, times)


def worths(learner: Learner, minute: float) -> Mapping[str, float]:
    """Return by how much the test's right answers a second rise with each skill's strength, in model A."""
    test = Test.of(learner, minute)
    right, seconds = sum(test.chances.values()), sum(test.times.values())
    more_a_second = dict[str, float]()
    for skill in skill_names():
        more = _more_right(learner, test.chances[skill], test.chances[skill])
        saved = _saved(learner, learner.strength(skill, minute), test.times[skill])
        more_a_second[skill] = (more + right / seconds * saved) / seconds
    return more_a_second


def _more_right(learner: Learner | LearnerB, chance: float, reads: float) -> float:
    numbers = learner.numbers
    return numbers.logits_to_learn * chance * (1 - reads / (1 - numbers.slips))


def _saved(learner: Learner | LearnerB, strength: float, seconds: float) -> float:
    longer = learner.numbers.times_as_long_at_first - 1
    return seconds * longer / (1 + longer * (1 - strength))


def _most_in_b(learner: LearnerB, minute: float) -> Asked:
    """Return the skill and level worth most a second, by what of it lasts."""
    learner.come_to(minute)
    worth = _worth_of_parts(learner, minute)
    drills = {
        Asked(skill, level): _worth_a_second(learner, worth, skill, level, minute)
        for skill in skill_names()
        for level in range(1, HIGHEST + 1)
        if level_of_drill(skill, level) == level
    }
    return max(drills, key=drills.__getitem__)


def _worth_of_parts(learner: LearnerB, minute: float) -> Mapping[tuple[object, ...], float]:
    """Return by how much the test's right answers a second rise with each part, by what of a drill lasts."""
    numbers, test = learner.numbers, Test.of(learner, minute)
    right, seconds = sum(test.chances.values()), sum(test.times.values())
    worth = defaultdict[tuple[object, ...], float](float)
    for skill, chance in test.chances.items():
        level = level_of_drill(skill, numbers.tested_at_level)
        reads = learner.chance_of_reading(skill, level)
        more = _more_right(learner, chance, reads) / seconds
        saved = _saved(learner, learner.strength(skill, "by itself"), test.times[skill])
        for store, each in (("read", more), ("by itself", right / seconds * saved / seconds)):
            for part, share in _shares(learner, skill):
                worth[store, *part] += share * each
        a_level = more / numbers.logits_to_learn * (numbers.level_unlearnt - numbers.level_learnt)
        for below in range(2, level + 1):
            worth["level", kind_of(skill)[0], below] += a_level
        drawn_away = 1 + sum(learner.alike(skill, other) for other in partners_of(skill))
        for other in partners_of(skill):
            nearer = chance * learner.alike(skill, other) / drawn_away * numbers.distance_to_learn
            worth["pair", *sorted((skill, other))] += nearer / seconds
    return {row: each * learner.kept(LASTS_DAYS, *row) for row, each in worth.items()}


def _shares(learner: LearnerB, skill: str) -> Iterator[tuple[tuple[str, ...], float]]:
    numbers, (kind, form) = learner.numbers, kind_of(skill)
    yield (kind,), numbers.share_kind
    yield (kind, form), numbers.share_form
    yield (skill,), numbers.share_skill


def _worth_a_second(
    learner: LearnerB, worth: Mapping[tuple[object, ...], float], skill: str, level: int, minute: float
) -> float:
    numbers, (kind, form) = learner.numbers, kind_of(skill)
    chance, rate = learner.chance_of_right(skill, level, minute), learner.person.rates[skill]
    read = rate * taught(numbers, chance) * (chance + (1 - chance) * numbers.after_miss)
    by_itself = rate * (chance + (1 - chance) * numbers.quick_when_wrong)
    gain = 0.0
    for store, amount in (("read", read), ("by itself", by_itself)):
        gain += amount * numbers.rate_kind * worth[store, kind]
        gain += amount * numbers.rate_form * worth[store, kind, form]
        gain += amount * worth[store, skill]
    levels = range(2, level + 1)
    gain += read * numbers.rate_level * sum(worth.get(("level", kind, each), 0.0) for each in levels)
    pairs = (worth["pair", *sorted((skill, other))] for other in partners_of(skill))
    gain += numbers.rate_pair * rate / 0.12 * sum(pairs)
    seconds = learner.usual_seconds(skill, level, minute)
    seconds += chance * numbers.seconds_after_right + (1 - chance) * numbers.seconds_after_miss
    return gain / seconds
