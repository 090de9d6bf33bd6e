"""What is asked next and why, and how much of it is done for the person."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from typing import Final, Literal, NamedTuple

from drills.questions import KINDS, kind_of, skill_names, skills_at
from progress_store import Result, State, recall

Reason = Literal["return", "look-alike", "begin", "new", "round", "known"]
Stage = Literal["worked", "half", "alone"]

RULE: Final = "four running, 2"
"""The name and the version of this rule, as the log has them; the first version went by blocks of twelve."""
RETURNS_AFTER: Final = 8
"""So many other drills before a skill that was missed is met again, once."""
NEW_A_DAY: Final = 2
RECENT: Final = 2
"""After so many drills of one kind comes another one; what was taken for another is asked within them."""


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


class Done(NamedTuple):
    """One drill of this sitting; ``taken_for`` is the skill whose answer was given, empty where it is none.

    One that was worked or half worked says nothing of the person.
    """

    skill: str
    kind: str
    result: Result
    taken_for: str = ""
    stage: Stage = "alone"


class History(NamedTuple):
    """The drills of this sitting in order."""

    done: tuple[Done, ...] = ()

    def with_drill(self, done: Done) -> History:
        """Return the sitting after one more drill."""
        return History((*self.done, done))

    @property
    def counted(self) -> tuple[Done, ...]:
        """The drills that were left to the person."""
        return tuple(done for done in self.done if done.stage == "alone")

    @property
    def last(self) -> str:
        """The skill of the last drill, empty before the first."""
        return self.done[-1].skill if self.done else ""

    @property
    def half_to_come(self) -> str:
        """The skill that was worked just now and comes half worked next; empty where there is none."""
        return self.last if self.done and self.done[-1].stage == "worked" else ""

    def look_alikes(self) -> Iterator[str]:
        """Yield what one of the last two drills was taken for, where that was not met since."""
        for place in range(len(self.done) - 1, max(-1, len(self.done) - 1 - RECENT), -1):
            if (other := self.done[place].taken_for) and self.last_met(other) < place:
                yield other

    def kinds_running(self, number: int = RECENT) -> str | None:
        """Return the kind of the last drills where so many of them were of one kind."""
        last = {done.kind for done in self.done[-number:]}
        return last.pop() if len(self.done) >= number and len(last) == 1 else None

    def times(self, skill: str) -> int:
        """Return how often a skill was met in this sitting."""
        return sum(done.skill == skill for done in self.done)

    def last_met(self, skill: str) -> int:
        """Return the place of a skill's last drill, -1 where it was not met."""
        return max((place for place, done in enumerate(self.done) if done.skill == skill), default=-1)

    def others_since(self, skill: str) -> int:
        """Return how many other drills were done since a skill was met, all where it was not."""
        return len(self.done) - 1 - self.last_met(skill)


def next_selection(state: State, today: date, history: History) -> Selection:
    """Return the next drill's skill: never the same twice running, never a third of a kind running.

    Where there is no other, more of the same is better than nothing. Skills in the log that this version
    does not know are left alone.
    """
    if skill := history.half_to_come:
        return Selection(skill, level_of(state, skill), "new", "half")
    state = replace(state, skills={s: known for s, known in state.skills.items() if s in skill_names()})
    selections = [
        Selection(skill, level_of(state, skill), reason, "alone" if skill in state.skills else "worked")
        for reason, source in _SOURCES
        for skill in source(state, today, history)
    ]
    fitting = (each for each in selections if _fits(each, history))
    others = (each for each in selections if each.skill != history.last)
    return next(fitting, None) or next(others, selections[0])


def level_of(state: State, skill: str) -> int:
    """Return the level at which a person meets a skill now: that of its kind."""
    return state.level(kind_of(skill)[0])


def _fits(selection: Selection, history: History) -> bool:
    """Whether no skill and no kind runs too long, the half worked drill after a worked one counted in."""
    running = history.kinds_running(1 if selection.stage == "worked" else RECENT)
    return selection.skill != history.last and selection.kind != running


def _owed(state: State, today: date, history: History) -> Iterator[str]:
    """Yield what was missed and waits no longer, the longest waiting first: 8 others, or another sitting."""
    owed = [skill for skill, known in state.skills.items() if known.owed]
    ready = [s for s in owed if not history.times(s) or history.others_since(s) >= RETURNS_AFTER]
    yield from sorted(ready, key=lambda skill: state.skills[skill].met)


def _look_alikes(state: State, today: date, history: History) -> Iterator[str]:
    """Yield what was answered just now in place of what was asked, where the person knows it."""
    yield from (skill for skill in history.look_alikes() if skill in state.skills)


def _right_last_time(state: State, today: date, history: History) -> Iterator[str]:
    """Yield, at the beginning, what was right the last time it was met."""
    if not history.done:
        known = (*_come_round(state, today, history), *_longest_ago(state, today, history))
        yield from (s for s in known if state.skills[s].results and state.skills[s].results[-1] != "miss")


def _new(state: State, today: date, history: History) -> Iterator[str]:
    """Yield what was shown and not tried yet; then skills not met before, two a day."""
    yield from (skill for skill, known in state.skills.items() if known.begun and not known.results)
    begun = {skill for skill, known in state.skills.items() if known.begun and known.first_day == today}
    if len(begun | ({done.skill for done in history.done} - state.skills.keys())) < NEW_A_DAY:
        yield from _open_skills(state)


def _open_skills(state: State) -> list[str]:
    """Return the skills of the person's levels that were never met, the kinds with fewest known first."""
    known = [kind_of(skill)[0] for skill in state.skills]
    unmet = [skill for skill in skill_names() if skill not in state.skills and _is_open(state, skill)]
    return sorted(unmet, key=lambda skill: known.count(kind_of(skill)[0]))


def _is_open(state: State, skill: str) -> bool:
    """Whether the person's level of the kind trains a skill, or one below does that was passed without it."""
    kind, form = kind_of(skill)
    levels = range(KINDS[kind].lowest, state.level(kind) + 1)
    return any(skill in skills_at(kind, form, level) for level in reversed(levels))


def _come_round(state: State, today: date, history: History) -> Iterator[str]:
    """Yield the skills whose day has come, those least likely to be recalled first."""
    found = [
        (recall(known.memory, today), skill)
        for skill, known in state.skills.items()
        if known.memory is not None and known.memory.next <= today and not history.times(skill)
    ]
    yield from (skill for _, skill in sorted(found))


def _longest_ago(state: State, today: date, history: History) -> Iterator[str]:
    """Yield every known skill, the one met longest ago first, counted in drills across days."""
    yield from sorted(state.skills, key=lambda skill: (history.last_met(skill), state.skills[skill].met))


def _more_new(state: State, today: date, history: History) -> Iterator[str]:
    """Yield further new skills, where nothing at all is known."""
    yield from _open_skills(state)


_SOURCES: tuple[tuple[Reason, Callable[[State, date, History], Iterator[str]]], ...] = (
    ("look-alike", _look_alikes),
    ("return", _owed),
    ("begin", _right_last_time),
    ("new", _new),
    ("round", _come_round),
    ("known", _longest_ago),
    ("new", _more_new),
)
