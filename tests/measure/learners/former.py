"""The rule of before, with the state it went by, so that it can be compared with the one there is now.

Levels moved by blocks of twelve first drills, misses and slow answers came back until settled, partners
followed each drill, one drill in eight was harder. `former_choices.csv` has what the program chose by it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from statistics import median
from typing import NamedTuple

from drills.questions import KINDS, kind_of, partners_of, skill_names, skills_at
from progress_store import LONGEST_DAYS, Mastery, Memory, Pace, Result, recall, remembered
from trainer.practice.attempts import floors, levels
from trainer.practice.choosing import Stage

BLOCK, RIGHT_TO_RISE, RIGHT_TO_FALL = 12, 11, 8
FIRSTS_KEPT, RESULTS_KEPT = 20, 10
RETURNS_AFTER = {"miss": 3, "slow": 6, "clean": 6}
MOST_EXTRA, CLEAN_IN_A_ROW, IN_A_ROW_WHEN_NEW, PARTNER_WITHIN = 4, 2, 3, 2
HARDER_ONE_IN, NEW_A_DAY, RIGHT_FOR_NEW, UNSETTLED_FOR_NEW = 8, 2, 0.8, 4


class Met(NamedTuple):
    """A drill of the sitting."""

    skill: str
    result: Result
    above: bool
    stage: Stage


class Asked(NamedTuple):
    """What is asked: a skill at a level, and how much of it is done for the person."""

    skill: str
    level: int
    stage: Stage = "alone"


@dataclass(slots=True)
class Known:
    """What the rule knew of a skill."""

    first_day: date
    last_day: date
    results: list[Result] = field(default_factory=list)
    ratio: float = 0.0
    mastery: Mastery = field(default_factory=Mastery)
    memory: Memory | None = None


class Former:
    """The state of before and what it chose."""

    def __init__(self) -> None:
        self.skills: dict[str, Known] = {}
        self.done: list[Met] = []
        self._levels = {kind: among[0] for kind, among in levels().items()}
        self._blocks: dict[str, tuple[list[bool], list[float]]] = {kind: ([], []) for kind in levels()}
        self._paces: dict[tuple[str, str, int], Pace] = {}
        self._firsts: list[bool] = []

    def level(self, kind: str) -> int:
        """Return the level of a kind."""
        return self._levels[kind]

    def at_level(self, skill: str) -> Asked:
        """Return a skill at the level of its kind."""
        return Asked(skill, self._levels[kind_of(skill)[0]])

    def begin(self) -> None:
        """Begin a sitting."""
        self.done = []

    def take(self, asked: Asked, level: int, right: bool, milliseconds: int, today: date) -> Result:
        """Count a drill of a level in and return how it went; a worked one tells nothing."""
        skill, stage = asked.skill, asked.stage
        above = level > self._levels[kind_of(skill)[0]]
        result: Result = "clean"
        if stage != "worked":
            result = self._step(skill, level, right, milliseconds, today, helped=stage == "half")
        self.done.append(Met(skill, result, above, stage))
        return result

    def _step(
        self, skill: str, level: int, right: bool, milliseconds: int, today: date, *, helped: bool
    ) -> Result:
        kind, form = kind_of(skill)
        pace = self._paces.get((kind, form, level), Pace())
        goal = pace.goal_ms(floors()[kind].of(1))
        result: Result = (
            "miss" if not right else "slow" if helped or milliseconds > (goal or 10**9) else "clean"
        )
        ratio = milliseconds / goal if right and goal else None
        known = self.skills.get(skill)
        first = not helped and (known is None or known.memory is None or today > known.memory.last)
        first = first and (right or level <= self._levels[kind])
        away = (today - known.last_day).days if known else None
        known = self.skills.setdefault(skill, Known(today, today))
        known.last_day = today
        if not helped:
            known.results = [*known.results, result][-RESULTS_KEPT:]
        known.ratio = known.ratio if ratio is None else ratio
        if first:
            known.mastery = known.mastery.after(result, away)
            known.memory = remembered(known.memory, today, result)
            self._firsts = [*self._firsts, right][-FIRSTS_KEPT:]
            if level == self._levels[kind]:
                self._count_in_block(kind, right, ratio)
        if right and not helped:
            self._paces[kind, form, level] = pace.with_time(milliseconds)
        return result

    def _count_in_block(self, kind: str, right: bool, ratio: float | None) -> None:
        rights, ratios = self._blocks[kind]
        rights.append(right)
        ratios += [] if ratio is None else [ratio]
        if len(rights) < BLOCK:
            return
        is_quick = not ratios or median(ratios) <= 1
        up = sum(rights) >= RIGHT_TO_RISE and is_quick
        move = -1 if sum(rights) <= RIGHT_TO_FALL else int(up)
        among = levels()[kind]
        self._levels[kind] = min(max(self._levels[kind] + move, among[0]), among[-1])
        self._blocks[kind] = ([], [])

    def next(self, today: date) -> Asked:
        """Return what is asked next."""
        if introduced := self._introducing():
            return self.at_level(introduced[0])._replace(stage=introduced[1])
        last = {kind_of(met.skill)[0] for met in self.done[-2:]}
        barred = last.pop() if len(self.done) > 1 and len(last) == 1 else None
        found = list(self._selections(today))
        return next((asked for asked in found if kind_of(asked.skill)[0] != barred), found[0])

    def _introducing(self) -> tuple[str, Stage] | None:
        if not self.done:
            return None
        skill = self.done[-1].skill
        others = [place for place, met in enumerate(self.done) if met.skill != skill]
        stages = [met.stage for met in self.done[others[-1] + 1 if others else 0 :]]
        if stages[-1] == "worked":
            return skill, "half"
        if "half" in stages and stages[::-1].index("half") < IN_A_ROW_WHEN_NEW:
            return skill, "alone"
        return None

    def _selections(self, today: date) -> Iterator[Asked]:
        last = self.done[-1].skill if self.done else ""
        if not self.done:
            yield from map(self.at_level, self._easy())
        yield from map(self.at_level, self._returning())
        yield from (self.at_level(skill) for skill in self._partners() if skill != last)
        if len(self.done) % HARDER_ONE_IN == HARDER_ONE_IN - 1:
            harder = (self.at_level(skill) for skill in self._harder() if skill != last)
            yield from (asked._replace(level=asked.level + 1) for asked in harder)
        for source in (self._come_round(today), self._slow()):
            yield from (self.at_level(skill) for skill in source if skill != last)
        yield from (self._worked(skill) for skill in self._new(today) if skill != last)
        yield from (self.at_level(skill) for skill in self._longest_ago() if skill != last)
        yield from map(self._worked, self.open_unmet())
        yield from map(self.at_level, sorted(self.skills))

    def _worked(self, skill: str) -> Asked:
        return self.at_level(skill)._replace(stage="worked")

    def times(self, skill: str) -> int:
        """Return how often a skill was met in this sitting."""
        return sum(met.skill == skill for met in self.done)

    def _last_met(self, skill: str) -> int:
        return max((place for place, met in enumerate(self.done) if met.skill == skill), default=-1)

    def _misses(self, skill: str) -> int:
        return self.skills[skill].results.count("miss")

    def _easy(self) -> list[str]:
        well = [
            skill for skill, known in self.skills.items() if known.results and known.results[-1] == "clean"
        ]
        return sorted(well, key=lambda skill: (self._misses(skill), skill))

    def _returning(self) -> list[str]:
        waiting = []
        for skill in dict.fromkeys(met.skill for met in self.done):
            results = [
                met.result
                for met in self.done
                if met.skill == skill and met.stage == "alone" and not met.above
            ]
            others = len(self.done) - 1 - self._last_met(skill)
            if not _is_settled(results) and others >= RETURNS_AFTER[results[-1]]:
                waiting.append((self._last_met(skill), skill))
        return [skill for _, skill in sorted(waiting)]

    def _partners(self) -> Iterator[str]:
        for met in self.done[: -PARTNER_WITHIN - 1 : -1]:
            yield from (s for s in partners_of(met.skill) if not self.times(s) and s in self.skills)

    def _harder(self) -> list[str]:
        able = [skill for skill in self.skills if self._is_open(skill, self.at_level(skill).level + 1)]
        return sorted(able, key=lambda skill: (self.times(skill), self._misses(skill), skill))

    def _come_round(self, today: date) -> list[str]:
        memories = {s: known.memory for s, known in self.skills.items() if known.memory and not self.times(s)}
        recalled = [
            (recall(memory, today), skill) for skill, memory in memories.items() if _next(memory) <= today
        ]
        return [skill for _, skill in sorted(recalled)]

    def _slow(self) -> list[str]:
        known = {skill: each for skill, each in self.skills.items() if not self.times(skill)}
        slow = [skill for skill, each in known.items() if "miss" in each.results or each.ratio > 1]
        return sorted(slow, key=lambda skill: (-self._misses(skill), -known[skill].ratio, skill))

    def _new(self, today: date) -> Iterator[str]:
        met_today = sum(known.first_day == today for known in self.skills.values())
        met_today += len({met.skill for met in self.done} - self.skills.keys())
        unsettled = sum(known.mastery.word == "new" for known in self.skills.values())
        going_well = sum(self._firsts) >= RIGHT_FOR_NEW * len(self._firsts)
        met = {kind_of(skill)[0] for skill in self.skills}
        yield from (skill for skill in self.open_unmet() if kind_of(skill)[0] not in met)
        if met_today < NEW_A_DAY and unsettled <= UNSETTLED_FOR_NEW and going_well:
            yield from self.open_unmet()

    def _longest_ago(self) -> list[str]:
        met = sorted(self.skills, key=lambda skill: (self.skills[skill].last_day, skill))
        return sorted(met, key=lambda skill: (self.times(skill), self._last_met(skill)))

    def open_unmet(self) -> list[str]:
        """Return the skills of the person's levels that were never met, the kinds with fewest known first."""
        known = [kind_of(skill)[0] for skill in self.skills]
        unmet = [skill for skill in self.open() if skill not in self.skills]
        return sorted(unmet, key=lambda skill: known.count(kind_of(skill)[0]))

    def open(self) -> list[str]:
        """Return the skills of the person's levels."""
        return [skill for skill in skill_names() if self._is_open(skill, self.at_level(skill).level)]

    def _is_open(self, skill: str, level: int) -> bool:
        kind, form = kind_of(skill)
        return level in KINDS[kind].levels and skill in skills_at(kind, form, level)


def _next(memory: Memory) -> date:
    """Return the day on which a skill came round: that of the scheduling library, rounded."""
    return memory.last + timedelta(days=min(max(round(memory.lasting_days), 1), LONGEST_DAYS))


def _is_settled(results: Sequence[Result]) -> bool:
    since = list[Result]()
    for result in results:
        since.append(result)
        if since[0] == "clean" or since[-CLEAN_IN_A_ROW:] == ["clean"] * CLEAN_IN_A_ROW:
            since.clear()
    return not since or len(since) > MOST_EXTRA
