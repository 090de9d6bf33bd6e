"""What to ask next: returns, what has come round, slow, a little harder, new; always something."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date

from drills.questions.kinds import KINDS, SKILL_NAMES, kind_of, skills_at
from progress_store import State
from progress_store.schedule import recall
from trainer.practice.choice import Choice, Reason
from trainer.practice.session import Session

HARDER_ONE_IN = 8
NEW_A_DAY = 2
RIGHT_FOR_NEW = 0.8
UNSETTLED_FOR_NEW = 4


def next_choice(state: State, today: date, session: Session) -> Choice:
    """Return the next drill's skill; never a third of one kind running while there is another.

    A skill that is being introduced is gone on with. Skills in the log that this version does not
    know are left alone.
    """
    if (introduced := session.introducing()) is not None:
        skill, stage = introduced
        return Choice(skill, level_of(state, skill), "new", stage)
    state = replace(state, skills={s: known for s, known in state.skills.items() if s in SKILL_NAMES})
    barred = session.kinds_running()
    choices = list(_choices(state, today, session))
    choice = next((choice for choice in choices if choice.kind != barred), choices[0])
    return choice._replace(stage="worked") if choice.reason == "new" else choice


def level_of(state: State, skill: str) -> int:
    """Return the level at which a person meets a skill now: that of its kind."""
    return state.level(kind_of(skill)[0])


def _choices(state: State, today: date, session: Session) -> Iterator[Choice]:
    if not session.done:
        yield from _easy(state, today)
    for reason, source in _SOURCES:
        if reason == "harder" and len(session.done) % HARDER_ONE_IN != HARDER_ONE_IN - 1:
            continue
        above = int(reason == "harder")
        for skill in source(state, today, session):
            if reason == "return" or session.last_met(skill) != len(session.done) - 1 or not session.done:
                yield Choice(skill, level_of(state, skill) + above, reason)
    yield from (Choice(skill, level_of(state, skill), "new") for skill in _open_skills(state))
    yield from (Choice(skill, level_of(state, skill), "known") for skill in sorted(state.skills))


def _easy(state: State, today: date) -> Iterator[Choice]:
    """Yield what goes best, so that a sitting starts well."""
    well = [skill for skill, known in state.skills.items() if known.results and known.results[-1] == "clean"]
    for skill in sorted(well, key=lambda skill: (state.skills[skill].results.count("miss"), skill)):
        yield Choice(skill, level_of(state, skill), "round" if _is_round(state, today, skill) else "known")


def _is_round(state: State, today: date, skill: str) -> bool:
    comes = state.skills[skill].next
    return comes is not None and comes <= today


def _returning(state: State, today: date, session: Session) -> Iterator[str]:
    yield from session.returns()


def _partners(state: State, today: date, session: Session) -> Iterator[str]:
    yield from (skill for skill in session.partners() if skill in state.skills)


def _come_round(state: State, today: date, session: Session) -> Iterator[str]:
    """Yield the skills whose day has come and that this sitting has not met, the least sure first."""
    round_again = [s for s in state.skills if _is_round(state, today, s) and not session.times(s)]

    def sureness(skill: str) -> float:
        memory = state.skills[skill].memory
        return recall(memory, today) if memory else 0.0

    yield from sorted(round_again, key=lambda skill: (sureness(skill), skill))


def _slow(state: State, today: date, session: Session) -> Iterator[str]:
    """Yield skills that go wrong or slowly, by misses of the last ten, then by time against goal."""
    known = {skill: entry for skill, entry in state.skills.items() if not session.times(skill)}
    slow = [s for s, entry in known.items() if "miss" in entry.results or (entry.ratio or 0) > 1]
    yield from sorted(slow, key=lambda s: (-known[s].results.count("miss"), -(known[s].ratio or 0), s))


def _harder(state: State, today: date, session: Session) -> Iterator[str]:
    """Yield known skills that the level above trains, of the steadiest kind first."""
    able = [
        skill
        for skill in state.skills
        if level_of(state, skill) + 1 in KINDS[kind_of(skill)[0]].levels
        and skill in skills_at(*kind_of(skill), level_of(state, skill) + 1)
    ]
    yield from sorted(able, key=lambda s: (session.times(s), state.skills[s].results.count("miss"), s))


def _new(state: State, today: date, session: Session) -> Iterator[str]:
    """Yield skills not met before: two a day while what is known goes well; a kind never met at once."""
    met_today = sum(known.first_day == today for known in state.skills.values())
    met_today += len({done.skill for done in session.done} - set(state.skills))
    unsettled = sum(known.word == "new" for known in state.skills.values())
    going_well = sum(state.firsts) >= RIGHT_FOR_NEW * len(state.firsts)
    met = {kind_of(skill)[0] for skill in state.skills}
    yield from (skill for skill in _open_skills(state) if kind_of(skill)[0] not in met)
    if met_today < NEW_A_DAY and unsettled <= UNSETTLED_FOR_NEW and going_well:
        yield from _open_skills(state)


def _open_skills(state: State) -> list[str]:
    """Return the skills of the person's levels that were never met, the kinds with fewest known first."""
    known = [kind_of(skill)[0] for skill in state.skills]
    unmet = [skill for skill in SKILL_NAMES if skill not in state.skills and _is_open(state, skill)]
    return sorted(unmet, key=lambda skill: known.count(kind_of(skill)[0]))


def _is_open(state: State, skill: str) -> bool:
    kind, form = kind_of(skill)
    return skill in skills_at(kind, form, state.level(kind))


def _known(state: State, today: date, session: Session) -> Iterator[str]:
    """Yield every known skill, those least met in this sitting and longest ago first."""
    met = sorted(state.skills, key=lambda skill: (state.skills[skill].last_day, skill))
    yield from sorted(met, key=lambda skill: (session.times(skill), session.last_met(skill)))


_SOURCES: tuple[tuple[Reason, Callable[[State, date, Session], Iterator[str]]], ...] = (
    ("return", _returning),
    ("partner", _partners),
    ("harder", _harder),
    ("round", _come_round),
    ("slow", _slow),
    ("new", _new),
    ("known", _known),
)
