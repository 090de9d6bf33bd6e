"""Everything that follows from the attempts and the rules, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Final, NamedTuple

from progress_store.attempt import APART, Attempt
from progress_store.coin import comes_back
from progress_store.pace import (
    MEASURED_ANEW_AFTER,
    Floor,
    Gaps,
    Pace,
    PaceKey,
    Result,
    counts_for_pace,
    net_ms,
    result,
)
from progress_store.schedule import MOVING_PURPOSES, Level, Mastery, Memory, Word, remembered

RESULTS_KEPT: Final = 10
ONE_LEVEL: Final = range(1, 2)


@dataclass(frozen=True, slots=True)
class Rules:
    """What the store must be told of the kinds: the floor of their pace goals and their levels."""

    floors: Mapping[str, Floor]
    levels: Mapping[str, range]

    def floor_ms(self, kind: str, marks: int) -> int:
        """Return the floor of the pace goal; a kind without one has none."""
        return self.floors.get(kind, Floor(0)).of(marks)

    def levels_of(self, kind: str) -> range:
        """Return the levels of a kind, 1 alone for a kind that is not known."""
        return self.levels.get(kind, ONE_LEVEL)


class Judged(NamedTuple):
    """An attempt as it was judged, against the goal it had then; times in ms, days since the skill was met.

    `first` says that it was the skill's first drill of the day, which moves schedule and mastery.
    """

    attempt: Attempt
    pace_key: PaceKey
    result: Result
    net_ms: int | None
    goal_ms: int | None
    first: bool
    days_away: int | None


class Skill(NamedTuple):
    """What is known of a skill; `results`: the last 10 without what is apart.

    `met` is the number of the attempt that met it last. `begun` says that the round of the day met it
    first, and did not find it placed or picked; `owed` that a miss there has not come back yet.
    """

    kind: str
    first_day: date
    last_day: date
    pace_key: PaceKey
    marks: int
    results: tuple[Result, ...] = ()
    met: int = 0
    begun: bool = False
    owed: bool = False
    mastery: Mastery = Mastery()
    memory: Memory | None = None

    @property
    def word(self) -> Word:
        """One of new, right, quick, kept."""
        return self.mastery.word

    @property
    def next(self) -> date | None:
        """The practice day on which the skill comes round, None while no first drill has counted."""
        return self.memory.next if self.memory is not None else None


@dataclass(frozen=True, slots=True)
class State:
    """The state after some attempts in order of time.

    Gaps are by input device, paces by pace key, levels by kind.
    """

    rules: Rules
    attempts: int = 0
    last: tuple[datetime, str] | None = None
    last_day: date | None = None
    gaps: Mapping[str, Gaps] = field(default_factory=dict)
    paces: Mapping[PaceKey, Pace] = field(default_factory=dict)
    skills: Mapping[str, Skill] = field(default_factory=dict)
    levels: Mapping[str, Level] = field(default_factory=dict)

    @classmethod
    def of(cls, attempts: Iterable[Attempt], rules: Rules) -> State:
        """Return the state after all the attempts, in whatever order they come."""
        state = cls(rules)
        for attempt in sorted(attempts, key=lambda attempt: attempt.order):
            state = state.after(attempt)
        return state

    def after(self, attempt: Attempt) -> State:
        """Return the state after one attempt later than all before; raises ValueError for an earlier one."""
        return self.step(attempt)[0]

    def step(self, attempt: Attempt) -> tuple[State, Judged]:
        """Return the state after one attempt later than all before, and how the attempt was judged."""
        if self.last is not None and attempt.order <= self.last:
            raise ValueError("attempts are added in order of time")
        day = attempt.practice_day
        paces = self._paces_on(day)
        judged = self._judged(attempt, day, paces)
        return State(
            self.rules,
            self.attempts + 1,
            attempt.order,
            max(day, self.last_day or day),
            self._gaps_after(attempt),
            _paces_after(paces, judged),
            self._skills_after(judged, day),
            self._levels_after(attempt),
        ), judged

    def level(self, kind: str) -> int:
        """Return the level of a kind, its lowest at first."""
        return self.standing(kind).level

    def standing(self, kind: str) -> Level:
        """Return the level of a kind and how many went right running at it."""
        return self.levels.get(kind) or Level(self.rules.levels_of(kind)[0])

    def goal_ms(self, key: PaceKey, marks: int) -> int | None:
        """Return the pace goal for a drill of this pace key and so many marks, None while there is none."""
        return self.paces.get(key, Pace()).goal_ms(self.rules.floor_ms(key.kind, marks))

    def _paces_on(self, day: date) -> Mapping[PaceKey, Pace]:
        """Return the paces that still hold on a day: none after 21 days without practice."""
        away = self.last_day is not None and day - self.last_day >= MEASURED_ANEW_AFTER
        return {} if away else self.paces

    def _judged(self, attempt: Attempt, day: date, paces: Mapping[PaceKey, Pace]) -> Judged:
        key = PaceKey.of(attempt)
        goal = paces.get(key, Pace()).goal_ms(self.rules.floor_ms(attempt.kind, attempt.marks))
        net = net_ms(attempt, self.gaps.get(attempt.means, Gaps()))
        skill = self.skills.get(attempt.skill)
        away = (day - skill.last_day).days if skill is not None else None
        first = self._is_first(attempt, day, skill)
        return Judged(attempt, key, result(attempt, net, goal), net, goal, first, away)

    @staticmethod
    def _is_first(attempt: Attempt, day: date, skill: Skill | None) -> bool:
        """Whether an attempt moves schedule and mastery: unhelped, and the skill's first of the day."""
        if not _moves(attempt):
            return False
        return skill is None or skill.memory is None or day > skill.memory.last

    def _gaps_after(self, attempt: Attempt) -> Mapping[str, Gaps]:
        if not attempt.gaps:
            return self.gaps
        return {**self.gaps, attempt.means: self.gaps.get(attempt.means, Gaps()).after(attempt.gaps)}

    def _skills_after(self, judged: Judged, day: date) -> Mapping[str, Skill]:
        """Return the skills after an attempt; a yardstick measures and leaves them as they are."""
        if judged.attempt.purpose == "yardstick":
            return self.skills
        return {**self.skills, judged.attempt.skill: self._skill_after(judged, day)}

    def _skill_after(self, judged: Judged, day: date) -> Skill:
        attempt = judged.attempt
        begun, is_apart = attempt.purpose in ("today", "walk"), attempt.purpose in APART
        known = self.skills.get(attempt.skill) or Skill(
            attempt.kind, day, day, judged.pace_key, attempt.marks, begun=begun
        )
        is_missed = not attempt.right and not known.owed and comes_back(attempt)
        owed = is_missed if attempt.purpose == "today" else known.owed
        return Skill(
            known.kind,
            known.first_day,
            max(day, known.last_day),
            judged.pace_key,
            attempt.marks,
            known.results if is_apart else (*known.results, judged.result)[-RESULTS_KEPT:],
            self.attempts,
            known.begun,
            owed,
            known.mastery.after(judged.result, judged.days_away) if judged.first else known.mastery,
            remembered(known.memory, day, judged.result) if judged.first else known.memory,
        )

    def _levels_after(self, attempt: Attempt) -> Mapping[str, Level]:
        """Return the levels after an attempt: only what is unhelped and at the level itself tells of it."""
        standing, among = self.standing(attempt.kind), self.rules.levels_of(attempt.kind)
        if not _moves(attempt):
            return self.levels
        if attempt.level == standing.level:
            return {**self.levels, attempt.kind: standing.after(attempt.right, among)}
        if attempt.purpose == "placing" and attempt.right:
            return {**self.levels, attempt.kind: standing.placed(attempt.level, among)}
        return self.levels


def replay(attempts: Iterable[Attempt], rules: Rules) -> tuple[State, list[Judged]]:
    """Return the state after all the attempts and how each was judged, in order of time."""
    state, judged = State(rules), []
    for attempt in sorted(attempts, key=lambda attempt: attempt.order):
        state, judgement = state.step(attempt)
        judged.append(judgement)
    return state, judged


def _moves(attempt: Attempt) -> bool:
    return attempt.purpose in MOVING_PURPOSES and not attempt.helped


def _paces_after(paces: Mapping[PaceKey, Pace], judged: Judged) -> Mapping[PaceKey, Pace]:
    if judged.net_ms is None or not counts_for_pace(judged.attempt):
        return paces
    return {**paces, judged.pace_key: paces.get(judged.pace_key, Pace()).with_time(judged.net_ms)}
