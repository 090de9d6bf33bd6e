"""A chooser that sees into the learner's head: about what the best rule could reach, and no rule can."""

from __future__ import annotations

from collections.abc import Mapping

from drills.questions import kind_of, skill_names
from tests.measure.learners.learner import Learner
from tests.measure.learners.rules import Moment, at_level, level_of_drill, open_skills
from trainer.practice.choosing import Selection


def seeing(moment: Moment) -> Selection:
    """Return the open skill whose drill adds most to the test's right answers a minute, for each second."""
    state, learner, minute = moment.state, moment.learner, moment.minute
    worth = worths(learner, minute)

    def gain_a_second(skill: str) -> float:
        level = level_of_drill(skill, state.level(kind_of(skill)[0]))
        gain = sum(worth[other] * amount for other, amount in learner.gains(skill, minute).items())
        return gain / learner.usual_seconds(skill, level, minute)

    return at_level(state, max(open_skills(state), key=gain_a_second))


def worths(learner: Learner, minute: float) -> Mapping[str, float]:
    """Return by how much the test's right answers a second rise with the strength of each skill."""
    level = {skill: level_of_drill(skill, learner.numbers.tested_at_level) for skill in skill_names()}
    chances = {skill: learner.chance_of_right(skill, level[skill], minute) for skill in skill_names()}
    times = {skill: learner.usual_seconds(skill, level[skill], minute) for skill in skill_names()}
    right, seconds = sum(chances.values()), sum(times.values())
    more_a_second = dict[str, float]()
    for skill in skill_names():
        saved = _saved(learner, skill, times[skill], minute)
        more_a_second[skill] = (_more_right(learner, chances[skill]) + right / seconds * saved) / seconds
    return more_a_second


def _more_right(learner: Learner, chance: float) -> float:
    return learner.numbers.logits_to_learn * chance * (1 - chance / (1 - learner.numbers.slips))


def _saved(learner: Learner, skill: str, seconds: float, minute: float) -> float:
    longer = learner.numbers.times_as_long_at_first - 1
    return seconds * longer / (1 + longer * (1 - learner.strength(skill, minute)))
