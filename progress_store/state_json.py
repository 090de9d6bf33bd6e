"""The state as JSON fields and back, without loss."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from progress_store.pace import Form, Gaps, Pace
from progress_store.schedule import Memory
from progress_store.standing import Level, Standing
from progress_store.state import Rules, Skill, State


def rules_to_json(rules: Rules) -> dict[str, object]:
    """Return the rules as JSON fields, by which a state made under other rules is told apart."""
    floors = {kind: [floor.milliseconds, floor.each] for kind, floor in sorted(rules.floors.items())}
    levels = {kind: [among[0], among[-1]] for kind, among in sorted(rules.levels.items())}
    return {"floors": floors, "levels": levels}


def state_to_json(state: State) -> dict[str, object]:
    """Return the state as JSON fields, without the rules."""
    return {
        "attempts": state.attempts,
        "last": None if state.last is None else [state.last[0].isoformat(), state.last[1]],
        "last_day": _text(state.last_day),
        "gaps": {means: list(gaps.recent) for means, gaps in state.gaps.items()},
        "paces": [[*form, list(pace.recent), pace.best] for form, pace in state.paces.items()],
        "skills": {skill: _skill_to_json(known) for skill, known in state.skills.items()},
        "levels": {
            kind: [level.level, list(level.rights), list(level.ratios)]
            for kind, level in state.levels.items()
        },
        "firsts": list(state.firsts),
    }


def state_from_json(fields: Mapping[str, Any], rules: Rules) -> State:
    """Return the state of fields that `state_to_json` made; raises ValueError, TypeError or KeyError."""
    last = fields["last"]
    return State(
        rules,
        attempts=fields["attempts"],
        last=None if last is None else (datetime.fromisoformat(last[0]), last[1]),
        last_day=_day(fields["last_day"]),
        gaps={means: Gaps.of(gaps) for means, gaps in fields["gaps"].items()},
        paces={Form(*form): Pace(tuple(recent), best) for *form, recent, best in fields["paces"]},
        skills={skill: _skill_from_json(known) for skill, known in fields["skills"].items()},
        levels={
            kind: Level(level, tuple(rights), tuple(ratios))
            for kind, (level, rights, ratios) in fields["levels"].items()
        },
        firsts=tuple(fields["firsts"]),
    )


def _skill_to_json(skill: Skill) -> dict[str, object]:
    memory = skill.memory
    return {
        "kind": skill.kind,
        "first_day": skill.first_day.isoformat(),
        "last_day": skill.last_day.isoformat(),
        "form": list(skill.form),
        "marks": skill.marks,
        "results": list(skill.results),
        "ratio": skill.ratio,
        "standing": list(skill.standing),
        "memory": None if memory is None else [*memory[:2], memory.last.isoformat(), memory.next.isoformat()],
    }


def _skill_from_json(fields: Mapping[str, Any]) -> Skill:
    memory = fields["memory"]
    return Skill(
        kind=fields["kind"],
        first_day=date.fromisoformat(fields["first_day"]),
        last_day=date.fromisoformat(fields["last_day"]),
        form=Form(*fields["form"]),
        marks=fields["marks"],
        results=tuple(fields["results"]),
        ratio=fields["ratio"],
        standing=Standing(*fields["standing"]),
        memory=None if memory is None else Memory(*memory[:2], *map(date.fromisoformat, memory[2:])),
    )


def _text(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)
