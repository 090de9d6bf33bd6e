"""What is asked next and why, and how much of it is done for the person."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from typing import Literal, NamedTuple

from drills.questions import KINDS, kind_of, partners_of, skill_names, skills_at
from progress_store import Result, State, recall

Reason = Literal["return", "partner", "round", "slow", "harder", "new", "known"]
Stage = Literal["worked", "half", "alone"]


class Selection(NamedTuple):
    """A skill to be met at a level, and why; ``stage`` says how much of the drill is done for the person."""

    skill: str
    level: int
    reason: Reason
    stage: Stage = "alone"

    @property
    def kind(self) -> str:
        """The kind of question."""
        return kind_of(self.skill)[0]


RETURNS_AFTER = {"miss": 3, "slow": 6, "clean": 6}
"""So many other drills before a skill that was missed, or not yet clean twice, is met again."""
MOST_EXTRA = 4
CLEAN_IN_A_ROW = 2
IN_A_ROW_WHEN_NEW = 3
"""A new skill is shown worked, then half worked, then met so often before others come between."""
PARTNER_WITHIN = 2


class Done(NamedTuple):
    """One drill of this session; one that was worked or half worked says nothing of the person."""

    skill: str
    kind: str
    result: Result
    above: bool = False
    stage: Stage = "alone"


class History(NamedTuple):
    """The drills of this session in order."""

    done: tuple[Done, ...] = ()

    def with_drill(self, done: Done) -> History:
        """Return the session after one more drill."""
        return History((*self.done, done))

    @property
    def counted(self) -> tuple[Done, ...]:
        """The drills that were left to the person."""
        return tuple(done for done in self.done if done.stage == "alone")

    def introducing(self) -> tuple[str, Stage] | None:
        """Return the skill that is being introduced and how it is met next, None where none is."""
        if not self.done:
            return None
        skill, stages = self.done[-1].skill, [done.stage for done in self._running()]
        if stages[-1] == "worked":
            return skill, "half"
        if "half" in stages and stages[::-1].index("half") < IN_A_ROW_WHEN_NEW:
            return skill, "alone"
        return None

    def partners(self) -> Iterator[str]:
        """Yield what the last two drills are easily taken for and this session has not met."""
        for done in self.done[: -PARTNER_WITHIN - 1 : -1]:
            yield from (partner for partner in partners_of(done.skill) if not self.times(partner))

    def _running(self) -> tuple[Done, ...]:
        """Return the last drills that were all of one skill."""
        others = [index for index, done in enumerate(self.done) if done.skill != self.done[-1].skill]
        return self.done[others[-1] + 1 :] if others else self.done

    def kinds_running(self) -> str | None:
        """Return the kind of the last two drills where they were of one kind."""
        last = {done.kind for done in self.done[-2:]}
        return last.pop() if len(self.done) > 1 and len(last) == 1 else None

    def times(self, skill: str) -> int:
        """Return how often a skill was met in this session."""
        return sum(done.skill == skill for done in self.done)

    def last_met(self, skill: str) -> int:
        """Return the index of a skill's last drill, -1 where it was not met."""
        return max((index for index, done in enumerate(self.done) if done.skill == skill), default=-1)

    def returns(self) -> Iterator[str]:
        """Yield the skills that are to be met again now, the longest waiting first.

        Missed: after 3 others; slow, or clean once after that: after 6; done at two clean in a row
        or after 4 extra drills. A miss on a drill above the level is not sent on.
        """
        waiting = []
        for skill in dict.fromkeys(done.skill for done in self.done):
            results = [done.result for done in self.counted if done.skill == skill and not done.above]
            if _is_settled(results):
                continue
            others = len(self.done) - 1 - self.last_met(skill)
            if others >= RETURNS_AFTER[results[-1]]:
                waiting.append((self.last_met(skill), skill))
        yield from (skill for _, skill in sorted(waiting))


def _is_settled(results: list[Result]) -> bool:
    """Whether nothing is open: two clean in a row settle what was before, four extra drills are the most."""
    since = list[Result]()
    for result in results:
        since.append(result)
        if since[0] == "clean" or since[-CLEAN_IN_A_ROW:] == ["clean"] * CLEAN_IN_A_ROW:
            since.clear()
    return not since or len(since) > MOST_EXTRA


HARDER_ONE_IN = 8
NEW_A_DAY = 2
RIGHT_FOR_NEW = 0.8
UNSETTLED_FOR_NEW = 4


def next_selection(state: State, today: date, history: History) -> Selection:
    """Return the next drill's skill; never a third of one kind running while there is another.

    A skill that is being introduced is gone on with. Skills in the log that this version does not
    know are left alone.
    """
    if (introduced := history.introducing()) is not None:
        skill, stage = introduced
        return Selection(skill, level_of(state, skill), "new", stage)
    state = replace(state, skills={s: known for s, known in state.skills.items() if s in skill_names()})
    barred = history.kinds_running()
    selections = list(_selections(state, today, history))
    first = next((each for each in selections if each.kind != barred), selections[0])
    return first._replace(stage="worked") if first.reason == "new" else first


def level_of(state: State, skill: str) -> int:
    """Return the level at which a person meets a skill now: that of its kind."""
    return state.level(kind_of(skill)[0])


def _selections(state: State, today: date, history: History) -> Iterator[Selection]:
    if not history.done:
        yield from _easy(state, today)
    for reason, source in _SOURCES:
        if reason == "harder" and len(history.done) % HARDER_ONE_IN != HARDER_ONE_IN - 1:
            continue
        above = int(reason == "harder")
        for skill in source(state, today, history):
            if reason == "return" or history.last_met(skill) != len(history.done) - 1 or not history.done:
                yield Selection(skill, level_of(state, skill) + above, reason)
    yield from (Selection(skill, level_of(state, skill), "new") for skill in _open_skills(state))
    yield from (Selection(skill, level_of(state, skill), "known") for skill in sorted(state.skills))


def _easy(state: State, today: date) -> Iterator[Selection]:
    """Yield what goes best, so that a session starts well."""
    well = [skill for skill, known in state.skills.items() if known.results and known.results[-1] == "clean"]
    for skill in sorted(well, key=lambda skill: (state.skills[skill].results.count("miss"), skill)):
        yield Selection(skill, level_of(state, skill), "round" if _is_round(state, today, skill) else "known")


def _is_round(state: State, today: date, skill: str) -> bool:
    comes = state.skills[skill].next
    return comes is not None and comes <= today


def _returning(state: State, today: date, history: History) -> Iterator[str]:
    yield from history.returns()


def _partners_met(state: State, today: date, history: History) -> Iterator[str]:
    yield from (skill for skill in history.partners() if skill in state.skills)


def _come_round(state: State, today: date, history: History) -> Iterator[str]:
    """Yield the skills whose day has come and that this session has not met, the least sure first."""
    round_again = [s for s in state.skills if _is_round(state, today, s) and not history.times(s)]

    def sureness(skill: str) -> float:
        memory = state.skills[skill].memory
        return recall(memory, today) if memory else 0.0

    yield from sorted(round_again, key=lambda skill: (sureness(skill), skill))


def _slow(state: State, today: date, history: History) -> Iterator[str]:
    """Yield skills that go wrong or slowly, by misses of the last ten, then by time against goal."""
    known = {skill: entry for skill, entry in state.skills.items() if not history.times(skill)}
    slow = [s for s, entry in known.items() if "miss" in entry.results or (entry.ratio or 0) > 1]
    yield from sorted(slow, key=lambda s: (-known[s].results.count("miss"), -(known[s].ratio or 0), s))


def _harder(state: State, today: date, history: History) -> Iterator[str]:
    """Yield known skills that the level above trains, of the steadiest kind first."""
    able = [
        skill
        for skill in state.skills
        if level_of(state, skill) + 1 in KINDS[kind_of(skill)[0]].levels
        and skill in skills_at(*kind_of(skill), level_of(state, skill) + 1)
    ]
    yield from sorted(able, key=lambda s: (history.times(s), state.skills[s].results.count("miss"), s))


def _new(state: State, today: date, history: History) -> Iterator[str]:
    """Yield skills not met before: two a day while what is known goes well; a kind never met at once."""
    met_today = sum(known.first_day == today for known in state.skills.values())
    met_today += len({done.skill for done in history.done} - set(state.skills))
    unsettled = sum(known.word == "new" for known in state.skills.values())
    going_well = sum(state.firsts) >= RIGHT_FOR_NEW * len(state.firsts)
    met = {kind_of(skill)[0] for skill in state.skills}
    yield from (skill for skill in _open_skills(state) if kind_of(skill)[0] not in met)
    if met_today < NEW_A_DAY and unsettled <= UNSETTLED_FOR_NEW and going_well:
        yield from _open_skills(state)


def _open_skills(state: State) -> list[str]:
    """Return the skills of the person's levels that were never met, the kinds with fewest known first."""
    known = [kind_of(skill)[0] for skill in state.skills]
    unmet = [skill for skill in skill_names() if skill not in state.skills and _is_open(state, skill)]
    return sorted(unmet, key=lambda skill: known.count(kind_of(skill)[0]))


def _is_open(state: State, skill: str) -> bool:
    kind, form = kind_of(skill)
    return skill in skills_at(kind, form, state.level(kind))


def _known(state: State, today: date, history: History) -> Iterator[str]:
    """Yield every known skill, those least met in this session and longest ago first."""
    met = sorted(state.skills, key=lambda skill: (state.skills[skill].last_day, skill))
    yield from sorted(met, key=lambda skill: (history.times(skill), history.last_met(skill)))


_SOURCES: tuple[tuple[Reason, Callable[[State, date, History], Iterator[str]]], ...] = (
    ("return", _returning),
    ("partner", _partners_met),
    ("harder", _harder),
    ("round", _come_round),
    ("slow", _slow),
    ("new", _new),
    ("known", _known),
)
